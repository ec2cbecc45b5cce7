package roadmap

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// The tests write bars as words, with the signs that stand before and behind
// them:
//
//	a  a,b@2  -  a:3  -:1     a bar with a chord a; with b on place 2; with none; that is 3 beats long
//	3/4  [A]  =7              the meter, the section, the number of the next bar
//	|:  (|:)  1.  1,2.  $  $x  O  Ox
//	:|  :|x3  :|again  ]  ||  To  Tox  DS  DSx  DC  Fine
//
// The sign behind $, O, To and DS is its name; "s" and "c" without one.
func barsOf(t *testing.T, text string) []Bar {
	t.Helper()
	var bars []Bar
	var next Bar
	for word := range strings.FieldsSeq(text) {
		switch {
		case before(&next, word):
		case len(bars) > 0 && behind(&bars[len(bars)-1], word):
		default:
			next.Chords, next.Len = chordsOf(t, word)
			bars = append(bars, next)
			next = Bar{}
		}
	}
	return bars
}

func before(b *Bar, word string) bool {
	switch rest := word[1:]; {
	case word == "|:":
		b.RepeatStart = true
	case word == "(|:)":
		b.Implied = true
	case word[0] == '[':
		b.Section = strings.TrimSuffix(rest, "]")
	case word[0] == '=':
		b.Number, _ = strconv.Atoi(rest)
	case word[0] == '$':
		b.Segno = "s" + rest
	case word[0] == 'O':
		b.Coda = "c" + rest
	case strings.HasSuffix(word, "."):
		for n := range strings.SplitSeq(strings.TrimSuffix(word, "."), ",") {
			pass, _ := strconv.Atoi(n)
			b.Ending = append(b.Ending, pass)
		}
	case word[0] >= '1' && word[0] <= '9':
		b.Meter = chart.MustParseMeter(word)
	default:
		return false
	}
	return true
}

func behind(b *Bar, word string) bool {
	switch {
	case strings.HasPrefix(word, ":|"):
		b.RepeatEnd, b.AfterJump = true, word == ":|again"
		b.Times, _ = strconv.Atoi(strings.TrimPrefix(word, ":|x"))
	case word == "]":
		b.EndingStop = true
	case word == "||":
		b.Double = true
	case word == "DC":
		b.DaCapo = true
	case word == "Fine":
		b.Fine = true
	case strings.HasPrefix(word, "DS"):
		b.DalSegno = "s" + word[2:]
	case strings.HasPrefix(word, "To"):
		b.ToCoda = "c" + word[2:]
	default:
		return false
	}
	return true
}

func chordsOf(t *testing.T, word string) (slots []chart.Slot, length chart.Beats) {
	t.Helper()
	chords, beats, isGiven := strings.Cut(word, ":")
	if isGiven {
		length = placeOf(t, beats)
	}
	if chords == "-" {
		return nil, length
	}
	for c := range strings.SplitSeq(chords, ",") {
		symbol, place, isPlaced := strings.Cut(c, "@")
		s := chart.Slot{Symbol: symbol}
		if isPlaced {
			s.At = placeOf(t, place)
		}
		slots = append(slots, s)
	}
	return slots, length
}

// placeOf reads fractions of any denominator.
func placeOf(t *testing.T, text string) chart.Beats {
	t.Helper()
	var num, den int
	if n, _ := fmt.Sscanf(text, "%d/%d", &num, &den); n == 2 {
		return chart.B(num, den)
	}
	b, err := chart.ParseBeats(text)
	require.NoError(t, err)
	return b
}

// written is a chart in the words of barsOf. A pickup is the first bar with a
// length; its chords' places are counted from its first note.
func written(c chart.Chart) string {
	var words []string
	say := func(is bool, word string) {
		if is {
			words = append(words, word)
		}
	}
	meter := chart.Meter{Num: 4, Den: 4}
	for i, b := range c.Bars {
		say(b.Section != "", "["+b.Section+"]")
		say(b.RepeatStart, "|:")
		say(b.Ending != nil, strings.ReplaceAll(strings.Trim(fmt.Sprint(b.Ending), "[]"), " ", ",")+".")
		say(b.Meter != meter, b.Meter.String())
		meter = b.Meter
		words = append(words, writtenBar(b, i == 0, c.Pickup))
		say(b.RepeatEnd, ":|")
		say(b.Double, "||")
	}
	return strings.Join(words, " ")
}

func writtenBar(b chart.Bar, isFirst bool, pickup chart.Beats) string {
	full := b.Meter.Beats()
	end, shift := full, chart.Beats{}
	if n := len(b.Chords); n > 0 {
		end = b.Chords[n-1].End()
	}
	if isFirst && !pickup.IsZero() {
		end, shift = pickup, full.Sub(pickup)
	}
	var chords []string
	for k, s := range b.Chords {
		name := s.Symbol
		if name == "" {
			name = s.Chord.String()
		}
		if at := s.At.Sub(shift); k > 0 || !at.IsZero() {
			name += "@" + at.String()
		}
		chords = append(chords, name)
	}
	if chords == nil {
		chords = []string{"-"}
	}
	word := strings.Join(chords, ",")
	if end != full {
		word += ":" + end.String()
	}
	return word
}

// played is the chords in the order of play.
func played(c chart.Chart) string {
	var names []string
	for _, e := range c.Played() {
		names = append(names, e.Symbol)
	}
	return strings.Join(names, " ")
}

func warnings(c chart.Chart) (all []string) {
	for _, w := range c.Warnings {
		all = append(all, fmt.Sprintf("%d: %s", w.Bar, w.Message))
	}
	return all
}
