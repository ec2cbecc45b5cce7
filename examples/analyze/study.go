package main

import "fifthwise/pkg/study"

// study tells the tune in steps, as a player learns it.
func (p *page) study() {
	plan := study.Of(&p.analysis)
	steps := plan.Steps()
	if len(steps) == 0 {
		return
	}
	p.section("What to remember")
	for _, s := range steps {
		p.text(2, 6, s)
	}
}
