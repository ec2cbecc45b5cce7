package study

import (
	"slices"
	"strings"

	"fifthwise/pkg/function"
)

// Card is a question to practise recall with, and its answer.
type Card struct{ Ask, Answer string }

// Cards ask for the tune from the whole to the detail. No question is asked
// twice.
func (p *Plan) Cards() []Card {
	cards := []Card{}
	if len(p.Parts) == 0 {
		return cards
	}
	cards = append(cards, Card{"What is the form, a letter for each phrase?", p.Form.Letters})
	if p.analysis.Home.IsValid() {
		cards = append(cards, Card{"Which key is the tune in?", p.analysis.KeyName(p.analysis.Home)})
	}
	if len(p.analysis.Regions) > 1 {
		cards = append(cards, Card{"Through which keys does it go?", p.keyPath()})
	}
	for i := range p.Form.Phrases {
		f := &p.Form.Phrases[i]
		if len(f.Occurrences) > 1 {
			cards = append(cards, Card{"Where does " + f.Name + " come back?", p.returns(f)})
		}
	}
	for i := range p.Form.Phrases {
		f := &p.Form.Phrases[i]
		o := &f.Occurrences[0]
		last := o.First + min(4, f.Bars) - 1
		cards = append(cards, Card{"How does " + f.Name + " begin, in " + p.bars("bar", o.First, last) + "?",
			p.keyAt(o.FirstChord) + ": " + p.numeralsOfBars(o.First, last)})
	}
	for _, i := range p.odd() {
		r := &p.analysis.Chords[i]
		cards = append(cards, Card{"What does " + r.Event.Symbol + " do in " + p.barOf("bar", i) + "?",
			p.analysis.NumeralOf(i) + ". " + p.analysis.Reason(i)})
	}
	if turn, ok := p.turnaround(); ok {
		cards = append(cards, turn)
	}
	return distinct(cards)
}

// keyPath names the keys with the intervals between them.
func (p *Plan) keyPath() string {
	var said strings.Builder
	for i := range p.analysis.Regions {
		r := &p.analysis.Regions[i]
		if i > 0 {
			said.WriteString(", ")
			if r.Motion != 0 {
				said.WriteString(r.Motion.String() + " to ")
			}
		}
		said.WriteString(p.analysis.KeyName(r.Key))
	}
	return said.String()
}

// turnaround asks for the chords that lead back to the top: those after the last
// tonic, if the last of them is a dominant.
func (p *Plan) turnaround() (Card, bool) {
	last := len(p.analysis.Chords) - 1
	for last >= 0 && p.analysis.Chords[last].Region < 0 {
		last--
	}
	if last < 0 || p.analysis.Chords[last].Function != function.Dominant {
		return Card{}, false
	}
	first := last
	for first > 0 && p.analysis.Chords[first].Function != function.Tonic && p.analysis.Chords[first-1].Region >= 0 {
		first--
	}
	return Card{"Which chords lead back to the top?", p.analysis.KeyName(p.analysis.Chords[last].Key) + ": " + p.numerals(first, last, p.analysis.Chords[first].Event.Measure, p.analysis.Chords[last].Event.Measure)}, true
}

// distinct keeps the first card of each question.
func distinct(cards []Card) []Card {
	seen := make(map[string]bool, len(cards))
	return slices.DeleteFunc(cards, func(c Card) bool {
		again := seen[c.Ask]
		seen[c.Ask] = true
		return again
	})
}
