package phrase

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
)

func playedText(t testing.TB, text string) []chart.Event {
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	return c.Played()
}

func places(found []Place) (list []string) {
	for _, p := range found {
		list = append(list, strings.TrimSpace(fmt.Sprintf("%s %d %v", p.Name, p.First, p.Motion)))
	}
	return list
}

// Passages are invented.
func TestIndexFind(t *testing.T) {
	var x Index
	assert.Nil(t, x.Find(playedText(t, "| Dm7 | G7 |")))
	x.Add("ferry", playedText(t, "| Dm7 | G7 | Cmaj7 | % | Fm7 | Bb7 | Ebmaj7 | % |"))
	x.Add("tram", playedText(t, "Pickup: 1\n| G7 | C6 | C7 | Gm7 | C7 | F6 |"))
	x.Add("mill", playedText(t, "|: Em7 | A7 | D6 :|"))
	assert.Equal(t, 3, x.Len())
	tests := []struct {
		name, in string
		want     []string
	}{
		{"a two-five in any key", "| Am7 | D7 |", []string{"ferry 0 up a perfect fourth", "ferry 4 down a major third", "tram 2 down a major second", "mill 0 down a perfect fourth", "mill 3 down a perfect fourth"}},
		{"in the same key", "| Gm7 | C7 | F6 |", []string{"ferry 0 down a perfect fourth", "ferry 4 down a major second", "tram 2", "mill 0 down a minor third", "mill 3 down a minor third"}},
		{"four bars", "| Dm7 | G7 | Cmaj7 | Cmaj7 |", []string{"ferry 0", "ferry 4 up a minor third"}},
		{"other lengths", "| Dm7 G7 | Cmaj7 |", nil},
		{"unknown chords", "| Dm7 | G7#5 | Cdim |", nil},
		{"one bar", "| Dm7 |", nil},
		{"over the end", "| Fm7 | Bb7 | Ebmaj7 | % | Dm7 |", nil},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, places(x.Find(playedText(t, tt.in))), tt.name)
	}
}

// A passage may be cut from a chart.
func TestIndexFindsAPart(t *testing.T) {
	var x Index
	tune := playedText(t, "Pickup: 1\n| G7 | C | Am | Dm | G || Fm7 | Bb7 | Ebmaj7 | Abmaj7 |")
	x.Add("tune", tune)
	assert.Equal(t, []string{"tune 4"}, places(x.Find(tune[5:8])))
	assert.Equal(t, []string{"tune 0"}, places(x.Find(tune[1:3])))
}

func TestIndexShared(t *testing.T) {
	var x Index
	a := x.Add("a", playedText(t, "| C | Am | Dm | G || Fm7 | Bb7 | Ebmaj7 | Abmaj7 || C | G | C | C |"))
	x.Add("b", playedText(t, "| Dm | Em7 | A7 | Dmaj7 | Gmaj7 | Em |"))
	x.Add("c", playedText(t, "| Am7 | D7 | Gmaj7 | Cmaj7 | Bb | Gm | Cm | F |"))
	var said []string
	for _, s := range x.Shared(a, 4) {
		said = append(said, fmt.Sprintf("%d+%d: %s", s.First, s.Bars, strings.Join(places(s.Places), ", ")))
	}
	assert.Equal(t, []string{"0+4: c 4 down a major second", "4+4: b 1 down a minor second, c 0 up a major third"}, said)
	assert.Nil(t, x.Shared(9, 4))
}

// What is found is what a plain comparison of all bars finds.
func TestIndexFindsAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var x Index
		var tunes [][]bar
		numbers := shapes{}
		draw := func(bars int) []chart.Event {
			var b strings.Builder
			for range bars {
				b.WriteString("| " + rapid.SampledFrom([]string{"C", "Dm7", "G7", "Am", "F G7", "E7"}).Draw(t, "bar") + " ")
			}
			c, err := chart.Parse(b.String() + "|")
			require.NoError(t, err)
			return c.Transpose(pitch.Degree(rapid.IntRange(1, 7).Draw(t, "degree"), 0)).Played()
		}
		for i := range rapid.IntRange(1, 4).Draw(t, "tunes") {
			events := draw(rapid.IntRange(1, 12).Draw(t, "bars"))
			x.Add(fmt.Sprint(i), events)
			tunes = append(tunes, barsNumbered(events, numbers.number))
		}
		passage := draw(rapid.IntRange(2, 3).Draw(t, "length"))
		wanted := textOf(barsNumbered(passage, numbers.number))
		var want []string
		for i, bars := range tunes {
			text := textOf(bars)
			for k := 0; 2*k+len(wanted) <= len(text); k++ {
				if slices.Equal(wanted, text[2*k:2*k+len(wanted)]) {
					want = append(want, fmt.Sprintf("%d at %d", i, k))
				}
			}
		}
		var got []string
		for _, p := range x.Find(passage) {
			got = append(got, fmt.Sprintf("%s at %d", p.Name, p.First))
		}
		require.Equal(t, want, got)
	})
}

func TestIndexWhileAdding(t *testing.T) {
	var x Index
	tune := playedText(t, "| Dm7 | G7 | Cmaj7 | A7 |")
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			for range 100 {
				x.Add("tune", tune)
				x.Find(tune[:2])
				x.Shared(0, 2)
			}
		})
	}
	group.Wait()
	assert.Len(t, x.Find(tune), 400)
}

// book is charts of 32 bars of common chords.
func book(charts int) [][]chart.Event {
	r := rand.New(rand.NewPCG(1, 2))
	names := []string{"Dm7 G7", "Cmaj7", "Em7 A7", "Fmaj7", "Fm6", "D7", "Am7", "Bm7b5 E7", "C6 Gm7", "C7"}
	list := make([][]chart.Event, charts)
	for i := range list {
		var b strings.Builder
		for range 32 {
			b.WriteString("| " + names[r.IntN(len(names))] + " ")
		}
		c, err := chart.Parse(b.String() + "|")
		if err != nil {
			panic(err)
		}
		list[i] = c.Transpose(pitch.Degree(1+r.IntN(7), 0)).Played()
	}
	return list
}

func BenchmarkIndexAdd(b *testing.B) {
	charts := book(1000)
	var x Index
	i := 0
	for b.Loop() {
		x.Add("tune", charts[i%len(charts)])
		i++
	}
}

// BenchmarkIndexFind searches 20,000 charts for eight bars.
func BenchmarkIndexFind(b *testing.B) {
	charts := book(20_000)
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	var x Index
	for _, c := range charts {
		x.Add("tune", c)
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	passage := slices.DeleteFunc(slices.Clone(charts[77]), func(e chart.Event) bool { return e.Measure >= 8 })
	for b.Loop() {
		if len(x.Find(passage)) == 0 {
			b.Fatal("not found")
		}
	}
	b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/float64(len(charts)), "B/chart")
	runtime.KeepAlive(&x)
}
