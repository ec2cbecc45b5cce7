package key

import (
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"fifthwise/pkg/chord"
	"fifthwise/pkg/pitch"
)

// ScaleKind is a kind of scale, such as phrygian dominant. The zero value is
// invalid.
type ScaleKind uint8

// The scales in daily use: the modes of the major, the melodic minor and the
// harmonic minor scale, each family in the order of its degrees, then those
// without seven notes.
const (
	MajorScale ScaleKind = iota + 1
	DorianScale
	PhrygianScale
	LydianScale
	MixolydianScale
	NaturalMinorScale
	LocrianScale

	MelodicMinorScale
	DorianFlat2Scale
	LydianAugmentedScale
	LydianDominantScale
	MixolydianFlat6Scale
	LocrianSharp2Scale
	AlteredScale

	HarmonicMinorScale
	LocrianSharp6Scale
	IonianSharp5Scale
	DorianSharp4Scale
	PhrygianDominantScale
	LydianSharp2Scale
	UltralocrianScale

	DiminishedWholeHalfScale
	DiminishedHalfWholeScale
	WholeToneScale
	MajorPentatonicScale
	MinorPentatonicScale
	BluesScale
	BebopDominantScale
)

// scales in the order of the constants. A row is the canonical name, the other
// names that are read, and the degrees counted from the major scale.
//
// Degrees after Robert Hutchinson, Music Theory for the 21st-Century Classroom,
// for the major and minor scales (ch. 2 and 3), the modes and the scales that
// go with chords (ch. 31, Table 31.10.3, §31.9.2). The remaining modes of the
// melodic and the harmonic minor follow from their parents by rotation. Names
// are those of the trade (common practice, no source).
var scales = [...]struct {
	names   []string
	degrees string
}{
	MajorScale:        {[]string{"major", "ionian"}, "1 2 3 4 5 6 7"},
	DorianScale:       {[]string{"dorian"}, "1 2 b3 4 5 6 b7"},
	PhrygianScale:     {[]string{"phrygian"}, "1 b2 b3 4 5 b6 b7"},
	LydianScale:       {[]string{"lydian"}, "1 2 3 #4 5 6 7"},
	MixolydianScale:   {[]string{"mixolydian"}, "1 2 3 4 5 6 b7"},
	NaturalMinorScale: {[]string{"natural minor", "minor", "aeolian"}, "1 2 b3 4 5 b6 b7"},
	LocrianScale:      {[]string{"locrian"}, "1 b2 b3 4 b5 b6 b7"},

	MelodicMinorScale:    {[]string{"melodic minor", "jazz minor", "melodic minor ascending", "ascending melodic minor"}, "1 2 b3 4 5 6 7"},
	DorianFlat2Scale:     {[]string{"dorian b2", "dorian b9", "phrygian #6", "phrygian natural 6"}, "1 b2 b3 4 5 6 b7"},
	LydianAugmentedScale: {[]string{"lydian augmented", "lydian #5"}, "1 2 3 #4 #5 6 7"},
	LydianDominantScale:  {[]string{"lydian dominant", "lydian b7", "mixolydian #4", "mixolydian #11", "acoustic", "overtone"}, "1 2 3 #4 5 6 b7"},
	MixolydianFlat6Scale: {[]string{"mixolydian b6", "mixolydian b13", "aeolian dominant", "melodic major"}, "1 2 3 4 5 b6 b7"},
	LocrianSharp2Scale:   {[]string{"locrian #2", "locrian natural 2", "locrian #9", "locrian natural 9", "half diminished", "aeolian b5"}, "1 2 b3 4 b5 b6 b7"},
	AlteredScale:         {[]string{"altered", "super locrian", "superlocrian", "diminished whole tone", "altered dominant"}, "1 b2 b3 b4 b5 b6 b7"},

	HarmonicMinorScale:    {[]string{"harmonic minor"}, "1 2 b3 4 5 b6 7"},
	LocrianSharp6Scale:    {[]string{"locrian #6", "locrian natural 6"}, "1 b2 b3 4 b5 6 b7"},
	IonianSharp5Scale:     {[]string{"ionian #5", "ionian augmented", "major #5", "major augmented"}, "1 2 3 4 #5 6 7"},
	DorianSharp4Scale:     {[]string{"dorian #4", "dorian #11", "ukrainian dorian", "romanian minor"}, "1 2 b3 #4 5 6 b7"},
	PhrygianDominantScale: {[]string{"phrygian dominant", "phrygian major", "phrygian #3", "mixolydian b9 b13", "mixolydian b2 b6"}, "1 b2 3 4 5 b6 b7"},
	LydianSharp2Scale:     {[]string{"lydian #2", "lydian #9"}, "1 #2 3 #4 5 6 7"},
	UltralocrianScale:     {[]string{"ultralocrian", "altered bb7", "super locrian bb7", "superlocrian bb7", "altered diminished"}, "1 b2 b3 b4 b5 b6 bb7"},

	DiminishedWholeHalfScale: {[]string{"diminished whole-half", "whole-half diminished", "whole-half"}, "1 2 b3 4 #4 #5 6 7"},
	DiminishedHalfWholeScale: {[]string{"diminished half-whole", "half-whole diminished", "half-whole", "dominant diminished"}, "1 b2 b3 3 #4 5 6 b7"},
	WholeToneScale:           {[]string{"whole tone"}, "1 2 3 #4 #5 b7"},
	MajorPentatonicScale:     {[]string{"major pentatonic"}, "1 2 3 5 6"},
	MinorPentatonicScale:     {[]string{"minor pentatonic"}, "1 b3 4 5 b7"},
	BluesScale:               {[]string{"blues", "minor blues"}, "1 b3 4 b5 5 b7"},
	BebopDominantScale:       {[]string{"bebop dominant", "dominant bebop", "mixolydian bebop"}, "1 2 3 4 5 6 b7 7"},
}

