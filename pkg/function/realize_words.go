package function

import (
	"errors"
	"fmt"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/internal/complaint"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// WordError is a fault of a word among those that [Realize] reads.
type WordError struct {
	Index int // of the word, from 0
	Err   *pitch.SyntaxError
}

// Error names the word by its number, from 1, and what is wrong with it.
func (e *WordError) Error() string { return fmt.Sprintf("word %d: %v", e.Index+1, e.Err) }

// Unwrap is what is wrong with the word.
func (e *WordError) Unwrap() error { return e.Err }

// WordErrors are all faults of a list of words, in order.
type WordErrors []*WordError

// Error is the first faults, a line each.
func (l WordErrors) Error() string { return complaint.Lines(l) }

// Unwrap is the faults.
func (l WordErrors) Unwrap() []error { return complaint.Each(l) }

// errNoKey: there is nothing to count degrees from.
var errNoKey = errors.New("expected a key to count the numerals in")

// Realize is the chords that numerals spell in a key, as players write them
// there ([key.Key.Spell]). A word is a numeral as [ParseNumeral] reads it, in any
// style, or a key as [key.Parse] reads it with a colon behind, "G major:", in
// which those that follow are counted. Every numeral gives one chord, N.C.
// silence; a numeral has no bass. The error is of type [WordErrors], or says that k
// is no key.
func Realize(k key.Key, words []string) ([]chord.Chord, error) {
	if !k.IsValid() {
		return nil, errNoKey
	}
	chords := make([]chord.Chord, 0, len(words))
	var faults WordErrors
	for i, word := range words {
		var err error
		if name, ok := strings.CutSuffix(strings.TrimRight(word, " \t"), ":"); ok {
			k, err = within(k, name, word)
		} else {
			var n Numeral
			n, err = ParseNumeral(word)
			err = orKey(err, word)
			chords = append(chords, k.Spell(n.In(k)))
		}
		var fault *pitch.SyntaxError
		if errors.As(err, &fault) {
			faults = append(faults, &WordError{i, fault})
		}
	}
	if faults != nil {
		return nil, faults
	}
	return chords, nil
}

// orKey is the fault of a word, with a hint where it is a key without its colon:
// "G major". Gm and G may be chord symbols as well.
func orKey(err error, word string) error {
	var e *pitch.SyntaxError
	name := strings.TrimSpace(word)
	if !errors.As(err, &e) {
		return err
	}
	if _, isNoKey := key.Parse(name); isNoKey != nil {
		return err
	}
	if _, isNoChord := chord.Parse(name); isNoChord == nil {
		return err
	}
	return &pitch.SyntaxError{Input: e.Input, Offset: e.Offset, Msg: e.Msg, Hint: fmt.Sprintf("a key is followed by a colon, %q", name+":")}
}

// within is the key that a word names; k where it names none.
func within(k key.Key, name, word string) (key.Key, error) {
	next, err := key.Parse(name)
	if err != nil {
		return k, pitch.Within(err, word, 0)
	}
	return next, nil
}

// Words are the reading's numerals in a style, each region's behind its key with
// a colon: what [Realize] makes the chords of again. Silence before all regions
// stands before the first key.
func (a *Analysis) Words(s NumeralStyle) []string {
	words := make([]string, 0, len(a.Chords)+len(a.Regions))
	region := -1
	for i := range a.Chords {
		r := &a.Chords[i]
		if r.Region >= 0 && r.Region != region {
			words = append(words, r.Key.String()+":")
			region = r.Region
		}
		words = append(words, r.Numeral.Text(s, r.Key.Mode(), pitch.ASCII))
	}
	return words
}
