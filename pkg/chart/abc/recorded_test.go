package abc

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// recorded are fragments of ABC and where their chords stand: the bar, from 0,
// and the place in it in whole notes. Recorded from abcjs 6.7.2, whose durations
// were added up.
var recorded = []struct{ name, in, want string }{
	{"plain notes", "M:4/4\nL:1/8\nK:C\n\"Am7\"A2 B2 \"D7\"d4|\"G\"G2 z2 [CEG]4|\"C\"c8|]",
		"0@0 Am7, 0@1/2 D7, 1@0 G, 2@0 C"},
	{"lengths", "M:4/4\nL:1/8\nK:G\n\"G\"G3/2A/ B// c// d/ \"C\"e3/ \"D\"f/|\"Em\"g4 \"A7\"a3 \"D\"f|]",
		"0@0 G, 0@3/8 C, 0@9/16 D, 1@0 Em, 1@1/2 A7, 1@7/8 D"},
	{"unit from the meter", "M:2/4\nK:C\n\"C\"c4 \"F\"f2 \"G\"g2|\"C\"c8|]",
		"0@0 C, 0@1/4 F, 0@3/8 G, 1@0 C"},
	{"unit an eighth", "M:3/4\nK:C\n\"C\"c4 \"G\"d2|\"C\"c6|]",
		"0@0 C, 0@1/2 G, 1@0 C"},
	{"broken rhythm", "M:4/4\nL:1/8\nK:D\n\"D\"d>\"A\"e \"Bm\"f<\"G\"g \"D\"a>>\"A\"b \"G\"g<<\"D\"f|\"D\"d8|]",
		"0@0 D, 0@3/16 A, 0@1/4 Bm, 0@5/16 G, 0@1/2 D, 0@23/32 A, 0@3/4 G, 0@25/32 D, 1@0 D"},
	{"triplets", "M:4/4\nL:1/8\nK:C\n(3\"C\"c\"F\"d\"G\"e \"Am\"f2 (3\"Dm\"g2\"Em\"a2\"F\"b2|\"C\"c8|]",
		"0@0 C, 0@1/12 F, 0@1/6 G, 0@1/4 Am, 0@1/2 Dm, 0@2/3 Em, 0@5/6 F, 1@0 C"},
	{"tuplets with numbers", "M:4/4\nL:1/8\nK:C\n(3:2:2\"C\"c4\"F\"d2 \"G\"e4|(5:4:5\"C\"c\"D\"d\"E\"e\"F\"f\"G\"g \"C\"c4|]",
		"0@0 C, 0@1/3 F, 0@1/2 G, 1@0 C, 1@1/10 D, 1@1/5 E, 1@3/10 F, 1@2/5 G, 1@1/2 C"},
	{"quadruplet and duplet", "M:6/8\nL:1/8\nK:C\n(4\"C\"c\"F\"d\"G\"e\"C\"f (2\"Am\"g\"Dm\"a|\"C\"c6|]",
		"0@0 C, 0@3/32 F, 0@3/16 G, 0@9/32 C, 0@3/8 Am, 0@9/16 Dm, 1@0 C"},
	{"notes together", "M:4/4\nL:1/8\nK:C\n\"C\"[CEG]2\"F\"[FAc]3/\"G\"[GBd]/ \"Am\"[A2c2]2|\"C\"[C8E8]|]",
		"0@0 C, 0@1/4 F, 0@7/16 G, 0@1/2 Am, 1@0 C"},
	{"grace notes", "M:3/4\nL:1/4\nK:F\n\"F\"{ga}f{/e}d \"C7\"c|\"F\"{e}f3|]",
		"0@0 F, 0@1/2 C7, 1@0 F"},
	{"rests", "M:3/4\nL:1/4\nK:F\nz \"F\"z \"C7\"x|\"F\"z3|]",
		"0@1/4 F, 0@1/2 C7, 1@0 F"},
	{"fields in brackets", "M:4/4\nL:1/8\nK:C\n\"C\"c4 [L:1/4]\"F\"f2|[M:3/4]\"G\"g2 \"C\"c|[M:6/8][L:1/8]\"Am\"a3 \"Dm\"d3|]",
		"0@0 C, 0@1/2 F, 1@0 G, 1@1/2 C, 2@0 Am, 2@3/8 Dm"},
	{"lines and continuation", "M:4/4\nL:1/4\nK:C\n\"C\"c2 \\\n\"F\"f2|\n\"G\"g2\n\"C\"c2|]",
		"0@0 C, 0@1/2 F, 1@0 G, 1@1/2 C"},
	{"decorations between", "M:4/4\nL:1/4\nK:C\n\"C\"!trill!c.d \"F\"~f!>!g|uv\"G\"g3 T\"C\"c|]",
		"0@0 C, 0@1/2 F, 1@0 G, 1@3/4 C"},
	{"ties and slurs", "M:4/4\nL:1/4\nK:C\n\"C\"(c2-c \"F\"f)|-f \"G\"g2- \"C\"g|]",
		"0@0 C, 0@3/4 F, 1@1/4 G, 1@3/4 C"},
	{"accidentals and octaves", "M:4/4\nL:1/4\nK:C\n\"C\"^c,,_d'' \"F\"=f^^g|\"G\"__g2 \"C\"c|]",
		"0@0 C, 0@1/2 F, 1@0 G, 1@1/2 C"},
	{"upbeat", "M:4/4\nL:1/4\nK:C\n\"G7\"g|\"C\"c2 \"F\"f2|\"C\"c3|]",
		"0@0 G7, 1@0 C, 1@1/2 F, 2@0 C"},
	{"flats and sharps", "M:4/4\nL:1/4\nK:Eb\n\"Eb\"e2 \"Bb7/D\"d2|\"Ab\"c2 \"F#dim7\"c2|]",
		"0@0 Eb, 0@1/2 Bb7/D, 1@0 Ab, 1@1/2 F#dim7"},
	{"double length", "M:C|\nL:1/4\nK:C\n\"C\"c4|\"F\"f2 \"G\"g2|]",
		"0@0 C, 1@0 F, 1@1/2 G"},
	{"cut and compound", "M:9/8\nL:1/8\nK:C\n\"C\"c3 \"F\"d2 \"G\"e \"Am\"f3|\"C\"c9|]",
		"0@0 C, 0@3/8 F, 0@5/8 G, 0@3/4 Am, 1@0 C"},
}

func TestPlacesAsRecorded(t *testing.T) {
	for _, r := range recorded {
		t.Run(r.name, func(t *testing.T) {
			c, err := Parse([]byte("X:1\nT:Low Tide\n" + r.in))
			require.NoError(t, err)
			assert.Equal(t, r.want, places(c))
		})
	}
}

// places lists the chords that are written in a chart as the facts do.
func places(c chart.Chart) string {
	var list []string
	for i, b := range c.Bars {
		from := chart.Beats{}
		if i == 0 && !c.Pickup.IsZero() {
			from = b.Meter.Beats().Sub(c.Pickup)
		}
		for _, s := range b.Chords {
			if s.Symbol != "" {
				list = append(list, fmt.Sprintf("%d@%v %s", i, wholes(b.Meter, s.At.Sub(from)), s.Symbol))
			}
		}
	}
	return strings.Join(list, ", ")
}
