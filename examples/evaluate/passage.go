package main

import (
	"fmt"

	"fifthwise/examples/internal/plain"
	"fifthwise/pkg/evaluate"
)

// longest bounds the chords of a passage that are listed.
const longest = 24

// passage lists the chords of a passage, both readings side by side.
func passage(n int, p *evaluate.Passage) string {
	t := table{align: ">><<<<<>"}
	t.add("bar", "beat", "chord", "analyst", "", "reading", "", "confidence")
	chords := 0
	for i := p.First; i <= p.Last; i++ {
		if !evaluate.Differs(p.Piece, p.Reading, i) {
			continue
		}
		if chords++; chords > longest {
			continue
		}
		want, got := &p.Piece.Answers[i], &p.Reading.Chords[i]
		e := &got.Event
		t.add(e.Bar, e.Beat, e.Symbol, want.Key, want.Numeral, got.Key, got.Numeral, got.Confidence)
	}
	text := fmt.Sprintf("%d. %s, %s, %s\n%s", n, name(p.Piece), bars(p), plain.Counted(chords, "chord"), &t)
	if chords > longest {
		text += fmt.Sprintf("and %d more\n", chords-longest)
	}
	return text
}

func name(p *evaluate.Piece) string {
	if p.Corpus == "" {
		return p.ID
	}
	return p.ID + " (" + p.Corpus + ")"
}

func bars(p *evaluate.Passage) string {
	first, last := p.Reading.Chords[p.First].Event.Bar, p.Reading.Chords[p.Last].Event.Bar
	if first == last {
		return fmt.Sprintf("bar %d", first)
	}
	return fmt.Sprintf("bars %d to %d", first, last)
}
