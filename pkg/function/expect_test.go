package function

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
)

// expected are invented charts, with what is given of their chords.
var expected = []struct {
	name, chart string
	given       map[int]Given
}{
	{"a song that moves away and back, in sevenths", "[A] Fmaj7 | Dm7 | Gm7 C7 | Fmaj7 | [B] Am7b5 D7 | Gmaj7 | / / / / | / / / / | / / / / | E7 | Fmaj7 C7 | [A] Fmaj7 | Abdim7 | Gm7 Gb7 | Fmaj7",
		map[int]Given{0: {Key: key.MustParse("F major"), Degree: D(1, 0)}, 3: {Key: key.MustParse("F major"), Degree: D(5, 0)}, 7: {Key: key.MustParse("G major")}}},
	{"minor triads with a stated key, in loops", "Key: E minor\nEm | C | G | D | Em | C | G | D | Am | B7 | Em | Am6 | F#dim7 | Em",
		map[int]Given{0: {Key: key.MustParse("E minor"), Degree: D(1, 0)}, 9: {Key: key.MustParse("E major"), AnyMode: true}}},
	{"a blues with silence, a sequence and odd chords", "Bb7 | Eb7 | Bb7 | N.C. | Eb7 | Edim7 | Bb7/F | Dm7b5 G7 | Cm7 F7 | Bbm7 Eb7 | Abm7 Db7 | Caug | Fm/C | Dm7/G",
		map[int]Given{0: {Key: key.MustParse("Bb mixolydian")}, 4: {Key: key.MustParse("Bb major"), Degree: D(4, 0)}}},
	{"triads in minor, a section framed by its tonic", "[A] C7 | Fm | C7 | Fm | [B] Fm | Gb/Bb | C | Fm | Bbm | Fm | C Bb | Fm | [C] Bbm | C | F",
		map[int]Given{0: {Key: key.MustParse("F minor")}, 4: {Key: key.MustParse("F minor"), Degree: D(1, 0)}}},
	{"a cadence twice", "Bb | Gm7b5 | C7 | Fm | Gm7b5 | C7 | Fm | Bb", map[int]Given{3: {Key: key.MustParse("F minor")}}},
	{"a vamp of a minor seventh and the dominant a fourth above", "Gm7 | C7 | Gm7 | C7 | Gm7 | Am7b5 D7 | Gm7 | C7",
		map[int]Given{0: {Key: key.MustParse("G minor")}}},
}

func mustChart(t *testing.T, text string) chart.Chart {
	t.Helper()
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	return c
}

func (l *lattice) givenList(given map[int]Given) []Given {
	list := make([]Given, l.columns[len(l.columns)-1].last+1)
	for i, g := range given {
		list[i] = g
	}
	return list
}

// The counts are minus the derivative of LogSum by each weight, taken here by
// central differences. Expect leaves out what closes the circle at the chart's
// end, which is added from the reference: the pair and round terms of the best
// way from each last chord to the first. It reads without the key that a chart
// states, so that the hint's terms are not used. The weights are drawn, so that no two
// are equal and no best way is a tie.
func TestCountsAreDerivatives(t *testing.T) {
	const step = 1e-3 // below that the search's single precision shows
	random := rand.New(rand.NewPCG(7, 7))
	w := Default()
	for i := range w {
		w[i] += random.Float64() - .5
	}
	type sums struct{ all, told Expectation }
	expect := func(w Weights) (list []sums) {
		m := NewModel(w)
		for _, tt := range expected {
			c := mustChart(t, tt.chart)
			given := make([]Given, len(c.Played()))
			for i, g := range tt.given {
				given[i] = g
			}
			all, told := Expect(c, m, given)
			list = append(list, sums{all, told})
		}
		return list
	}

	at := expect(w)
	for i, tt := range expected {
		for told, e := range []*Expectation{&at[i].all, &at[i].told} {
			l := &lattice{Model: NewModel(w)}
			c := mustChart(t, tt.chart)
			l.build(key.Key{}, c.Played())
			if told == 1 {
				l.clamp(l.givenList(tt.given))
			}
			l.sum(0)
			newReference(l).addCircle(&e.Counts)
		}
	}
	for term := range termCount {
		more, less := w, w
		more[term] += step
		less[term] -= step
		up, down := expect(more), expect(less)
		for i, tt := range expected {
			want := (down[i].all.LogSum - up[i].all.LogSum) / (2 * step)
			assert.InDelta(t, want, at[i].all.Counts[term], 2e-4, "%s: all, %v", tt.name, term)
			want = (down[i].told.LogSum - up[i].told.LogSum) / (2 * step)
			assert.InDelta(t, want, at[i].told.Counts[term], 2e-4, "%s: told, %v", tt.name, term)
		}
	}
	used := Weights{}
	for i := range expected {
		for term, n := range at[i].all.Counts {
			used[term] += math.Abs(n)
		}
	}
	for term, n := range used {
		switch Term(term) {
		case HintStart, HintEnd, HintElsewhere: // a stated key is passed over
			assert.Zero(t, n, "%v", Term(term))
		default:
			assert.Positive(t, n, "no chart uses %v", Term(term))
		}
	}
}