// degrees and classes of every kind, read from the table; classes has bit n set
// if the scale on C holds pitch class n.
var (
	scaleDegrees [len(scales)][]chord.Degree
	scaleClasses [len(scales)]uint16
	scaleByName  = map[string]ScaleKind{}
)

func init() {
	for kind := range ScaleKinds() {
		for _, name := range scales[kind].names {
			scaleByName[fold(name)] = kind
		}
		for text := range strings.FieldsSeq(scales[kind].degrees) {
			d, err := chord.ParseDegree(text)
			if err != nil {
				panic(err)
			}
			scaleDegrees[kind] = append(scaleDegrees[kind], d)
			scaleClasses[kind] |= 1 << d.Interval().Semitones()
		}
	}
}

// ScaleKinds yields every kind of scale in the order of the constants.
func ScaleKinds() iter.Seq[ScaleKind] {
	return func(yield func(ScaleKind) bool) {
		for k := MajorScale; k.IsValid() && yield(k); k++ {
		}
	}
}

// IsValid reports whether k is one of the kinds above.
func (k ScaleKind) IsValid() bool { return k >= MajorScale && int(k) < len(scales) }

// On is the scale of this kind from a tonic; the zero Scale if k is invalid.
func (k ScaleKind) On(tonic pitch.Note) Scale {
	if !k.IsValid() {
		return Scale{}
	}
	return Scale{tonic, k}
}

// Degrees are the scale's degrees in rising order, counted from the major
// scale: 1 b2 3 4 5 b6 b7 for phrygian dominant. The slice is the caller's.
func (k ScaleKind) Degrees() []chord.Degree {
	if !k.IsValid() {
		return nil
	}
	return slices.Clone(scaleDegrees[k])
}

// Aliases are the other names that [ParseScaleKind] reads.
func (k ScaleKind) Aliases() []string {
	if !k.IsValid() {
		return nil
	}
	return slices.Clone(scales[k].names[1:])
}

// String is the kind's name, "phrygian dominant"; "invalid scale" for others.
func (k ScaleKind) String() string {
	if !k.IsValid() {
		return "invalid scale"
	}
	return scales[k].names[0]
}

// appendTo prints the name behind dst, its accidentals by choice.
func (k ScaleKind) appendTo(dst []byte, a pitch.Accidentals) []byte {
	name := k.String()
	if a == pitch.ASCII {
		return append(dst, name...)
	}
	number := strings.LastIndexByte(name, ' ') + 1 // "dorian b2"
	count, digits, err := pitch.ScanAccidentals(name[number:])
	if _, notDigits := strconv.Atoi(digits); err != nil || notDigits != nil {
		return append(dst, name...)
	}
	return append(a.Append(append(dst, name[:number]...), count), digits...)
}

// MarshalText prints as [ScaleKind.String] does; nothing for the zero value.
func (k ScaleKind) MarshalText() ([]byte, error) {
	switch {
	case k == 0:
		return []byte{}, nil
	case !k.IsValid():
		return nil, fmt.Errorf("scale kind %d does not exist", k)
	}
	return []byte(k.String()), nil
}

// UnmarshalText reads what [ParseScaleKind] reads; nothing is the zero value.
func (k *ScaleKind) UnmarshalText(text []byte) (err error) {
	if len(text) == 0 {
		*k = 0
		return nil
	}
	*k, err = ParseScaleKind(string(text))
	return err
}

// ParseScaleKind reads the name of a scale or one of its aliases, in any case,
// with spaces or hyphens between the words, accidentals in ASCII or Unicode:
// "phrygian dominant", "half-whole diminished", "Locrian ♮2".
func ParseScaleKind(s string) (ScaleKind, error) {
	if k, ok := scaleByName[fold(s)]; ok {
		return k, nil
	}
	return 0, &pitch.SyntaxError{
		Input:  s,
		Offset: indent(s),
		Msg:    "expected the name of a scale",
		Hint:   near(fold(s), scaleNames()),
	}
}

func scaleNames() (rows [][]string) {
	for _, scale := range scales[MajorScale:] {
		rows = append(rows, scale.names)
	}
	return rows
}
