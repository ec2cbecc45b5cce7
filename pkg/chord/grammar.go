package chord

import (
	"slices"
	"strings"
)

// The tables of tables.go, ready for reading.
var (
	readKind      = lexiconOf(kinds, func(k kind) (string, reading) { return k.words, readingOf(k) })
	readMajor     = lexiconOf(majorKinds, func(k kind) (string, reading) { return k.words, readingOf(k) })
	readNumber    = lexiconOf(numbers, func(n number) (string, figure) { return n.words, figureOf(n) })
	readModifier  = lexiconOf(modifiers, func(m modifier) (string, change) { return m.words, change{m.op, degreesOf(m.degrees)} })
	readSign      = lexiconOf(degreeSigns, signOf)
	readSheetSign = lexiconOf(slices.Concat(degreeSigns, sheetSigns), signOf)
	readShorthand = lexiconOf(slices.Concat(shorthands, laterShorthands), func(s shorthand) (string, degreeSet) {
		return s.word, only(root) | degreesOf(s.degrees)
	})

	plainKind = readingOf(kinds[0])
	altered   = Quality{qualityOf(only(root)|degreesOf(altDegrees)).bits | altFlag}

	bySheetNumber = func() (rows [maxDegree + 1]sheetDegree) {
		for _, d := range sheetDegrees {
			rows[d.number] = d
		}
		return rows
	}()
)

// reading is a row of kinds for the reader.
type reading struct {
	triad, seventh degreeSet
	alone          bool // the seventh is understood
	numbers        string
	takes          uint16 // the rows of numbers, as bits
}

func readingOf(k kind) reading {
	r := reading{
		triad:   only(root) | degreesOf(k.triad),
		seventh: degreesOf(k.seventh),
		alone:   k.alone != "",
		numbers: strings.ReplaceAll(k.numbers, " ", ", "),
	}
	for i, n := range numbers {
		if slices.Contains(strings.Fields(k.numbers), strings.Fields(n.words)[0]) {
			r.takes |= 1 << i
		}
	}
	return r
}

// figure is a row of numbers for the reader.
type figure struct {
	row                  int
	seventh              bool // it brings the seventh of the kind
	overMajor, overMinor degreeSet
}

func figureOf(n number) figure {
	natural := func(cell string) degreeSet { return degreesOf(strings.TrimPrefix(cell, "S")) }
	return figure{
		row:       slices.Index(numbers, n),
		seventh:   strings.HasPrefix(n.overMajor, "S"),
		overMajor: natural(n.overMajor),
		overMinor: natural(n.overMinor),
	}
}

// over is what the figure adds to a chord, without the seventh.
func (f figure) over(s degreeSet) degreeSet {
	if s.has(D(3, -1)) {
		return f.overMinor
	}
	return f.overMajor
}

// change is a row of modifiers for the reader.
type change struct {
	op      op
	degrees degreeSet
}

func signOf(s sign) (string, int) { return s.words, s.semitones }
