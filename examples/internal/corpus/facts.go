package corpus

import "strings"

// Facts are what is counted of a row, and what it can be given again by a row
// that was written.
type Facts struct {
	Bad     bool // and nothing else
	Home    string
	Form    string
	Motions []string // from each region to the next
	Runs    []string // numerals as they follow in a region, "IIm7-V7-Imaj7"
	Roles   []Share  // of sounding chords
}

// Share is how many chords play a role.
type Share struct {
	Role   string
	Chords int
}

// Then stands between numerals that follow each other in a key; none has it in
// itself.
const Then = "-"

// MaxRun is how many chords the longest progressions have that are counted.
const MaxRun = 4

// Facts are those of the row.
func (r *Row) Facts() Facts {
	if r.Reading == nil {
		return Facts{Bad: true}
	}
	f := Facts{Home: r.HomeKey, Form: r.Form}
	for i := range r.Regions {
		if i > 0 {
			f.Motions = append(f.Motions, r.Motion(i))
		}
	}
	f.Runs = r.runs()
	for i := range r.Chords {
		if r.Chords[i].Region != nil {
			f.play(r.Chords[i].Role)
		}
	}
	return f
}

// Motion is how the key moves into a region.
func (r *Reading) Motion(region int) string {
	switch m := r.Regions[region].Motion; {
	case region == 0:
		return ""
	case m == "":
		return "same tonic"
	default:
		return m
	}
}

func (f *Facts) play(role string) {
	for i := range f.Roles {
		if f.Roles[i].Role == role {
			f.Roles[i].Chords++
			return
		}
	}
	f.Roles = append(f.Roles, Share{role, 1})
}

// runs are the numerals of each region, silence parting them. A numeral that
// comes again at once stands once.
func (r *Reading) runs() (runs []string) {
	var b strings.Builder
	for i := range r.Chords {
		c := &r.Chords[i]
		begins := i == 0 || r.Chords[i-1].region() != c.region()
		if begins && b.Len() > 0 {
			runs = append(runs, b.String())
			b.Reset()
		}
		switch {
		case c.Region == nil:
		case begins:
			b.WriteString(c.Numeral)
		case c.Numeral != r.Chords[i-1].Numeral:
			b.WriteString(Then)
			b.WriteString(c.Numeral)
		}
	}
	if b.Len() > 0 {
		runs = append(runs, b.String())
	}
	return runs
}

// region is the index of the chord's region, -1 for silence.
func (c *Chord) region() int {
	if c.Region == nil {
		return -1
	}
	return *c.Region
}
