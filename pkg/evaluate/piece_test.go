package evaluate

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chord"
	"fifthwise/pkg/function"
	"fifthwise/pkg/internal/corpora"
	"fifthwise/pkg/key"
)

// An invented piece that uses all of the format.
const lanterns = `{"id": "Lanterns", "corpus": "invented", "source": "ours", "meter": "4/4", "tonic_only": true, "other": [1],
 "meters": [{"bar": 5, "meter": "3/4"}], "chords": [
 {"bar": 0, "beat": 4, "symbol": "G:7", "key": "C major", "numeral": "V", "section": "A"},
 {"bar": 1, "beat": 1, "symbol": "C:maj7", "key": "C major", "numeral": "I", "applied_to": "", "section": "A"},
 {"bar": 1, "beat": 3.3333, "symbol": "Am7", "key": "C major", "section": "A"},
 {"bar": 3, "beat": 3, "symbol": "N"},
 {"bar": 4, "beat": 1, "symbol": "D:7", "key": "C major", "numeral": "V", "applied_to": "V", "section": "B"},
 {"bar": 4, "beat": 2, "symbol": "F#:dim7", "key": "C major", "numeral": "VII", "applied_to": "V/ii", "section": "B"},
 {"bar": 4, "beat": 2, "symbol": "Ab:7", "key": "C minor", "numeral": "Ger65", "section": "B"},
 {"bar": 5, "beat": 1, "symbol": "C:maj", "key": "C dorian", "numeral": "I", "applied_to": "I", "section": "B", "duration_beats": 7}]}`

func readOne(t *testing.T, line string) Piece {
	t.Helper()
	pieces, err := Read(strings.NewReader("\n" + strings.ReplaceAll(line, "\n", "") + "\n\n"))
	require.NoError(t, err)
	require.Len(t, pieces, 1)
	return pieces[0]
}

func TestRead(t *testing.T) {
	p := readOne(t, lanterns)
	assert.Equal(t, "Lanterns", p.ID)
	assert.Equal(t, "invented", p.Corpus)
	assert.Equal(t, "ours", p.Source)
	assert.True(t, p.TonicOnly)

	five := function.D(5, 0)
	want := []struct {
		bar, measure         int
		beat, len            string
		symbol, section      string
		opens                bool
		key, degree, numeral string
		target               function.Degree
		labeled              bool
	}{
		{0, -1, "4", "1", "G:7", "A", true, "C major", "V", "V", function.Degree{}, true},
		{1, 0, "1", "7/3", "C:maj7", "A", false, "C major", "I", "I", function.Degree{}, true},
		{1, 0, "10/3", "23/3", "Am7", "A", false, "C major", "", "", function.Degree{}, false},
		{3, 2, "3", "2", "N", "A", false, "invalid key", "", "", function.Degree{}, false},
		{4, 3, "1", "1", "D:7", "B", true, "C major", "V", "V/V", five, true},
		{4, 3, "2", "3", "F#:dim7", "B", false, "C major", "", "VII/V/ii", function.Degree{}, false},
		{4, 4, "2", "3", "Ab:7", "B", false, "C minor", "bVI", "Ger65", function.Degree{}, true},
		{5, 5, "1", "9", "C:maj", "B", false, "C dorian", "I", "I/I", function.Degree{}, true},
	}
	require.NoError(t, p.Chart.Validate())
	events := p.Chart.Played()
	require.Len(t, events, len(want))
	require.Len(t, p.Answers, len(want))
	for i, w := range want {
		e, a := events[i], p.Answers[i]
		assert.Equal(t, w.bar, e.Bar, "bar of chord %d", i)
		assert.Equal(t, w.measure, e.Measure, "measure of chord %d", i)
		assert.Equal(t, w.beat, e.Beat.String(), "beat of chord %d", i)
		assert.Equal(t, w.symbol, e.Symbol)
		assert.Equal(t, w.section, e.Section, w.symbol)
		assert.Equal(t, w.opens, e.SectionStart, w.symbol)
		assert.Equal(t, w.key, a.Key.String(), w.symbol)
		assert.Equal(t, w.degree, a.Degree.String(), w.symbol)
		assert.Equal(t, w.target, a.Target, w.symbol)
		assert.Equal(t, w.numeral, a.Numeral)
		assert.Equal(t, w.labeled, a.Labeled, w.symbol)
		if i != 5 { // the chord in a bar broken off by the bar written again
			assert.Equal(t, w.len, e.Len.String(), "length of chord %d", i)
		}
	}
	assert.Equal(t, chart.B(1, 1), p.Chart.Pickup)
}