// addCircle counts the terms by which the last chords go round to the first.
func (r *reference) addCircle(counts *Weights) {
	for _, a := range r.states[len(r.states)-1] {
		p := r.searched(a.slot)
		best, found := roundTerm(a.entry), !a.is(strictly)
		for _, b := range r.states[0] {
			if b.key != a.key || !r.goesOn(b) {
				continue
			}
			if t, ok := pairTerm(a.entry, b.entry); ok && !(a.is(strictly) && t == PairHold) && (!found || r.weights[t] < r.weights[best]) {
				best, found = t, true
			}
		}
		counts[best] += circle * p
	}
}

func TestGivenKeysMakeOthersImpossible(t *testing.T) {
	for _, tt := range expected {
		t.Run(tt.name, func(t *testing.T) {
			free := read(t, tt.chart, nil)
			l := read(t, tt.chart, tt.given)
			assert.Less(t, l.logSum, free.logSum)
			for i := range l.columns {
				c := &l.columns[i]
				for event := c.first; event <= c.last; event++ {
					g, ok := tt.given[event]
					if !ok {
						continue
					}
					sum := 0.0
					for k := range keyCount {
						sameTonic := k/modeCount == int(g.Key.Tonic().Class())
						sameMode := (k%modeCount == minor) == g.Key.IsMinor()
						for s, hi := c.in(k); s < hi; s++ {
							p := l.chance[opening][s] + l.chance[settled][s]
							e := c.slot(s)
							if !sameTonic || !sameMode && !g.AnyMode || g.Degree.IsValid() && (e.degree != g.Degree || e.target != g.Target) {
								assert.Zero(t, p, "chord %d: %v of %v", event, e.degree, modeOf(k))
							}
							sum += p
						}
					}
					assert.InDelta(t, 1, sum, 1e-9, "chord %d", event)
				}
			}
		})
	}
}

func TestExpectOfWhatIsGiven(t *testing.T) {
	c, g := key.MustParse("C major"), key.MustParse("G major")
	tests := []struct {
		name, chart string
		given       []Given
		agree       bool
	}{
		{"nothing", "C | G7 | C", make([]Given, 3), true},
		{"a key", "C | G7 | C", []Given{{Key: c}, {}, {Key: c}}, true},
		{"a key, by a church mode's third", "C | G7 | C", []Given{{Key: key.MustParse("C lydian")}, {}, {}}, true},
		{"a label", "C | D7 | G7", []Given{{}, {Key: c, Degree: D(5, 0), Target: D(5, 0)}, {}}, true},
		{"a label that the vocabulary does not have is passed over", "C | G7", []Given{{Key: c, Degree: D(7, -1), Target: D(2, 0)}, {}}, true},
		{"two keys of one held chord", "C | C | F", []Given{{Key: c}, {Key: g}, {}}, false},
		{"a two whose dominant is another's", "Gm7 | C7 | F", []Given{
			{Key: c, Degree: D(2, 0), Target: D(4, 0)}, {Key: g}, {}}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			all, told := Expect(mustChart(t, tt.chart), defaultModel(), tt.given)
			require.False(t, math.IsInf(all.LogSum, 0) || math.IsNaN(all.LogSum))
			if !tt.agree {
				assert.True(t, math.IsInf(told.LogSum, -1), "%v", told.LogSum)
				return
			}
			assert.False(t, math.IsInf(told.LogSum, 0) || math.IsNaN(told.LogSum))
			assert.LessOrEqual(t, told.LogSum, all.LogSum+1e-12)
			for term, n := range told.Counts {
				assert.False(t, math.IsNaN(n) || math.IsInf(n, 0), "%v", Term(term))
			}
		})
	}
}

func TestExpectOfSilence(t *testing.T) {
	all, told := Expect(mustChart(t, "N.C. | N.C."), defaultModel(), make([]Given, 2))
	assert.Zero(t, all)
	assert.Zero(t, told)
}
