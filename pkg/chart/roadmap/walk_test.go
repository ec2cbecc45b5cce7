package roadmap

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
)

// Where no source is named: common practice, no source.
func TestOrderOfPlay(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"no signs", "a b c", "a b c"},
		{"a repeat", "a |: b c :| d", "a b c b c d"},
		{"several repeats", "|: a :| |: b :|", "a a b b"},
		{":| without |: goes back to the start", "a b :| c", "a b a b c"},
		{":| goes back to the last :|", "a b :| c :| d :|", "a b a b c c d d"},
		{":| without |: goes back across a section", "[A] a [B] b :| c", "a b a b c"},
		// MusicXML 4.0, repeat element: times is the number of times the section is played.
		{"three times", "|: a b :|x3 c", "a b a b a b c"},
		{"once", "|: a b :|x1 c", "a b c"},

		{"endings", "|: a 1. b :| 2. c", "a b a c"},
		{"endings, both closed", "|: a 1. b :| 2. c :| d", "a b a c d"},
		{"endings without |:", "a 1. b :| 2. c d", "a b a c d"},
		// MusicXML 4.0, ending element: the number says which times the ending is played.
		{"endings 1, 2 and 3", "|: a 1,2. b :| 3. c", "a b a b a c"},
		{"three endings", "|: a 1. b :| 2. c :| 3. d", "a b a c a d"},
		{"endings 1, 3 and 2, 4", "|: a 1,3. b :| 2,4. c :| d", "a b a c a b a c d"},
		{"endings of two bars", "|: a 1. b c :| 2. d e ] f", "a b c a d e f"},
		{"an ending 1 alone", "|: a 1. b :| c", "a b a c"},
		{"a :| behind an ending 1 alone starts behind it", "|: a 1. b :| c d :|", "a b a c d c d"},
		{"a :| behind the last ending starts behind it", "|: a 1. b :| 2. c ] d e :|", "a b a c d e d e"},
		{"endings 1, 3 and 2", "|: a 1,3. b :| 2. c :| d", "a b a c a b d"},
		{"an ending 1 that ends before the :|", "|: a 1. b ] c :| d", "a b c a c d"},
		{"a repeat that starts at the last ending of another", "|: a 1. b :| 2. c :| |: 3. d e :| f", "a b a c a d e d e f"},
		{"and a jump", "|: a 1. b :| 2. c :| |: 3. d e :| DC", "a b a c a d e d e a d e"},
		{"first endings one after the other", "1. a :| 1. b c :| d", "a b c d"},
		{"an ending at the start", "1. a :| 2. b c", "a b c"},

		// MusicXML 4.0, sound element: dacapo goes back to the beginning of the movement,
		// fine follows the end of a movement with a da capo or dal segno.
		{"D.C.", "a b DC", "a b a b"},
		{"D.C. and on", "a b DC c", "a b a b c"},
		{"D.C. al fine", "a Fine b c DC", "a b c a"},
		{"D.C. al coda", "a To b c DC O d e", "a b c a d e"},
		{"D.S.", "a $ b c DS", "a b c b c"},
		{"D.S. al fine", "a $ b Fine c DS", "a b c b"},
		{"D.S. al coda", "a $ b c To d DS O e", "a b c d b c e"},
		{"a D.S. in its segno's bar", "a $ b DS c", "a b b c"},
		{"fine in the bar of the D.C.", "a b Fine DC", "a b a b"},

		{"repeats are not taken after a D.C.", "|: a b :| c DC", "a b a b c a b c"},
		// MusicXML 4.0, repeat element: after-jump says whether the repeats are played after a jump.
		{"but where they say so", "|: a b :|again c DC", "a b a b c a b a b c"},
		{"and then from their |: on", "|: a $ b c :|again d DS", "a b c a b c d b c a b c d"},
		{"and then from the last :| on", "|: a :| b $ c :|again d DS", "a a b c b c d c b c d"},
		{"and then to their end before fine", "|: a b :|again Fine c DC", "a b a b c a b a b"},
		{"and then to their end before the coda", "|: a b :|again To c DC O d", "a b a b c a b a b d"},
		{"a repeat of the coda is taken", "a To b DC O |: c d :|", "a b a c d c d"},
		{"a coda without |: repeats from its start", "a To b DC O c d :|", "a b a c d c d"},
		{"endings of the coda are played", "a To b DC O |: c 1. d :| 2. e", "a b a c d c e"},
		{"a repeat behind a jump is taken", "a b DC |: c :|", "a b a b c c"},
		{"a jump waits for the repeat at its bar", "a |: b :| DC", "a b b a b"},
		{"the last ending after a jump", "|: a 1. b :| 2. c DC", "a b a c a c"},
		{"the last of three endings after a jump", "|: a 1. b :| 2. c :| 3. d DC", "a b a c a d a d"},
		{"the last endings of two repeats after a jump", "a 1. b :| 2. c ] d 1. e :| 2. f :| 3. g DC", "a b a c d e d f d g a c d g"},
		{"no ending 1 alone after a jump", "|: a 1. b :| c DC", "a b a c a c"},
		{"both endings after a jump where a repeat says so", "|: a 1. b :|again 2. c DC", "a b a c a b a c"},
		{"a D.S. into a repeat with endings", "|: a $ b 1. c :| 2. d DS e", "a b c a b d b d e"},
		{"a jump in ending 1", "|: a 1. b DC :| 2. c", "a b a c"},
		{"a jump in ending 2", "|: a Fine 1. b :| 2. c DC", "a b a c a"},
		{"a coda sign in ending 2", "|: a 1. b :| 2. c To d DC O e", "a b a c d a c e"},

		{"two segnos with names", "$1 a $2 b DS2 c DS1 d", "a b b c a b c d"},
		{"two segnos of one name: the last before", "$ a $ b DS c", "a b b c"},
		{"two codas with names", "a To1 b To2 c DC O2 d DC O1 e", "a b c a e"},
		{"two codas of one name: the next ahead", "a To b O c To d DC O e", "a b c d a c e"},
		{"the only segno has any name", "a $x b DSy", "a b b"},
		{"the only coda has any name", "a Tox b DC Oy c", "a b a c"},
		{"D.S. al coda, then D.C. al fine", "a Fine $ b To c DS O d DC", "a b c b d a"},

		{"an upbeat is not repeated", "u:1 a b :| c", "u a b a b c"},
		{"but where the bar that goes back lacks it", "u:1 a b:3 :| c", "u a b u a b c"},
		{"nor after a D.C.", "u:1 a b DC", "u a b a b"},
		{"but where the bar of the D.C. lacks it", "u:1 a b:3 DC", "u a b u a b"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tune, err := Layout(chart.Chart{}, barsOf(t, tt.in))
			require.NoError(t, err)
			assert.Equal(t, tt.want, played(tune.Chart))
		})
	}
}

