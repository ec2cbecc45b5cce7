package function_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// practiceRule is a rule by which players read charts, and charts that it
// decides. All are common practice, no source.
type practiceRule struct {
	rule   string
	charts []ruledChart
}

// ruledChart is an invented chart and its reading.
type ruledChart struct {
	name  string
	chart string // in the text notation

	// reading has a word for each chord, bar by bar as the chart has them. "F#m:"
	// stands before the first chord in a key and opens a region. "V7/II=VI7" are
	// two names in equal use; "IV*" leaves the quality open, "_" the numeral, "?"
	// the key too; "%" says the word before again; "/" holds.
	reading string

	also []claim
}

// claim is something else that the reading says. It gives what is wrong, or "".
// Chords are named by their symbols, "Dm7:2" the second that is written so.
type claim func(*function.Analysis) string

// notYetRead are charts whose reading falls short of their rule, with the
// cause. A chart that comes right must leave the list.
var notYetRead = map[string]string{
	"of the borrowed bIII":    "a borrowed major of one bar is heard as a key of its own, as it would be for two",
	"of bII":                  "the same",
	"a cycle of major thirds": "the last step of a cycle in half bars goes back home as bVI",
	"eight bars of the relative minor open a section": "bVI and bVII are IV and V of the relative major, and no term sees eight bars as a whole",
	"static suspensions":                              "a second suspension is heard as a dominant of the first",
	"half steps from the start":                       "a two-five with which a chain starts is heard as a key that is left",
}

func TestRules(t *testing.T) {
	for _, rules := range [][]practiceRule{namingRules, vocabularyRules, keyRules} {
		for _, r := range rules {
			require.GreaterOrEqual(t, len(r.charts), 3, r.rule)
			t.Run(r.rule, func(t *testing.T) {
				for _, c := range r.charts {
					t.Run(c.name, c.check)
				}
			})
		}
	}
}

func (c *ruledChart) check(t *testing.T) {
	parsed, err := chart.Parse(c.chart)
	require.NoError(t, err, c.chart)
	a := function.Analyze(parsed)
	wrong := c.compare(t, &a)
	for _, holds := range c.also {
		if complaint := holds(&a); complaint != "" {
			wrong = append(wrong, complaint)
		}
	}
	if why, open := notYetRead[c.name]; open {
		require.NotEmpty(t, wrong, "the chart is read as the rule asks: take it off the list of those that are not (%s)", why)
		t.Logf("not yet read: %s\n%s", why, strings.Join(wrong, "\n"))
		return
	}
	if len(wrong) > 0 {
		t.Errorf("\nchart  %s\nwanted %s\nshown  %s\n       %s", c.chart, c.reading, numerals(&a), strings.Join(wrong, "\n       "))
	}
}

// compare lists the chords that are read otherwise.
func (c *ruledChart) compare(t *testing.T, a *function.Analysis) (wrong []string) {
	t.Helper()
	var k key.Key
	var last string
	i, measure, regions, open := 0, 0, 0, false
	for word := range strings.FieldsSeq(c.reading) {
		if name, ok := strings.CutSuffix(word, ":"); ok {
			k = mustKey(t, name)
			regions++
			continue
		}
		switch word {
		case "|", "||":
			measure++
			continue
		case "/":
			continue
		case "%":
			word = last
		case "?":
			open = true
		}
		last = word
		require.Less(t, i, len(a.Chords), "the reading has more words than the chart has chords: %s", c.chart)
		r := &a.Chords[i]
		require.Equal(t, measure, r.Event.Measure, "the reading's bars are not the chart's at chord %d: %s", i, c.chart)
		if word != "?" && (r.Key != k || !reads(r.Numeral, word)) {
			wrong = append(wrong, fmt.Sprintf("%s in bar %d: want %v: %s, shown %s", r.Event.Symbol, r.Event.Bar, k, word, weighed(a, i)))
		}
		i++
	}
	require.Len(t, a.Chords, i, "the reading has fewer words than the chart has chords: %s", c.chart)
	if !open && len(a.Regions) != regions {
		wrong = append(wrong, fmt.Sprintf("want %d regions, shown %d", regions, len(a.Regions)))
	}
	return wrong
}

// reads reports whether n is one of the names in a word of a reading.
func reads(n function.Numeral, word string) bool {
	for name := range strings.SplitSeq(word, "=") {
		degree, open := strings.CutSuffix(name, "*")
		if name == "_" || name == n.String() || open && degree == n.Degree().String() && !n.Target().IsValid() {
			return true
		}
	}
	return false
}

// weighed are the readings of chord i with their probabilities.
func weighed(a *function.Analysis, i int) string {
	r := &a.Chords[i]
	text := fmt.Sprintf("%v: %v %.2f", r.Key, r.Numeral, r.Confidence)
	for _, alt := range a.Alternatives(i, function.MaxAlternatives) {
		text += fmt.Sprintf(", %v: %v %.2f", alt.Key, alt.Numeral, alt.Confidence)
	}
	return text
}

