package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// written makes bars of "chord=numeral" words, the bars divided by |.
func written(text string) (bars []bar) {
	for i, part := range strings.Split(text, "|") {
		b := bar{number: fmt.Sprint(i + 1)}
		words := strings.Fields(part)
		for k, w := range words {
			m := mark{at: float64(k) / float64(len(words)), chord: -1, region: -1}
			m.symbol, m.numeral, _ = strings.Cut(w, "=")
			b.marks = append(b.marks, m)
		}
		bars = append(bars, b)
	}
	return bars
}

func drawn(bars []bar) string {
	p := page{bars: bars}
	g := p.grid(&textRuler)
	var rows []string
	for _, l := range g.lines(bars) {
		for _, r := range p.textLine(g, &l) {
			if s := r.String(); s != "" {
				rows = append(rows, s)
			}
		}
	}
	return "\n" + strings.Join(rows, "\n") + "\n"
}

func TestGrid(t *testing.T) {
	t.Run("four bars a line, chords where their time has them", func(t *testing.T) {
		assert.Equal(t, `
   1 | C        | Am  Dm   | G7       | C        |
       I          VI  II     V7         I
   5 | F        |
       IV
`, drawn(written("C=I | Am=VI Dm=II | G7=V7 | C=I | F=IV")))
	})
	t.Run("a wide bar takes room from its neighbours, the other bar lines stay", func(t *testing.T) {
		assert.Equal(t, `
   1 | C        | F        | G        | C        |
       I          IV         V          I
   5 | Ebm7b5  Abm(maj7)  Db13(#11) | G        | C        |
       IIm7b5  Vm(maj7)   I13#11      V          I
`, drawn(written("C=I | F=IV | G=V | C=I | Ebm7b5=IIm7b5 Abm(maj7)=Vm(maj7) Db13(#11)=I13#11 | G=V | C=I")))
	})
	t.Run("a line too wide is halved", func(t *testing.T) {
		wide := "Abm(maj7) Db13(#11) Gb7(b9,#11)"
		assert.Equal(t, `
   1 | Abm(maj7)  Db13(#11)  Gb7(b9,#11) | Abm(maj7)  Db13(#11)  Gb7(b9,#11) |
   3 | Abm(maj7)  Db13(#11)  Gb7(b9,#11) | C        |
`, drawn(written(strings.Join([]string{wide, wide, wide, "C"}, " | "))))
	})
	t.Run("a bar wider than the page goes on in the next line", func(t *testing.T) {
		bars := written(strings.Repeat("Db13(#11) ", 8))
		assert.Equal(t, `
   1 | Db13(#11)  Db13(#11)  Db13(#11)  Db13(#11)  Db13(#11)  Db13(#11)
       Db13(#11)  Db13(#11) |
`, drawn(bars))
	})
	t.Run("later endings stand under the first", func(t *testing.T) {
		bars := written("C | F | G | C | E | A")
		bars[0].opens = repeatStart
		bars[2].ending, bars[3].closes = "1.", repeatEnd
		bars[4].ending, bars[4].breaks, bars[5].closes = "2.", true, double
		assert.Equal(t, `
   1 |: C        | F        | 1. G     | C        :|
                          5 | 2. E     | A        ||
`, drawn(bars))
	})
	t.Run("names above", func(t *testing.T) {
		bars := written("C | F | Fm Bb7 | Eb")
		bars[0].section, bars[0].marks[0].key = "Introduction", "C major"
		bars[2].marks[0].key, bars[2].marks[0].motion = "Eb major", "up a minor third"
		bars[2].marks[1].key, bars[2].marks[1].motion = "F major", "up a major second"
		assert.Equal(t, `
                                 F major, up a major second
[Introduction]               Eb major
       C major               up a minor third
   1 | C        | F        | Fm  Bb7  | Eb       |
`, drawn(bars))
	})
}

// TestMarks: chords stand where their time has them; those that have no room there
// share what there is by their time.
func TestMarks(t *testing.T) {
	g := grid{ruler: &textRuler}
	tests := []struct {
		name, bar string
		end       float64
		want      []float64
	}{
		{"time", "C F G D", 40, []float64{0, 10, 20, 30}},
		{"a last one that is wide", "C F Ebmaj7#11/Bb", 30, []float64{0, 8.5, 17}},
		{"a first one that is wide", "Ebmaj7#11/Bb F G D", 40, []float64{0, 14, 22 + 2./3, 31 + 1./3}},
		{"wide at both ends", "Ebmaj7#11/Bb F G Ebmaj7#11/Bb", 41, []float64{0, 14, 21, 28}},
		{"no room", "C F Ebmaj7#11/Bb", 10, []float64{0, 3, 6}},
	}
	for _, tt := range tests {
		b := written(tt.bar)[0]
		got := g.marks(&placed{bar: &b, last: len(b.marks)}, tt.end)
		assert.InDeltaSlice(t, tt.want, got, 1e-9, tt.name)
	}
}

// TestStack: a name stands over what is said of it, also at the page's edge.
func TestStack(t *testing.T) {
	r := rack{page: 40, space: 1, width: characters}
	r.stack([]label{{at: 2, name: "C major"}, {at: 28, name: "Eb major", more: "up a minor third"}})
	assert.Equal(t, [][]words{
		{{at: 2, text: "C major"}, {at: 24, text: "up a minor third"}},
		{{at: 24, text: "Eb major"}},
	}, r.rows)
}

func TestSpread(t *testing.T) {
	tests := []struct {
		name     string
		boxes    []box
		from, to float64
		want     []float64
	}{
		{"as wanted", []box{{wanted: 0, width: 2}, {wanted: 5, width: 2, gap: 1}}, 0, 10, []float64{0, 5}},
		{"pushed on", []box{{wanted: 0, width: 6}, {wanted: 5, width: 2, gap: 1}}, 0, 10, []float64{0, 7}},
		{"held back", []box{{wanted: 3, width: 4}, {wanted: 8, width: 4, gap: 1}}, 0, 10, []float64{1, 6}},
		{"too little room", []box{{wanted: 0, width: 6}, {wanted: 5, width: 6, gap: 1}}, 0, 10, []float64{0, 7}},
		{"none", nil, 0, 10, []float64{}},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, spread(tt.boxes, tt.from, tt.to), tt.name)
	}
}
