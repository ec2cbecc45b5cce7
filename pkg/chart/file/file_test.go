package file_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/file"
)

func TestDetect(t *testing.T) {
	tests := []struct {
		name, in string
		want     file.Format
	}{
		{"nothing", "", file.Text},
		{"text", "Title: X: 1\n| C |", file.Text},
		{"a title that looks like a field", "Title: K:C\n| C |", file.Text},
		{"xml", "<?xml version=\"1.0\"?>", file.MusicXML},
		{"xml with a byte order mark", "\xef\xbb\xbf\n <score-partwise>", file.MusicXML},
		{"utf-16", "\xff\xfe<\x00?\x00", file.MusicXML},
		{"utf-16 without a mark", "\x00<\x00?", file.MusicXML},
		{"zip", "PK\x03\x04", file.CompressedMusicXML},
		{"abc", "X:1\nT:Low Tide\nK:C\n", file.ABC},
		{"abc behind a file header", "%abc-2.1\nM:4/4\n\nX: 7\n", file.ABC},
		{"abc in utf-16", "\xff\xfeX\x00:\x001\x00\n\x00", file.ABC},
		{"abc in utf-16 without a mark", "\x00X\x00:\x001\x00\n", file.ABC},
		{"abc behind a long file header", "% marks\n" + strings.Repeat("% a line of a long header\n", 400) + "X:1\n", file.ABC},
		{"abc of definitions alone", "% marks of our own\n%%beginps\n/a{}!\n%%endps\n", file.ABC},
		{"a bar repeated", "| C |\n% | G |\n", file.Text},
		{"abc behind a comment", "% tunes\nX:1\r\n", file.ABC},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, file.Detect([]byte(tt.in)), tt.name)
	}
}

func TestNoChart(t *testing.T) {
	_, err := file.Read([]byte("\x89PNG\r\n\x1a\n"))
	assert.EqualError(t, err, "the file is no chart: byte 0 is of no text (charts are read from the text notation in UTF-8, MusicXML and ABC)")
	_, err = file.Read([]byte("\xff\xfeX\x00:\x001\x00\n\x00"))
	assert.EqualError(t, err, "the file is in UTF-16, expected UTF-8 (save it in UTF-8)")
	_, err = file.Read([]byte("MThd\x00\x00"))
	assert.EqualError(t, err, "the file is no chart: byte 4 is of no text (charts are read from the text notation in UTF-8, MusicXML and ABC)")
	_, err = file.Read([]byte("%PDF-1.7\n%\xe2\xe3\n1 0 obj\n%%EOF\n"))
	assert.EqualError(t, err, "the file is no chart: byte 10 is of no text (charts are read from the text notation in UTF-8, MusicXML and ABC)")
}

func TestFormatText(t *testing.T) {
	for f := file.Text; f <= file.ABC; f++ {
		got, err := file.ParseFormat(f.String())
		require.NoError(t, err)
		assert.Equal(t, f, got)
	}
	_, err := file.ParseFormat("pdf")
	assert.EqualError(t, err, `expected text, musicxml, mxl or abc at offset 0 of "pdf"`)
	assert.Equal(t, "Format(9)", file.Format(9).String())
}

// Every format is read from what is written in every other.
func TestAnyFormatFromAny(t *testing.T) {
	const text = "Title: Low Tide\nMeter: 4/4\nKey: G minor\n\n[A]\n|: Gm7 | C7 Cm7/F | 1. Bbmaj7 :| 2. Bb6 ||\n"
	for from := file.Text; from <= file.ABC; from++ {
		f, err := file.Read([]byte(text))
		require.NoError(t, err)
		data, err := f.Write(from, nil)
		require.NoError(t, err)
		require.Equal(t, from, file.Detect(data))
		f, err = file.Read(data)
		require.NoError(t, err, from)
		for to := file.Text; to <= file.ABC; to++ {
			data, err := f.Write(to, []chart.Mark{{Bar: 0, Chord: 0, Above: "G minor", Below: "Im7"}})
			require.NoError(t, err)
			back, err := file.Read(data)
			require.NoError(t, err)
			assert.Equal(t, text, back.Chart.String(), "%v to %v", from, to)
		}
	}
}

func ExampleRead() {
	f, err := file.Read([]byte("X:1\nM:4/4\nL:1/4\nK:C\n\"Dm7\"d2 \"G7\"g2|\"Cmaj7\"c4|]\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(f.Format, "\n", f.Chart)
	// Output:
	// abc
	// Meter: 4/4
	// Key: C major
	//
	// | Dm7 G7 | Cmaj7 |
}
