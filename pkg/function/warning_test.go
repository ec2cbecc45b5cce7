package function_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

func TestWarnsOfADeniedKey(t *testing.T) {
	tests := []struct{ name, chart, want string }{
		{"no key stated", "C | F | G7 | C", ""},
		{"met", "Key: C major\nC | F | G7 | C", ""},
		{"met by sound", "Key: C# major\nDb | Gb | Ab7 | Db", ""},
		{"a church mode is met by its third", "Key: C lydian\nC | F | G7 | C", ""},
		{"met in one region of two", "Key: F# major\nCmaj7 | Dm7 G7 | Cmaj7 | C#7 | F#maj7 | / / / / | G#m7 C#7 | F#maj7", ""},
		{"another tonic", "Key: C major\nDb | Ab7 | Db | Gb | Ab7 | Db", "the chart states C major, but the home key is read as Db major"},
		{"the relative major", "Key: A minor\nC | F | G7 | C", "the chart states A minor, but the home key is read as C major"},
		{"the parallel key", "Key: C minor\nC | F | G7 | C", "the chart states C minor, but the home key is read as C major"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			if tt.want == "" {
				assert.Empty(t, a.Warnings)
				return
			}
			require.Len(t, a.Warnings, 1)
			assert.Equal(t, chart.Warning{Bar: 1, Message: tt.want}, a.Warnings[0])
		})
	}
}

func TestWarnsOfRespelledChords(t *testing.T) {
	a := analyze(t, "Abm7 | Db7 | F#maj7 | / / / /")
	require.Len(t, a.Warnings, 1)
	assert.Equal(t, chart.Warning{Bar: 3, Message: "read in Gb major, where these chords are respelled: F#maj7 (for Gbmaj7)"}, a.Warnings[0])
	a = analyze(t, "Dbm7 | Gb7 | Bmaj7 | / / / /")
	require.Len(t, a.Warnings, 1)
	assert.Equal(t, chart.Warning{Bar: 1, Message: "read in B major, where these chords are respelled: Dbm7 (for C#m7), Gb7 (for F#7)"}, a.Warnings[0])
	for _, chart := range []string{
		"Abm7 | Db7 | Gbmaj7 | / / / /",
		"Cmaj7 | Ebdim7 | Dm7 | G7 | Cmaj7 | D#dim7 | Em7 | Am7 | Dm7 G7 | Cmaj7", // a diminished seventh has four names
	} {
		a = analyze(t, chart)
		assert.Empty(t, a.Warnings, chart)
	}
}

// Each doubtful bar lies in one warning, and only bars whose reading has less
// than two fifths of the probability do. A warning of one bar names the reading.
func TestWarnsOfDoubt(t *testing.T) {
	charts := append(ruledCharts(), "Bm7 | Bbm7 Dbm7 | Cmaj7 Bbm7 | Gbm7b5 | F7 Dbm7 | E7", "Cdim7 | Ebdim7 | Gbdim7 | Adim7", "Caug Eaug Abaug | C+", "|: Cdim7 | Ebdim7 :|")
	single, joined := 0, 0
	for _, text := range charts {
		a := analyze(t, text)
		want := map[int]*function.Reading{} // by bar, the first that is doubtful
		for i := range a.Chords {
			r := &a.Chords[i]
			if r.Region >= 0 && r.Confidence < .4 && want[r.Event.Bar] == nil {
				want[r.Event.Bar] = r
			}
		}
		for _, w := range a.Warnings {
			if !strings.Contains(w.Message, " is one of several readings of ") {
				continue
			}
			first, last := barsOf(w)
			for bar := first; bar <= last; bar++ {
				r := want[bar]
				require.NotNil(t, r, "bar %d, %s: %s", bar, w.Message, text)
				assert.Contains(t, w.Message, r.Key.String()+" is one of several readings of ", text)
				assert.Contains(t, w.Message, r.Event.Symbol, text)
				delete(want, bar)
			}
			if first < last {
				joined++
				continue
			}
			single++
		}
		assert.Empty(t, want, "doubtful bars without a warning: %s", text)
	}
	assert.Positive(t, single)
	assert.Positive(t, joined)
}

var inBars = regexp.MustCompile(`, bars (\d+)–(\d+)`)

// barsOf is the first and last bar that a doubt is about.
func barsOf(w chart.Warning) (first, last int) {
	m := inBars.FindStringSubmatch(w.Message)
	if m == nil {
		return w.Bar, w.Bar
	}
	first, _ = strconv.Atoi(m[1])
	last, _ = strconv.Atoi(m[2])
	return first, last
}

// Neighbouring bars that are doubted alike are told in one warning, and a bar
// that is played twice once; a respelled chord is named once.
func TestJoinsWarnings(t *testing.T) {
	tests := []struct {
		name, chart string
		want        []chart.Warning
	}{
		{"doubts of a key", "Ebmaj7 | Gm7 | Gbm7b5 | Am7 | Bm7", []chart.Warning{
			{Bar: 3, Message: "Eb major is one of several readings of Gbm7b5, Am7, Bm7, bars 3–5; A minor is nearly as likely"}}},
		{"a repeat", "|: Cdim7 | Ebdim7 :|", []chart.Warning{
			{Bar: 1, Message: "VIIdim7 in E minor is one of several readings of Cdim7; VIIdim7 in Bb minor is nearly as likely"},
			{Bar: 2, Message: "VIIdim7 in E minor is one of several readings of Ebdim7; VIIdim7 in C# minor is nearly as likely"}}},
		{"a chord met again", "Dbm7 | Gb7 | Bmaj7 | Dbm7 Gb7 | Bmaj7 | / / / /", []chart.Warning{
			{Bar: 1, Message: "read in B major, where these chords are respelled: Dbm7 (for C#m7), Gb7 (for F#7)"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := analyze(t, tt.chart)
			assert.Equal(t, tt.want, a.Warnings)
		})
	}
}

// What the chart itself warns of is passed on first.
func TestPassesOnTheChartsWarnings(t *testing.T) {
	c, err := chart.Parse("Key: C major\nDb | Ab7 | Db | Gb | Ab7 | Db")
	require.NoError(t, err)
	own := chart.Warning{Bar: 2, Message: "of the chart"}
	c.Warnings = []chart.Warning{own}
	a := function.Analyze(c)
	require.Len(t, a.Warnings, 2)
	assert.Equal(t, own, a.Warnings[0])
	assert.Equal(t, []chart.Warning{own}, c.Warnings)

	silent := chart.Chart{Warnings: []chart.Warning{own}}
	assert.Equal(t, []chart.Warning{own}, function.Analyze(silent).Warnings)
}
