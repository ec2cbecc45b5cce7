package musicxml

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// Whatever is read is a chart that validates, each of its bars from a measure,
// with a text that is read back; annotated and taken back it is the same file.
// Whatever is not read has an error with words.
func FuzzRead(f *testing.F) {
	for _, file := range scores(f) {
		data, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(data)
	}
	for _, tt := range written {
		c, err := chart.Parse(tt.text)
		require.NoError(f, err)
		f.Add(Write(c, marksOf(c)))
	}
	f.Add(packed(f, "tune.xml", string(leadSheet(h("dominant", "add 9 -1")))))
	f.Add([]byte("\xff\xfe<\x00?\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Read(data)
		if err != nil {
			assert.Nil(t, d)
			assert.NotEmpty(t, err.Error())
			return
		}
		c := d.Chart()
		require.NoError(t, c.Validate())
		again, err := chart.Parse(c.String())
		require.NoError(t, err, c.String())
		assert.Equal(t, c.String(), again.String())
		require.Len(t, d.Measures(), len(c.Bars))
		for _, m := range d.Measures() {
			assert.True(t, m >= 0 && m < len(d.symbols))
		}
		source := d.Score(nil)
		out := d.Score(marksOf(c))
		read, err := Read(out)
		require.NoError(t, err)
		assert.True(t, c.Equal(read.Chart()))
		assert.Equal(t, string(source), string(read.Score(nil)))
		assert.NotPanics(t, func() { Write(c, marksOf(c)) })
	})
}
