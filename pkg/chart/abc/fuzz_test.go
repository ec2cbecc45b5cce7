package abc

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

func FuzzParse(f *testing.F) {
	for _, n := range notation {
		f.Add([]byte("X:1\n" + n.in))
	}
	for _, n := range badNotation {
		f.Add([]byte(n.in))
	}
	for _, n := range recorded {
		f.Add([]byte("X:1\n" + n.in))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		for tune, err := range Tunes(in) {
			check(t, tune.Chart, err)
		}
		c, err := Parse(in)
		check(t, c, err)
	})
}

// check holds what was read against what must be true of any: errors with their
// places in order, or a valid chart that is written and read as it is.
func check(t *testing.T, c chart.Chart, err error) {
	if err != nil {
		var list ErrorList
		if !errors.As(err, &list) || len(list) == 0 || len(list) > MaxErrors {
			t.Fatalf("%v", err)
		}
		for i, e := range list {
			if e.Msg == "" || e.Line > 0 && e.Column < 1 || i > 0 && e.Line < list[i-1].Line {
				t.Fatalf("%+v", e)
			}
		}
		return
	}
	if err := c.Validate(); err != nil {
		t.Fatalf("%v", err)
	}
	text := Format(c, nil)
	again, err := Parse(text)
	if err != nil {
		t.Fatalf("%s\n%s\n%v", c, text, err)
	}
	if got := sounds(again); !slices.Equal(got, sounds(c)) && !slices.Equal(got, sounds(c.Unfolded())) {
		t.Fatalf("%s\n%s\n%s", c, text, again)
	}
}

func BenchmarkParse(b *testing.B) {
	in := []byte("X:1\nT:Low Tide\nM:4/4\nL:1/8\nK:F\n" + strings.Repeat("|:\"Fmaj7\"A2 c>d (3edc A2|\"Gm7\"B2 d2 \"C7\"c4|1 \"F\"f8:|2 \"Bb\"f4 \"F\"f4|\n", 8))
	b.SetBytes(int64(len(in)))
	for b.Loop() {
		if _, err := Parse(in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	c, err := Parse([]byte("X:1\nM:4/4\nL:1/8\nK:F\n" + strings.Repeat("|:\"Fmaj7\"A8|\"Gm7\"B4 \"C7\"c4|1 \"F\"f8:|2 \"Bb\"f4 \"F\"f4|\n", 8)))
	require.NoError(b, err)
	for b.Loop() {
		Format(c, nil)
	}
}