func TestReadLastChord(t *testing.T) {
	for _, tt := range []struct{ name, duration, want string }{
		{"none stated", ``, "3"},
		{"within its bar", `, "duration_beats": 1.5`, "3/2"},
		{"to the end of its bar", `, "duration_beats": 3`, "3"},
		{"beyond, in whole bars", `, "duration_beats": 8`, "11"},
	} {
		p := readOne(t, `{"id": "x", "meter": "4/4", "chords": [{"bar": 1, "beat": 2, "symbol": "C", "key": "C"`+tt.duration+`}]}`)
		events := p.Chart.Played()
		require.Len(t, events, 2, "silence first")
		assert.Equal(t, tt.want, events[1].Len.String(), tt.name)
	}
}

func TestReadErrors(t *testing.T) {
	piece := func(chords string) string { return `{"id": "x", "meter": "3/4", "chords": [` + chords + `]}` }
	_, symbol := chord.Parse("c7")
	require.Error(t, symbol)
	const good = `{"bar": 1, "beat": 1, "symbol": "C", "key": "C major", "numeral": "I"}`
	tests := []struct{ name, in, wantErr string }{
		{"no JSON", `good`, `line 1: not JSON at offset 1: invalid character 'g' looking for beginning of value`},
		{"cut off", `{"id": "x"`, `line 1: not JSON at offset 10: unexpected end of JSON input`},
		{"no object", `[]`, `line 1: expected an object, not array`},
		{"second line", piece(good) + "\n\n" + `{"id": 7}`, `line 3: id: expected text, not number`},
		{"no meter", `{"id": "x", "chords": [` + good + `]}`, `line 1: "x": meter: expected a meter at offset 0 of "" (for example 3/4)`},
		{"bad meter", `{"id": "x", "meter": "3/5", "chords": [` + good + `]}`, `line 1: "x": meter: expected 1, 2, 4, 8, 16 or 32 as the lower number of a meter at offset 2 of "3/5"`},
		{"bad later meter", `{"id": "x", "meter": "3/4", "meters": [{"bar": 9, "meter": "waltz"}], "chords": [` + good + `]}`,
			`line 1: "x": meters: bar 9: expected a meter at offset 0 of "waltz" (for example 3/4)`},
		{"no chords", piece(``), `line 1: "x": chords: expected at least one`},
		{"chords no list", `{"id": "x", "chords": {}}`, `line 1: chords: expected a list, not object`},
		{"flag no flag", `{"id": "x", "tonic_only": "yes"}`, `line 1: tonic_only: expected true or false, not string`},
		{"chord no object", piece(good + `, "C"`), `line 1: "x": chord 1: expected an object, not string`},
		{"no bar", piece(`{"beat": 1, "symbol": "C", "key": "C major"}`), `line 1: "x": chord 0: bar: expected the printed number of a bar, from 0`},
		{"negative bar", piece(`{"bar": -1, "beat": 1, "symbol": "C"}`), `line 1: "x": chord 0: bar: expected the printed number of a bar, from 0`},
		{"bar no whole number", piece(`{"bar": 1.5, "beat": 1, "symbol": "C"}`), `line 1: "x": chord 0: bar: expected a whole number, not number 1.5`},
		{"bar too far", piece(good + `, {"bar": 1002, "beat": 1, "symbol": "C"}`), `line 1: "x": chord 1: bar 1002: expected at most 1000 bars after bar 1`},
		{"late pickup", piece(good + `, {"bar": 0, "beat": 3, "symbol": "C"}`), `line 1: "x": chord 1: bar 0: expected a pickup only at the start`},
		{"no beat", piece(`{"bar": 1, "symbol": "C"}`), `line 1: "x": chord 0: beat: expected a number from 1`},
		{"beat before the bar", piece(`{"bar": 1, "beat": 0.5, "symbol": "C"}`), `line 1: "x": chord 0: beat: expected a number from 1`},
		{"beat behind the bar", piece(`{"bar": 1, "beat": 4, "symbol": "C"}`), `line 1: "x": chord 0: beat 4: expected one of the 3 of bar 1 in 3/4`},
		{"beat no fraction", piece(`{"bar": 1, "beat": 1.3141, "symbol": "C"}`),
			`line 1: "x": chord 0: beat: these decimals stand for no simple fraction of a beat at offset 2 of "1.3141" (write a fraction, 4/3, or more decimals of it)`},
		{"beat no number", piece(`{"bar": 1, "beat": "1", "symbol": "C"}`), `line 1: "x": chord 0: beat: expected a number, not string`},
		{"bad symbol", piece(good + `, {"bar": 2, "beat": 1, "symbol": "c7"}`), `line 1: "x": chord 1: symbol: ` + symbol.Error()},
		{"bad key", piece(`{"bar": 1, "beat": 1, "symbol": "C", "key": "H major"}`), `line 1: "x": chord 0: key: expected a note name A to G at offset 0 of "H major" (the German H is B)`},
		{"bad numeral", piece(`{"bar": 1, "beat": 1, "symbol": "C", "key": "C", "numeral": "V7"}`),
			`line 1: "x": chord 0: numeral: expected a degree I to VII with at most two accidentals at offset 0 of "V7"`},
		{"bad target", piece(`{"bar": 1, "beat": 1, "symbol": "C", "key": "C", "numeral": "V", "applied_to": "8"}`),
			`line 1: "x": chord 0: applied_to: expected a degree I to VII with at most two accidentals at offset 0 of "8"`},
		{"no length", piece(`{"bar": 1, "beat": 1, "symbol": "C", "duration_beats": 0}`), `line 1: "x": chord 0: duration_beats: expected more than 0`},
		{"endless", piece(`{"bar": 1, "beat": 1, "symbol": "C", "duration_beats": 3006}`), `line 1: "x": chord 0: duration_beats: expected at most 1000 bars`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			pieces, err := Read(strings.NewReader(tt.in))
			assert.EqualError(t, err, tt.wantErr)
			assert.Nil(t, pieces)
		})
	}
}

