package evaluate

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
)

// invented makes a piece in 4/4 of "C:I G7:V Am:VI/V", a chord a bar, in one
// key; "|D" before a chord goes to the key of D major, "|Dm" to D minor.
func invented(t *testing.T, id, words string) Piece {
	t.Helper()
	var chords []string
	k := "C major"
	for word := range strings.FieldsSeq(words) {
		if tonic, ok := strings.CutPrefix(word, "|"); ok {
			k = tonic
			continue
		}
		symbol, numeral, _ := strings.Cut(word, ":")
		numeral, applied, _ := strings.Cut(numeral, "/")
		chords = append(chords, fmt.Sprintf(`{"bar": %d, "beat": 1, "symbol": %q, "key": %q, "numeral": %q, "applied_to": %q}`,
			len(chords)+1, symbol, k, numeral, applied))
	}
	return readOne(t, fmt.Sprintf(`{"id": %q, "meter": "4/4", "chords": [%s]}`, id, strings.Join(chords, ",")))
}

// lessons of an analyst who hears each fourth chord as a key of its own.
func restless(t *testing.T) []Piece {
	return []Piece{
		invented(t, "Slip", "C:I F:IV G:V C:I |G D:V G:I |C F:IV C:I G7:V C:I"),
		invented(t, "Weir", "C:I Am:VI Dm:II G:V C:I |F C:V F:I |C G7:V C:I"),
		invented(t, "Mole", "|Am Am:I E7:V Am:I Dm:IV Am:I |C G7:V C:I |Am E7:V Am:I"),
		invented(t, "Lock", "|G G:I C:IV D:V G:I |D A:V D:I |G D7:V G:I"),
		invented(t, "Groyne", "|D D:I Bm:VI G:IV A:V D:I |Bm F#7:V Bm:I |D A7:V D:I"),
	}
}

func TestFitLowersTheLoss(t *testing.T) {
	pieces := restless(t)
	var losses []float64
	fit := Fit{Start: function.Default(), Pull: Pulls(.01), Steps: 15, Watch: func(step int, loss float64) {
		assert.Equal(t, len(losses), step)
		losses = append(losses, loss)
	}}
	examples := Weigh([][]Piece{pieces}, nil)
	w := fit.Run(examples)
	require.Len(t, losses, 15)
	assert.Less(t, losses[14], losses[0]/2)
	fit.Watch = nil
	assert.Equal(t, w, fit.Run(examples), "the same each time")

	before, after := MarginOf(&pieces[0], function.NewModel(fit.Start)), MarginOf(&pieces[0], function.NewModel(w))
	assert.Equal(t, Margin{Chords: 10, Nats: before.Nats}, before)
	assert.Less(t, after.Nats, before.Nats)
	assert.Positive(t, after.Nats)
	assert.Equal(t, before.Nats/10, before.Mean())
	assert.Equal(t, Margin{20, 0, 2 * before.Nats}, before.Add(before))
}

// The gradient is the derivative of the loss, the pull included.
func TestGradient(t *testing.T) {
	fit := Fit{Start: Blank(function.Default()), Pull: Pulls(1)}
	lessons := fit.lessons(Weigh([][]Piece{restless(t)}, nil))
	at := function.Default()
	_, grad := fit.loss(lessons, at)
	for _, term := range []function.Term{function.ChangeKey, function.FitV7, function.EnterDominant, function.LeaveTonic, function.FitRelatedTwo} {
		const step = 1e-2 // below that the search's single precision shows
		up, down := at, at
		up[term] += step
		down[term] -= step
		over, _ := fit.loss(lessons, up)
		under, _ := fit.loss(lessons, down)
		assert.InEpsilon(t, (over-under)/(2*step), grad[term], .05, term)
	}
}

func TestPulledTermsStay(t *testing.T) {
	examples := Weigh([][]Piece{restless(t)}, nil)
	start := function.Default()
	loose := Fit{Start: start, Steps: 10}.Run(examples)
	most := 0
	moved := func(w function.Weights, term int) float64 { return math.Abs(w[term] - start[term]) }
	for term := range loose {
		if moved(loose, term) > moved(loose, most) {
			most = term
		}
	}
	require.Greater(t, moved(loose, most), .2)
	fit := Fit{Start: start, Steps: 10}
	fit.Pull[most] = 1e9
	assert.Less(t, moved(fit.Run(examples), most), .06, "no further than the first step")

	pull := Pulls(.5)
	assert.Equal(t, .5, pull[function.ChangeKey])
	assert.Equal(t, 10., pull[function.FitTritone])
	blank := Blank(start)
	assert.Zero(t, blank[function.ChangeKey])
	assert.Equal(t, start[function.FitTritone], blank[function.FitTritone])
}

func TestHeldNamesEachTermOnce(t *testing.T) {
	seen := map[function.Term]bool{}
	for _, group := range held {
		require.NotEmpty(t, group)
		for _, term := range group {
			assert.False(t, seen[term], term)
			assert.True(t, Held(term), term)
			seen[term] = true
		}
	}
	count := 0
	for i := range function.Terms() {
		if Held(function.Term(i)) {
			count++
		}
	}
	assert.Len(t, seen, count)
	assert.Less(t, count, len(function.Terms())/2, "most are fitted")
}

func TestWeigh(t *testing.T) {
	one := invented(t, "Slip", "C:I F:IV G:V C:I")
	other := invented(t, "Weir", "C:I G:V C:I F:IV G:V C:I")
	again := invented(t, "Slip", "C:I G:V")
	nameless := invented(t, "", "C:I G:V")
	weights := func(examples []Example) (list []float64) {
		for _, e := range examples {
			list = append(list, e.Weight)
		}
		return list
	}
	assert.Equal(t, []float64{100, 100}, weights(Weigh([][]Piece{{one, other}}, nil)), "1000 for ten chords")
	assert.Equal(t, []float64{50, 100, 250}, weights(Weigh([][]Piece{{one, other}, {again}}, nil)), "two have Slip")
	assert.Equal(t, []float64{100, 100, 250, 250}, weights(Weigh([][]Piece{{one, other}, {nameless, nameless}}, []float64{1})), "two that are not the same")
	assert.Equal(t, []float64{100, 100, 125, 125}, weights(Weigh([][]Piece{{one, other}, {nameless, nameless}}, []float64{1, .5})))
}
