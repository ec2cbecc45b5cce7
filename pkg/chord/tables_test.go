package chord

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spoken is every way in which the words of a table cell are read, without
// what only looks ahead.
func spoken(words string) []string {
	var list []string
	for _, w := range strings.Fields(words) {
		read, _, _ := strings.Cut(w, "|")
		list = append(list, cases(read)...)
	}
	return list
}

func rooted(cell string) degreeSet { return only(root) | degreesOf(cell) }

func TestEveryKind(t *testing.T) {
	for _, k := range kinds {
		for _, word := range spoken(k.words) {
			q, err := ParseQuality(word)
			require.NoError(t, err, word)
			want := rooted(k.triad)
			if k.alone != "" {
				want |= degreesOf(k.seventh)
			}
			assert.Equal(t, want, q.set(), "%q", word)
			for _, n := range numbers {
				everyNumber(t, k, word, n)
			}
		}
	}
}

func everyNumber(t *testing.T, k kind, word string, n number) {
	alias := strings.Fields(n.words)
	cell := n.overMajor
	if strings.Contains(k.triad, "b3") {
		cell = n.overMinor
	}
	want := rooted(k.triad) | degreesOf(strings.ReplaceAll(cell, "S", k.seventh))
	for _, figures := range alias {
		q, err := ParseQuality(word + figures)
		if !slices.Contains(strings.Fields(k.numbers), alias[0]) {
			assert.Error(t, err, "%s%s", word, figures)
			continue
		}
		require.NoError(t, err, word+figures)
		assert.Equal(t, want, q.set(), "%s%s", word, figures)
	}
}

func TestEveryLookAhead(t *testing.T) {
	for in, want := range map[string]string{"madd9": "madd9", "mAdd9": "madd9", "Madd9": "add9", "MADD9": "add9", "omit3": "5", "OMIT3": "5", "o": "dim"} {
		q, err := ParseQuality(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, q.String(), in)
	}
}

func TestEveryMajorWordFurtherBack(t *testing.T) {
	for _, k := range majorKinds {
		for _, word := range spoken(k.words) {
			for _, in := range []string{"m" + word + "7", "m(" + word + "7)", "m/" + word + "7"} {
				q, err := ParseQuality(in)
				require.NoError(t, err, in)
				assert.Equal(t, rooted("b3 5 7"), q.set(), in)
			}
			q, err := ParseQuality("dim(" + word + "9)")
			require.NoError(t, err, word)
			assert.Equal(t, rooted("b3 b5 7 9"), q.set(), word)
		}
	}
}

func TestEveryModifier(t *testing.T) {
	behindSeven := func(m modifier) (operand string, want degreeSet) {
		switch m.op {
		case suspend:
			return "", rooted("5 b7") | degreesOf(m.degrees)
		case raise:
			return "", rooted("3 b7") | degreesOf(m.degrees)
		case alter:
			return "", rooted(m.degrees)
		case add:
			return "13", rooted("3 5 b7 13")
		case leaveOut:
			return "5", rooted("3 b7")
		case leaveRoot:
			return "", degreesOf("3 5 b7")
		}
		panic("an op without a test")
	}
	for _, m := range modifiers {
		operand, want := behindSeven(m)
		for _, word := range spoken(m.words) {
			for _, in := range []string{"7" + word + operand, "7(" + word + operand + ")"} {
				q, err := ParseQuality(in)
				require.NoError(t, err, in)
				assert.Equal(t, want, q.set(), in)
				assert.Equal(t, m.op == alter, q.IsAltered(), in)
			}
		}
	}
}

func TestEverySheetDegree(t *testing.T) {
	rows := map[int]sheetDegree{}
	for _, d := range sheetDegrees {
		rows[d.number] = d
	}
	for n := 2; n <= maxDegree; n++ {
		row := rows[n]
		figures := strconv.Itoa(n)
		for _, in := range []string{"sus4(" + figures + ")", "sus4add" + figures} {
			q, err := ParseQuality(in)
			if !row.plain {
				assert.Error(t, err, in)
				continue
			}
			require.NoError(t, err, in)
			assert.Equal(t, rooted("4 5")|only(D(row.stands, 0)), q.set(), in)
		}
		for _, in := range []string{"(b" + figures + ")", "addb" + figures} {
			q, err := ParseQuality(in)
			if !row.signed {
				assert.Error(t, err, in)
				continue
			}
			require.NoError(t, err, in)
			assert.True(t, q.Has(D(row.stands, -1)), in)
			assert.Equal(t, n != 5 || in == "addb5", q.Has(D(5, 0)), in)
		}
	}
}

func TestEverySign(t *testing.T) {
	for _, s := range degreeSigns {
		for _, word := range strings.Fields(s.words) {
			assert.Equal(t, rooted("3 5 b7")|only(D(9, s.semitones)), MustParse("C7("+word+"9)").Quality().set(), word)
			assert.Equal(t, rooted("3 5 b7")|only(D(9, s.semitones)), MustParse("C:7("+word+"9)").Quality().set(), word)
		}
	}
	for _, s := range sheetSigns {
		for _, word := range strings.Fields(s.words) {
			assert.Equal(t, rooted("3 5 b7")|only(D(9, s.semitones)), MustParse("C7"+word+"9").Quality().set(), word)
			_, err := Parse("C:7(" + word + "9)")
			assert.Error(t, err, word)
		}
	}
}

func TestEveryShorthand(t *testing.T) {
	for _, s := range slices.Concat(shorthands, laterShorthands) {
		for _, word := range spoken(s.word) {
			assert.Equal(t, rooted(s.degrees), MustParse("C:"+word).Quality().set(), word)
		}
	}
	for _, s := range shorthands {
		assert.Equal(t, "C:"+s.word, MustParse("C:"+s.word).Harte())
	}
}

func TestEveryHead(t *testing.T) {
	for _, h := range heads {
		q, err := ParseQuality(h.name)
		require.NoError(t, err, h.name)
		assert.Equal(t, rooted(h.degrees), q.set(), h.name)
		assert.Equal(t, h.name, q.String())
	}
}

// Whatever tensions stand behind whatever head, the symbol is read back.
func TestEveryHeadWithTensions(t *testing.T) {
	list := slices.Collect(degreesOf(tensions).all())
	for _, h := range heads {
		for chosen := range 1 << len(list) {
			s := rooted(h.degrees)
			for i, d := range list {
				if chosen>>i&1 != 0 {
					s ^= only(d)
				}
			}
			q := qualityOf(s)
			again, err := ParseQuality(q.String())
			if err != nil || again != q {
				t.Fatalf("%v prints %q, read as %v: %v", q.Degrees(), q, again, err)
			}
		}
	}
}
