package musicxml

import (
	"fmt"
	"strconv"
	"strings"

	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// readNumerals reads a chord by its degree in the key. Of several, each is a
// degree of the next: a 5 before a 2 is V of II (MusicXML 4.0, harmony-chord).
func (h *harmony) readNumerals(all []group, k signature) error {
	in := k.key()
	minor := minorForms[k.mode]
	for i := len(all) - 1; i >= 0; i-- {
		g := &all[i]
		if g.kind == nil {
			return fault("the harmony has no kind", "a <kind> stands behind its numeral")
		}
		if n := g.root.child("numeral-key"); n != nil {
			own, form, err := numeralKey(n)
			if err != nil {
				return err
			}
			in, minor = own, form
		}
		if !in.IsValid() {
			return fault("the numeral stands in no key", "write a key signature, or <numeral-key>")
		}
		number, alter, err := g.degree()
		if err != nil {
			return err
		}
		root, err := pitch.Parse(in.Degree(number, alter+minor[number]).String())
		if err != nil {
			return err
		}
		c, err := g.on(root)
		if err != nil {
			return err
		}
		h.chord = c
		mode, form := key.Major, ""
		if third, ok := c.Quality().Third(); ok && third < 0 {
			mode, form = key.Minor, "minor"
		}
		in, minor = key.New(root, mode), minorForms[form]
	}
	h.symbol = h.chord.String()
	return nil
}

// minorForms are the alterations of degrees that the modes of a numeral make,
// counted from the major scale (MusicXML 4.0, numeral-mode).
var minorForms = map[string]map[int]int{
	"minor": {3: -1, 6: -1, 7: -1}, "natural minor": {3: -1, 6: -1, 7: -1}, "aeolian": {3: -1, 6: -1, 7: -1},
	"harmonic minor": {3: -1, 6: -1}, "melodic minor": {3: -1},
	"dorian": {3: -1, 7: -1}, "phrygian": {2: -1, 3: -1, 6: -1, 7: -1},
	"lydian": {4: 1}, "mixolydian": {7: -1},
}

func numeralKey(e *element) (key.Key, map[int]int, error) {
	fifths, err := strconv.Atoi(e.textOf("numeral-fifths"))
	if err != nil || fifths < -maxFifths || fifths > maxFifths {
		return key.Key{}, nil, fault(fmt.Sprintf("%q is no key of a numeral", e.textOf("numeral-fifths")), "a number of fifths, as of a key signature")
	}
	mode := e.textOf("numeral-mode")
	base := mode
	if strings.HasSuffix(mode, "minor") {
		base = "minor"
	}
	return signature{stated: true, fifths: fifths, mode: base}.key(), minorForms[mode], nil
}

// degree is the number and alteration of a numeral or function.
func (g *group) degree() (number, alter int, err error) {
	if g.root.name() == "function" {
		return romanDegree(g.root.text())
	}
	number, err = strconv.Atoi(g.root.textOf("numeral-root"))
	if err != nil || number < 1 || number > 7 {
		return 0, 0, fault(fmt.Sprintf("%q is no numeral", g.root.textOf("numeral-root")), "a number from 1 to 7")
	}
	alter, ok := semitones(g.root.textOf("numeral-alter"))
	if !ok || alter < -2 || alter > 2 {
		return 0, 0, fault(fmt.Sprintf("%q is no alteration of a numeral", g.root.textOf("numeral-alter")), "-2 to 2 semitones")
	}
	return number, alter, nil
}

var romans = map[string]int{"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7}

// romanDegree reads the text of a function: a Roman numeral, perhaps with
// accidentals before it.
func romanDegree(text string) (number, alter int, err error) {
	alter, rest, err := pitch.ScanAccidentals(text)
	if err == nil {
		number = romans[strings.ToUpper(rest)]
	}
	if number == 0 {
		return 0, 0, fault(fmt.Sprintf("%q is no function", text), "a Roman numeral such as II, bVI")
	}
	return number, alter, nil
}
