package phrase

import (
	"slices"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/pitch"
)

// Form is a tune as the phrases it is made of.
type Form struct {
	Phrases []Phrase // in the order in which they are first played
	// Letters are the phrases in the order of play, a letter each, variants
	// like what they vary: AABA. A phrase has the letter that its section is
	// called by, unless another phrase has it. After Z come the letters of the
	// Greek alphabet.
	Letters string
}

// Phrase is a passage with all its occurrences.
type Phrase struct {
	Name        string  // a letter; with primes for variants: half the bars at least of the phrase with the bare letter are theirs, and they may go on behind it
	Bars        int     // its length
	Of          int     // the phrase that it varies, as an index; -1 for none
	Varied      []int   // its bars that are not those of that phrase, from 1
	Learn       int     // chords to remember of its first occurrence, groups that come again within it once; of a variant those of the varied bars and one
	Groups      []Group // groups of bars that come again at once within its first occurrence
	Occurrences []Occurrence
}

// Occurrence is a place where a phrase is played.
type Occurrence struct {
	Start       chart.Beats  // its first beat, from that of bar 1
	First       int          // its first bar, in bars as played from 0; a pickup is none
	FirstChord  int          // index of the event that sounds as it begins
	LastChord   int          // … as it ends
	Motion      pitch.Motion // from the first occurrence; 0 for the same pitch
	Exact       bool         // the same families, lengths and root motions as the first occurrence
	Odd         int          // chords to remember beside the phrase: those of the bars that differ
	Differences []int        // the bars of the phrase that differ, from 1; none where only ornaments do
}

// FormOf tells of which phrases a tune is made, from the events of
// [chart.Chart.Played]. Two passages are one phrase if their chords have the
// same families, lengths and root motions, in whatever key, or if one chord in
// eight at most differs, or only the last two bars of six or more, or of four in
// marked sections. Marked sections are phrases, and so is each time through a
// repeat. A tune without marks is divided so that least is to be remembered, into
// phrases of 8, 4, 12 or 16 bars where it allows; so are marked sections of more
// than 16 bars, and those of 16 of which the second half varies the first, where
// that leaves less to remember. A two that only prepares a dominant in its own bar
// is an ornament.
func FormOf(events []chart.Event) Form {
	bars := barsOf(events)
	if len(bars) == 0 {
		return Form{}
	}
	p := newPiece(bars)
	sections := p.sections()
	if !p.isMarked() {
		return p.form(p.divided(sections, func(span) bool { return true }))
	}
	marked, free := p.asMarked(sections), p.freely(sections)
	f := p.form(marked)
	if !slices.Equal(marked, free) {
		if g := p.form(free); g.Remember() < f.Remember() {
			return g
		}
	}
	return f
}

// form names the phrases of a cover.
func (p *piece) form(cover []span) (f Form) {
	var letters strings.Builder
	n := naming{piece: p, known: map[[2]int32]int{}, marks: p.marks(), given: map[string]bool{}}
	for _, s := range cover {
		at, d := n.find(s)
		if at == len(f.Phrases) {
			f.Phrases = append(f.Phrases, n.phrase(at, s))
		}
		first, last := &p.bars[s.start], &p.bars[s.start+s.length-1]
		o := Occurrence{
			Start: first.front, First: s.start, FirstChord: first.first, LastChord: last.last,
			Motion: d.motion, Exact: d.exact, Odd: d.chords,
		}
		for _, k := range d.bars {
			o.Differences = append(o.Differences, k+1)
		}
		f.Phrases[at].Occurrences = append(f.Phrases[at].Occurrences, o)
		letters.WriteString(strings.TrimRight(n.names[at], "'"))
	}
	f.Letters = letters.String()
	return f
}

// Remember counts the chords that are left to remember of the tune: those of each
// phrase, and for each return one, one more in another key, and the chords of
// the bars that differ. One is what a name costs to recall; common practice,
// no source.
func (f *Form) Remember() (chords int) {
	for i := range f.Phrases {
		p := &f.Phrases[i]
		chords += p.Learn
		for _, o := range p.Occurrences[1:] {
			chords += int(costReturn) + o.Odd
			if o.Motion != 0 {
				chords += int(costMoved)
			}
		}
	}
	return chords
}

