package command

import (
	"errors"
	"flag"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

// Part is the key and the instrument that a chart is asked for in. The zero value
// is the chart as it stands.
type Part struct {
	Key        key.Key        // invalid: the tune's own
	Instrument key.Instrument // that reads it
}

// Flags are -key and -instrument.
func (p *Part) Flags(set *flag.FlagSet) {
	set.TextVar(&p.Key, "key", key.Key{}, "")
	set.TextVar(&p.Instrument, "instrument", key.Concert, "")
}

// IsAsIs reports whether nothing is to be transposed.
func (p *Part) IsAsIs() bool { return !p.Key.IsValid() && p.Instrument == key.Concert }

// Of is the chart in the key that was asked for, as the instrument reads it. Its
// own is the one that it states, else its home.
func (p *Part) Of(c chart.Chart) (chart.Chart, error) {
	if p.IsAsIs() {
		return c, nil
	}
	a := function.Analyze(c)
	from := c.Key
	if !from.IsValid() {
		from = a.Home
	}
	if !from.IsValid() {
		return c, errors.New("no key is stated, and none can be read from a chart in which nothing sounds")
	}
	to := p.Key
	if !to.IsValid() {
		to = from
	}
	if p.Instrument != key.Concert {
		to = p.Instrument.Key(to)
	}
	return c.TransposeTo(from, to, a.Passages()...)
}
