package api

import (
	"fifthwise/api/wire"
	"fifthwise/pkg/phrase"
	"fifthwise/pkg/study"
)

// phrases are the phrases of a plan in the API's shape.
func phrases(p *study.Plan, clock *clock) []wire.Phrase {
	list := make([]wire.Phrase, len(p.Form.Phrases))
	for i := range p.Form.Phrases {
		f := &p.Form.Phrases[i]
		list[i] = wire.Phrase{Name: f.Name, Bars: f.Bars, Occurrences: make([]wire.Occurrence, len(f.Occurrences))}
		for k := range f.Occurrences {
			list[i].Occurrences[k] = occurrence(f, &f.Occurrences[k], clock)
		}
	}
	return list
}

func occurrence(f *phrase.Phrase, o *phrase.Occurrence, clock *clock) wire.Occurrence {
	return wire.Occurrence{
		Start:         clock.front(o.First),
		End:           clock.back(o.First + f.Bars - 1),
		Transposition: o.Motion.String(),
		Exact:         o.Exact,
		Differences:   append([]int{}, o.Differences...),
	}
}

func studyOf(p *study.Plan) wire.Study {
	w := wire.Study{Chords: p.Chords, ToRemember: p.ToRemember, Steps: p.Steps()}
	cards := p.Cards()
	w.Cards = make([]wire.Card, len(cards))
	for i, c := range cards {
		w.Cards[i] = wire.Card{Ask: c.Ask, Answer: c.Answer}
	}
	return w
}