// naming gives phrases their names in the order of play.
type naming struct {
	*piece
	first   []span // where each phrase is first played
	names   []string
	letters int
	marks   map[string]bool // the letters that sections are called by
	given   map[string]bool // the letters that phrases have been given
	primes  map[string]int
	known   map[[2]int32]int // phrases by length and class of passages that were found
	vary    int              // the phrase that the newest one varies, -1 for none
	varied  difference       // … and how
}

// mostCompared bounds the phrases, the first in the tune, to which a new one may
// be near or of which it may be a variant.
const mostCompared = 100

// find is the place of a passage's phrase in the list, a new one if it is none
// of those before, and how it differs from that phrase's first occurrence.
func (n *naming) find(s span) (at int, d difference) {
	exact := [2]int32{int32(s.length), n.classes(s.length)[s.start]}
	if at, ok := n.known[exact]; ok {
		return at, n.differ(n.first[at].start, s.start, s.length)
	}
	near, vary := -1, -1
	var nearest, varied difference
	chords := n.chords(s.start, s.length)
	for i, first := range n.first[:min(len(n.first), mostCompared)] {
		if s.length < first.length || s.length >= 2*first.length {
			continue
		}
		d := n.differ(first.start, s.start, first.length)
		varies := d.varies(first.length)
		switch {
		case s.length > first.length:
			d = n.extended(d, span{s.start + first.length, s.length - first.length}, first.length)
		case d.near(max(chords, n.chords(first.start, first.length)), s.length, n.bars[s.start].named && n.bars[first.start].named):
			if near < 0 || d.chords < nearest.chords {
				near, nearest = i, d
			}
			continue
		}
		if varies && (vary < 0 || d.chords < varied.chords) {
			vary, varied = i, d
		}
	}
	if near >= 0 {
		n.known[exact] = near
		return near, nearest
	}
	n.known[exact] = len(n.first)
	n.vary, n.varied = vary, varied
	n.first = append(n.first, s)
	n.names = append(n.names, n.newName(s, vary))
	return len(n.first) - 1, difference{exact: true}
}

// extended adds the bars by which a passage is longer, which the other has not.
func (n *naming) extended(d difference, more span, from int) difference {
	for k := range more.length {
		d.bars = append(d.bars, from+k)
	}
	d.chords += n.chords(more.start, more.length)
	d.exact = false
	return d
}

// phrase makes the newest phrase.
func (n *naming) phrase(at int, s span) Phrase {
	made := Phrase{Name: n.names[at], Bars: s.length, Of: n.vary}
	made.Learn, made.Groups = n.learn(s)
	if n.vary < 0 {
		return made
	}
	for _, k := range n.varied.bars {
		made.Varied = append(made.Varied, k+1)
	}
	made.Learn = min(made.Learn, int(costReturn)+n.varied.chords)
	return made
}

// marks are the letters that sections are called by.
func (p *piece) marks() map[string]bool {
	marks := map[string]bool{}
	for i := range p.bars {
		if l := p.bars[i].letter; l != "" {
			marks[l] = true
		}
	}
	return marks
}

// newName is the letter of the phrase that is varied, with one prime more than it
// has been given; else the letter that a section is called by, if no phrase has it;
// else the next that no section is called by.
func (n *naming) newName(s span, vary int) string {
	if vary >= 0 {
		letter := strings.TrimRight(n.names[vary], "'")
		if n.primes == nil {
			n.primes = map[string]int{}
		}
		n.primes[letter]++
		return letter + strings.Repeat("'", n.primes[letter])
	}
	if b := &n.bars[s.start]; b.opens && b.letter != "" && !n.given[b.letter] {
		n.given[b.letter] = true
		return b.letter
	}
	for {
		n.letters++
		if l := letterAt(n.letters - 1); !n.marks[l] || n.letters > len(letters) {
			return l
		}
	}
}

// letters are A to Z, then Greek capitals that do not look like these, then the
// small letters of both.
var letters = []rune("ABCDEFGHIJKLMNOPQRSTUVWXYZ" + "ΓΔΘΛΞΠΣΦΨΩ" + "abcdefghijklmnopqrstuvwxyz" + "γδθλξπσφψω")

func letterAt(i int) string { return string(letters[i%len(letters)]) }