// find is the index of the chord of a name, -1 if there is none.
func find(a *function.Analysis, name string) int {
	symbol, count, _ := strings.Cut(name, ":")
	n, _ := strconv.Atoi(count)
	for i := range a.Chords {
		if a.Chords[i].Event.Symbol != symbol {
			continue
		}
		if n--; n <= 0 {
			return i
		}
	}
	return -1
}

// of is a claim about one chord.
func of(name string, holds func(a *function.Analysis, i int) string) claim {
	return func(a *function.Analysis) string {
		i := find(a, name)
		if i < 0 {
			return "no chord " + name
		}
		if complaint := holds(a, i); complaint != "" {
			return name + ": " + complaint
		}
		return ""
	}
}

// role: the chord is there by this device.
func role(name string, want function.Role) claim {
	return of(name, func(a *function.Analysis, i int) string {
		return differ("role", want.String(), a.Chords[i].Role.String())
	})
}

// acts: the chord has this function.
func acts(name string, want function.Function) claim {
	return of(name, func(a *function.Analysis, i int) string {
		return differ("function", want.String(), a.Chords[i].Function.String())
	})
}

// paid: the chord's debt is paid by this one.
func paid(name, by string) claim {
	return of(name, func(a *function.Analysis, i int) string {
		got := "none"
		if to := a.Chords[i].ResolvesTo; to >= 0 {
			got = fmt.Sprintf("chord %d, %s", to, a.Chords[to].Event.Symbol)
		}
		to := find(a, by)
		if to < 0 {
			return "no chord " + by
		}
		return differ("resolution", fmt.Sprintf("chord %d, %s", to, a.Chords[to].Event.Symbol), got)
	})
}

// elsewhere: the numerals are among the other readings in the same key.
func elsewhere(name string, want ...string) claim {
	return of(name, func(a *function.Analysis, i int) string {
		var got []string
		for _, alt := range a.Alternatives(i, function.MaxAlternatives) {
			if alt.Key == a.Chords[i].Key {
				got = append(got, alt.Numeral.String())
			}
		}
		for _, numeral := range want {
			if !slices.Contains(got, numeral) {
				return differ("alternatives", numeral, weighed(a, i))
			}
		}
		return ""
	})
}

// pivots: the chord carries a numeral in a second key, "F#m: IVm".
func pivots(name, want string) claim {
	return of(name, func(a *function.Analysis, i int) string {
		p := a.Chords[i].Pivot
		tonic, numeral, _ := strings.Cut(want, ": ")
		if p.Key == key.MustParse(tonic) && p.Numeral.String() == numeral {
			return ""
		}
		return differ("pivot", want, fmt.Sprintf("%v: %v", p.Key, p.Numeral))
	})
}

// tells: the chord's reason has words that match the expression.
func tells(name, expression string) claim {
	return of(name, func(a *function.Analysis, i int) string {
		if reason := a.Reason(i); !regexp.MustCompile(expression).MatchString(reason) {
			return differ("reason", expression, reason)
		}
		return ""
	})
}

// styled: the numeral in another style.
func styled(name string, s function.NumeralStyle, want string) claim {
	return of(name, func(a *function.Analysis, i int) string {
		r := &a.Chords[i]
		return differ(s.String(), want, r.Numeral.Text(s, r.Key.Mode(), 0))
	})
}

// arrives: a cadence ends on the chord.
func arrives(name string, want function.CadenceKind) claim {
	return of(name, func(a *function.Analysis, i int) string {
		for _, c := range a.Cadences {
			if c.Chords[len(c.Chords)-1] == i {
				return differ("cadence", want.String(), c.Kind.String())
			}
		}
		return differ("cadence", want.String(), "none")
	})
}

// passesOver: no cadence ends on the chord.
func passesOver(name string) claim {
	return of(name, func(a *function.Analysis, i int) string {
		for _, c := range a.Cadences {
			if c.Chords[len(c.Chords)-1] == i {
				return differ("cadence", "none", c.Kind.String())
			}
		}
		return ""
	})
}

// home: the tune is in this key.
func home(name string) claim {
	return func(a *function.Analysis) string {
		return differ("home", key.MustParse(name).String(), a.Home.String())
	}
}

// warns: one warning names all these chords.
func warns(symbols ...string) claim {
	return func(a *function.Analysis) string {
		var messages []string
		for _, w := range a.Warnings {
			named := true
			for _, symbol := range symbols {
				named = named && strings.Contains(w.Message, symbol)
			}
			if named {
				return ""
			}
			messages = append(messages, w.Message)
		}
		return differ("warning", strings.Join(symbols, ", "), strings.Join(messages, "; "))
	}
}

// unwarned: there is nothing to warn of.
func unwarned(a *function.Analysis) string {
	if len(a.Warnings) > 0 {
		return differ("warnings", "none", fmt.Sprint(a.Warnings))
	}
	return ""
}

func differ(what, want, got string) string {
	if want == got {
		return ""
	}
	return fmt.Sprintf("%s: want %s, got %s", what, want, got)
}
