package evaluate

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// labels reads "C:V/VI Am:I - G:?": chord by chord a key and a label; - is a
// chord that nothing is said of, ? a label that is none of ours.
func labels(s string) (list []Answer) {
	for word := range strings.FieldsSeq(s) {
		name, numeral, ok := strings.Cut(word, ":")
		if !ok {
			list = append(list, Answer{})
			continue
		}
		a := Answer{Key: key.MustParse(name), Numeral: numeral}
		if numeral != "?" {
			degree, target, _ := strings.Cut(numeral, "/")
			a.Labeled = true
			a.Degree = must(function.ParseDegree(degree))
			if target != "" {
				a.Target = must(function.ParseDegree(target))
			}
		}
		list = append(list, a)
	}
	return list
}

func must(d function.Degree, err error) function.Degree {
	if err != nil {
		panic(err)
	}
	return d
}

func pieceOf(s string) *Piece { return &Piece{Answers: labels(s)} }

// readingOf gives every chord a confidence of a half.
func readingOf(s string) *function.Analysis {
	a := &function.Analysis{}
	for _, l := range labels(s) {
		a.Chords = append(a.Chords, function.Reading{Key: l.Key, Degree: l.Degree, Target: l.Target, Confidence: .5})
	}
	return a
}

// Each figure counted by hand.
func TestCompare(t *testing.T) {
	tests := []struct {
		name, analyst, reading string
		want                   Score
	}{
		{
			"all right, a silence not counted",
			"C:I - C:V/V C:V C:I", "C:I - C:V/V C:V C:I",
			Score{Pieces: 1, Chords: 4, Key: 4, Tonic: 4, Weighted: 4, Labeled: 4, Label: 4, Applied: 1, FoundApplied: 1, MatchedApplied: 1},
		},
		{
			"no answer at all",
			"- -", "C:I C:V",
			Score{Pieces: 1},
		},
		{
			"near keys: same, fifth above, fifth below, relative, parallel, far",
			"C:I C:I C:I C:I C:I C:I", "C:I G:IV F:V Am:bIII Cm:I D:bVII",
			Score{Pieces: 1, Chords: 6, Key: 1, Tonic: 2, Weighted: 1 + .5 + 0 + .3 + .2 + 0, Labeled: 1, Label: 1, Found: 5},
		},
		{
			"near keys of a minor one: relative, the major a third below, fifth above in the other mode",
			"Am:I Am:I Am:I", "C:VI F:III E:IV",
			Score{Pieces: 1, Chords: 3, Weighted: .3, Found: 2},
		},
		{
			"labels: wrong degree, wrong target, applied missed, applied where none is, none of ours",
			"C:VI C:V/II C:VII/V C:III C:?", "C:IV C:V/V C:#IV C:V/VI C:V/IV",
			Score{Pieces: 1, Chords: 5, Key: 5, Tonic: 5, Weighted: 5, Labeled: 4, Applied: 2, FoundApplied: 2},
		},
		{
			"applied by another device to the same degree: label wrong, target right",
			"C:V/V C:V/II", "C:VII/V Dm:V",
			Score{Pieces: 1, Chords: 2, Key: 1, Tonic: 1, Weighted: 1, Labeled: 1, Applied: 1, FoundApplied: 1, MatchedApplied: 1, Found: 1},
		},
		{
			"a change one chord late counts, two late not",
			"C:I G:V G:I G:I D:I D:I D:I", "C:I C:II G:I G:I G:I G:I D:I",
			Score{Pieces: 1, Chords: 7, Key: 4, Tonic: 4, Weighted: 4 + .5*0, Labeled: 4, Label: 4, Changes: 2, Found: 2, Matched: 1},
		},
		{
			"silences lie between, but count nowhere",
			"C:I G:V - - G:I", "C:I C:II - - G:I",
			Score{Pieces: 1, Chords: 3, Key: 2, Tonic: 2, Weighted: 2, Labeled: 2, Label: 2, Changes: 1, Found: 1, Matched: 1},
		},
		{
			"in time but to another key",
			"C:I G:I G:I", "C:I Em:bIII Em:bIII",
			Score{Pieces: 1, Chords: 3, Key: 1, Tonic: 1, Weighted: 1 + .3 + .3, Labeled: 1, Label: 1, Changes: 1, Found: 1},
		},
		{
			"no change is matched twice",
			"C:I G:I C:I C:I", "G:IV C:I G:IV G:IV",
			Score{Pieces: 1, Chords: 4, Weighted: .5 + 0 + .5 + .5, Changes: 2, Found: 2, Matched: 2},
		},
		{
			"one of two changes to the same key near it",
			"C:I C:I G:I C:I G:I", "C:I C:I C:V G:IV G:I",
			Score{Pieces: 1, Chords: 5, Key: 3, Tonic: 3, Weighted: 3 + 0 + .5, Labeled: 3, Label: 3, Changes: 3, Found: 1, Matched: 1},
		},
		{
			"enharmonic keys and church modes",
			"Gb:I Dm:I G:I", "F#:I Ddorian:I Gmixolydian:I",
			Score{Pieces: 1, Chords: 3, Key: 3, Tonic: 3, Weighted: 3, Labeled: 3, Label: 3, Changes: 2, Found: 2, Matched: 2},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Compare(pieceOf(tt.analyst), readingOf(tt.reading))
			assert.InDelta(t, tt.want.Weighted, got.Weighted, 1e-12)
			got.Weighted = tt.want.Weighted
			assert.Equal(t, tt.want, got)
		})
	}
}