func TestReadLongLine(t *testing.T) {
	_, err := Read(strings.NewReader("\n" + strings.Repeat("x", maxLine+1)))
	assert.EqualError(t, err, "line 2: bufio.Scanner: token too long")
}

func FuzzRead(f *testing.F) {
	f.Add(strings.ReplaceAll(lanterns, "\n", ""))
	f.Add(`{"id": "x", "meter": "6/8", "chords": [{"bar": 0, "beat": 2.5, "symbol": "Bb", "key": "Bb"}]}`)
	f.Add(`{"meter": "4/4", "meters": [{"bar": -1, "meter": "2/2"}], "chords": [{"bar": 3, "beat": 2, "symbol": "C"}, {"bar": 2, "beat": 1, "symbol": "G"}]}`)
	f.Fuzz(func(t *testing.T, s string) {
		pieces, err := Read(strings.NewReader(s))
		if err != nil {
			return
		}
		for i := range pieces {
			p := &pieces[i]
			if n := len(p.Chart.Played()); n != len(p.Answers) && n < chart.MaxPlayedChords && len(p.Chart.Bars) <= chart.MaxPlayedBars {
				t.Fatalf("%d chords played, %d answers", n, len(p.Answers))
			}
		}
	})
}

// Reads the annotated files of a directory outside of the project, if the
// environment names one, and prints how well they are read.
func TestCorpora(t *testing.T) {
	for _, file := range corpora.Files(t) {
		r, err := os.Open(file)
		require.NoError(t, err)
		pieces, err := Read(r)
		require.NoError(t, err, file)
		require.NoError(t, r.Close())
		readings := Analyze(pieces)
		var s Score
		var c Calibration
		for i := range pieces {
			p := &pieces[i]
			require.NoError(t, p.Chart.Validate(), p.ID)
			require.Len(t, readings[i].Chords, len(p.Answers), p.ID)
			s = s.Add(Compare(p, &readings[i]))
			c.Add(p, &readings[i])
		}
		t.Logf("%s: key %.3f tonic %.3f weighted %.3f changes %.3f label %.3f applied %.3f calibration error %.3f", filepath.Base(file),
			s.KeyShare(), s.TonicShare(), s.WeightedShare(), s.ChangesF1(), s.LabelShare(), s.AppliedF1(), c.Error())
	}
}

func TestSameKey(t *testing.T) {
	tests := []struct {
		a, b             string
		same, tonicsOnly bool
	}{
		{"C major", "C major", true, true},
		{"F# major", "Gb major", true, true},
		{"D dorian", "D minor", true, true},
		{"G mixolydian", "G major", true, true},
		{"C major", "C minor", false, true},
		{"C major", "A minor", false, false},
	}
	for _, tt := range tests {
		a, b := key.MustParse(tt.a), key.MustParse(tt.b)
		assert.Equal(t, tt.same, (&Piece{}).same(a, b), "%v, %v", a, b)
		assert.Equal(t, tt.tonicsOnly, (&Piece{TonicOnly: true}).same(a, b), "%v, %v", a, b)
	}
}
