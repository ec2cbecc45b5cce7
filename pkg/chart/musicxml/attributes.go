package musicxml

import (
	"fmt"
	"strconv"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// signature is a key signature.
type signature struct {
	stated bool
	fifths int
	mode   string // as written; may be empty
}

// modes are the modes that a signature names, with the place of the tonic on
// the line of fifths, counted from the major tonic of the signature. A tonic of
// minor is three fifths up (MusicXML 4.0, mode).
var modes = map[string]struct {
	mode   key.Mode
	fifths int
}{
	"major": {key.Major, 0}, "ionian": {key.Major, 0},
	"minor": {key.Minor, 3}, "aeolian": {key.Minor, 3},
	"dorian": {key.Dorian, 2}, "phrygian": {key.Phrygian, 4},
	"lydian": {key.Lydian, -1}, "mixolydian": {key.Mixolydian, 1},
}

// key is the key that the signature stands for; where it names no mode, major.
func (s signature) key() key.Key {
	if !s.stated {
		return key.Key{}
	}
	m, ok := modes[s.mode]
	if !ok {
		m = modes["major"]
	}
	return key.New(pitch.At(s.fifths+m.fifths), m.mode)
}

// maxFifths bounds a signature; the widest key in use has fifteen.
const maxFifths = 15

func (s *score) attributes(e *element) {
	p := s.part
	for i := range e.children {
		switch c := &e.children[i]; c.name() {
		case "divisions":
			s.setDivisions(c.text())
		case "key":
			s.setKey(c)
		case "time":
			s.setMeter(c)
		case "transpose":
			p.transpose = p.transpose || !isOctaves(c.textOf("chromatic"))
		case "measure-style":
			if r := c.child("measure-repeat"); r != nil {
				s.measureRepeat(r)
			}
		}
	}
}

// isOctaves reports whether a number of semitones keeps the names of notes.
func isOctaves(text string) bool {
	n, ok := semitones(text)
	return ok && n%12 == 0
}

// setDivisions takes the parts of a quarter note that lengths are counted in.
// Decimals, which the format allows and nobody writes, are rounded.
func (s *score) setDivisions(text string) {
	n, err := strconv.ParseFloat(text, 64)
	if err != nil || n < 1 || n > 1<<20 {
		s.faults = append(s.faults[:min(len(s.faults), MaxErrors-1)], s.fault("", fmt.Sprintf("%q divisions of a quarter note", text), fmt.Sprintf("a whole number from 1 to %d", 1<<20)))
		return
	}
	s.part.divisions = int(n)
}

func (s *score) setKey(e *element) {
	fifths, err := strconv.Atoi(e.textOf("fifths"))
	if err != nil || fifths < -maxFifths || fifths > maxFifths {
		return // a signature of single notes, which names no key
	}
	was := s.part.signature
	s.part.signature = signature{stated: true, fifths: fifths, mode: strings.ToLower(e.textOf("mode"))}
	switch {
	case !s.part.first.stated:
		s.part.first = s.part.signature
	case s.part.signature != was:
		s.part.changes = append(s.part.changes, s.measure)
	}
}

// setMeter takes the meter from this measure on, or from the next where it
// stands at the end of one.
func (s *score) setMeter(e *element) {
	m, ok := meterIn(e)
	if !ok {
		return
	}
	at := s.measure
	if !s.part.at.IsZero() {
		at++
	}
	if b := s.barAt(at); b.Meter == (chart.Meter{}) {
		b.Meter = m
	}
}

// meterIn adds up the fractions of a time signature, "3+2" over 8 or 2/4 and
// 3/8, over their largest unit that will do. It is false for music without a
// meter.
func meterIn(e *element) (chart.Meter, bool) {
	sum, unit, beats := 0, 0, "" // in 1/unit
	for i := range e.children {
		c := &e.children[i]
		switch c.name() {
		case "beats":
			beats = c.text()
		case "beat-type":
			over, err := strconv.Atoi(c.text())
			if err != nil || over < 1 || over > 64 {
				return chart.Meter{}, false
			}
			n := 0
			for term := range strings.SplitSeq(beats, "+") {
				k, err := strconv.Atoi(strings.TrimSpace(term))
				if err != nil || k < 1 || k > 64 {
					return chart.Meter{}, false
				}
				n += k
			}
			wide := max(unit, over)
			if unit > 0 {
				sum *= wide / unit
			}
			sum, unit = sum+n*(wide/over), wide
		}
	}
	if sum < 1 || sum > 64 || unit > 64 {
		return chart.Meter{}, false
	}
	m := chart.Meter{Num: uint8(sum), Den: uint8(unit)}
	return m, m.IsValid()
}

// measureRepeat takes up signs that repeat the measures before.
func (s *score) measureRepeat(e *element) {
	kind, _ := e.attr("type")
	if kind == "stop" {
		s.part.repeating = 0
		delete(s.part.repeats, s.measure)
		return
	}
	n, err := strconv.Atoi(e.text())
	if err != nil || n < 1 || n > 16 {
		n = 1
	}
	s.part.repeating, s.part.repeats[s.measure] = n, n
}
