package main

import "strings"

// facts are what the tally takes from a row, and what it can be given again by
// a row that was written.
type facts struct {
	bad     bool
	home    string
	form    string
	motions []string // from each region to the next
	runs    []string // numerals as they follow in a region, "IIm7-V7-Imaj7"
	roles   []share  // of sounding chords
}

// share is how many chords play a role.
type share struct {
	role   string
	chords int
}

// Separators of numerals that follow each other in a key, and of such runs.
const (
	then  = "-"
	apart = "; "
)

func (r *Row) facts() facts {
	if r.Reading == nil {
		return facts{bad: true}
	}
	f := facts{home: r.HomeKey, form: r.Form}
	for i := range r.Regions {
		if i > 0 {
			f.motions = append(f.motions, r.motion(i))
		}
	}
	f.runs = r.runs()
	for i := range r.Chords {
		if r.Chords[i].Region != nil {
			f.play(r.Chords[i].Role)
		}
	}
	return f
}

// motion is how the key moves into a region.
func (r *Reading) motion(region int) string {
	switch m := r.Regions[region].Motion; {
	case region == 0:
		return ""
	case m == "":
		return "same tonic"
	default:
		return m
	}
}

func (f *facts) play(role string) {
	for i := range f.roles {
		if f.roles[i].role == role {
			f.roles[i].chords++
			return
		}
	}
	f.roles = append(f.roles, share{role, 1})
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
			b.WriteString(then)
			b.WriteString(c.Numeral)
		}
	}
	if b.Len() > 0 {
		runs = append(runs, b.String())
	}
	return runs
}