func TestCompareTonicOnly(t *testing.T) {
	p := pieceOf("C:I C:IV Cm:V G:I")
	a := readingOf("Cm:I C:IV Cm:V Gm:I")
	got := Compare(p, a)
	assert.InDelta(t, .2+1+1+.2, got.Weighted, 1e-12)
	got.Weighted = 0
	assert.Equal(t, Score{Pieces: 1, Chords: 4, Key: 2, Tonic: 4, Labeled: 2, Label: 2, Changes: 2, Found: 3, Matched: 1}, got,
		"modes count: the analyst goes to C minor, then G major; we to C major, C minor, G minor")
	p.TonicOnly = true
	assert.Equal(t, Score{
		Pieces: 1, Chords: 4, Key: 4, Tonic: 4, Weighted: 4, Labeled: 4, Label: 4, Changes: 1, Found: 1, Matched: 1,
	}, Compare(p, a), "tonics alone: one change, to G")
	assert.Equal(t, .5, Compare(&Piece{TonicOnly: true, Answers: labels("C:I")}, readingOf("Gm:IV")).Weighted, "a fifth is a fifth in any mode")
}

func TestShares(t *testing.T) {
	s := Score{
		Chords: 10, Key: 8, Tonic: 9, Weighted: 8.5, Labeled: 5, Label: 4,
		Changes: 4, Found: 2, Matched: 2, Applied: 3, FoundApplied: 5, MatchedApplied: 2,
	}
	s = s.Add(s)
	assert.Equal(t, .8, s.KeyShare())
	assert.Equal(t, .9, s.TonicShare())
	assert.Equal(t, .85, s.WeightedShare())
	assert.Equal(t, .8, s.LabelShare())
	assert.InDelta(t, 2*1*.5/(1+.5), s.ChangesF1(), 1e-12, "precision 2/2, recall 2/4")
	assert.InDelta(t, 2*.4*(2./3)/(.4+2./3), s.AppliedF1(), 1e-12, "precision 2/5, recall 2/3")

	var none Score
	for _, share := range []float64{none.KeyShare(), none.TonicShare(), none.WeightedShare(), none.LabelShare(), none.ChangesF1(), none.AppliedF1()} {
		assert.True(t, math.IsNaN(share), "nothing to count")
	}
	assert.Zero(t, Score{Changes: 3}.ChangesF1(), "none found")
	assert.Zero(t, Score{FoundApplied: 3}.AppliedF1(), "none wanted")
}

func TestAddCountsEveryField(t *testing.T) {
	one := Score{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}
	assert.Equal(t, Score{2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26}, one.Add(one))
	assert.Equal(t, one, Score{}.Add(one))
}