// Common practice, no source.
func TestSignsThatLeadNowhere(t *testing.T) {
	const (
		jumpUnmet = "the D.C. or D.S. here is never come to when it holds; it is left out"
		leadUnmet = "the sign to the coda or fine here is never come to after a jump; it is left out"
		open      = "the repeat that starts here is not closed; it is left out"
	)
	tests := []struct {
		name, in, want string
		warnings       []string
	}{
		{"|: never closed", "a |: b c", "a b c", []string{"2: " + open}},
		{"|: in a repeat", "|: a |: b :|", "a b b", []string{"1: " + open}},
		{"no segno", "a b DS c", "a b c", []string{"2: no segno lies behind to go back to; the sign is left out"}},
		{"the segno lies ahead", "a DS $ b", "a b", []string{"1: no segno lies behind to go back to; the sign is left out"}},
		{"two segnos, none of that name", "$1 a $2 b DS3", "a b", []string{"2: no segno lies behind to go back to; the sign is left out"}},
		{"no coda", "a To b DC", "a b a b", []string{"1: no coda lies ahead to go on to; the sign is left out"}},
		{"the coda lies behind", "O a b To c DC", "a b c a b c", []string{"2: no coda lies ahead to go on to; the sign is left out"}},
		{"a coda that no sign leads to", "a b DC O c", "a b a b c", []string{"3: no sign says where to go on to the coda here; it is played in its place"}},
		{"fine without a jump", "a Fine b", "a b", []string{"1: " + leadUnmet}},
		{"fine without a jump at the end", "a b Fine", "a b", nil},
		{"to coda without a jump", "a To b O c", "a b c", []string{"1: " + leadUnmet}},
		{"to coda before the segno", "a To $ b DS O c", "a b b c", []string{"1: " + leadUnmet}},
		{"a jump in ending 1 at its :|", "$ |: a 1. b :| DS 2. c", "a b a c", []string{"2: " + jumpUnmet}},
		{"bars between jump and coda", "a To b DC c d O e", "a b a e", []string{"3: the signs lead past the bars from here to bar 4; they are never played"}},
		{"an ending without another", "a 2. b c", "a b c", []string{"2: ending 2 follows no ending 1; it is left out"}},
		{"ending 1 not closed", "|: a 1. b 2. c", "a b a c", []string{"2: ending 1 is not closed; it is read as if :| stood before ending 2"}},
		{"an ending that no repeat has", "|: a 1. b :| 2,100. c", "a b a c", []string{"3: endings are numbered from 1 to 99; 100 is left out"}},
		{"an ending 0", "a 0. b", "a b", []string{"2: endings are numbered from 1 to 99; 0 is left out"}},
		{"a jump for the :| of ending 1", "a 1. b DC 2. c", "a b a c", nil},
		{"too many times", "|: a :|x100", "a a", []string{"1: a passage is played 1 to 99 times, not 100; the number is left out"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tune, err := Layout(chart.Chart{}, barsOf(t, tt.in))
			require.NoError(t, err)
			assert.Equal(t, tt.want, played(tune.Chart))
			assert.Equal(t, tt.warnings, warnings(tune.Chart))
		})
	}
}
