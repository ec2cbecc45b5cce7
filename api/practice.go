package api

import (
	"fifthwise/api/wire"
	"fifthwise/pkg/function"
	"fifthwise/pkg/study"
)

// practiceOf is the material of a reading in the API's shape; silence has none.
func (p printing) practiceOf(a *function.Analysis) *wire.Practice {
	material := study.PracticeOf(a)
	w := &wire.Practice{Chords: []wire.PracticeChord{}, Lines: make([]wire.GuideLine, len(material.Lines))}
	for i := range material.Chords {
		if a.Chords[i].Region < 0 {
			continue
		}
		m := &material.Chords[i]
		w.Chords = append(w.Chords, wire.PracticeChord{
			Chord:      i,
			Tones:      p.notes(m.Tones),
			GuideTones: p.notes(m.Guides[:]),
			Scale:      p.scale(m.Scale),
			ScaleNotes: p.notes(m.Notes),
		})
	}
	for v := range material.Lines {
		w.Lines[v].Steps = p.steps(material.Lines[v])
	}
	return w
}

func (p printing) steps(line []study.Step) []wire.GuideStep {
	w := []wire.GuideStep{}
	for i, s := range line {
		if !s.Rests {
			w = append(w, wire.GuideStep{Chord: i, Note: p.note(s.Note), Degree: string(s.Degree.AppendTo(nil, p.accidentals)), Motion: int(s.Motion)})
		}
	}
	return w
}
