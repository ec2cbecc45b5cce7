package main

import (
	"encoding/json"
	"math"

	"fifthwise/pkg/evaluate"
)

// figure is a number that is null where there is nothing to count.
type figure float64

func (f figure) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(f)) {
		return []byte("null"), nil
	}
	return json.Marshal(float64(f))
}

// page is the report as JSON.
type page struct {
	Rows  []rowJSON     `json:"rows"`
	Worst []passageJSON `json:"worst"`
}

type rowJSON struct {
	File     string `json:"file"`
	Fold     string `json:"fold,omitempty"`
	Pieces   int    `json:"pieces"`
	Chords   int    `json:"chords"`
	Key      figure `json:"key"`
	Tonic    figure `json:"tonic"`
	Weighted figure `json:"weighted"`
	Changes  figure `json:"changes"`
	Label    figure `json:"label"`
	Applied  figure `json:"applied"`
	Margin   figure `json:"margin"`
	// Left is of how many chords no reading can follow the analyst's key.
	Left        int             `json:"margin_left_out"`
	Calibration calibrationJSON `json:"calibration"`
}

type calibrationJSON struct {
	Error figure    `json:"error"`
	Brier figure    `json:"brier"`
	Bins  []binJSON `json:"bins"`
}

type binJSON struct {
	Chords     int    `json:"chords"`
	Confidence figure `json:"confidence"`
	Right      figure `json:"right"`
}

type passageJSON struct {
	Piece  string         `json:"piece"`
	Corpus string         `json:"corpus,omitempty"`
	Chords []readingsJSON `json:"chords"`
}

type readingsJSON struct {
	Bar            int    `json:"bar"`
	Beat           string `json:"beat"`
	Symbol         string `json:"symbol"`
	AnalystKey     string `json:"analyst_key"`
	AnalystNumeral string `json:"analyst_numeral"`
	Key            string `json:"key"`
	Numeral        string `json:"numeral"`
	Confidence     figure `json:"confidence"`
}

func (r *report) json() (string, error) {
	p := page{Rows: []rowJSON{}, Worst: []passageJSON{}}
	for i := range r.rows {
		p.Rows = append(p.Rows, r.rows[i].json())
	}
	for i := range r.worst {
		p.Worst = append(p.Worst, worstJSON(&r.worst[i]))
	}
	text, err := json.MarshalIndent(p, "", "  ")
	return string(text) + "\n", err
}

func (r *row) json() rowJSON {
	s, c := r.result.Score, &r.result.Calibration
	out := rowJSON{
		File: r.file, Fold: r.fold, Pieces: r.pieces(), Chords: r.chords(),
		Key: figure(s.KeyShare()), Tonic: figure(s.TonicShare()), Weighted: figure(s.WeightedShare()),
		Changes: figure(s.ChangesF1()), Label: figure(s.LabelShare()), Applied: figure(s.AppliedF1()),
		Margin: figure(r.result.Margin.Mean()), Left: r.result.Margin.Left / r.times,
		Calibration: calibrationJSON{Error: figure(c.Error()), Brier: figure(c.Brier())},
	}
	for _, b := range c {
		n := float64(b.Chords)
		out.Calibration.Bins = append(out.Calibration.Bins, binJSON{b.Chords, figure(b.Confidence / n), figure(float64(b.Right) / n)})
	}
	return out
}

func worstJSON(p *evaluate.Passage) passageJSON {
	out := passageJSON{Piece: p.Piece.ID, Corpus: p.Piece.Corpus}
	for i := p.First; i <= p.Last; i++ {
		if !evaluate.Differs(p.Piece, p.Reading, i) {
			continue
		}
		want, got := &p.Piece.Answers[i], &p.Reading.Chords[i]
		out.Chords = append(out.Chords, readingsJSON{
			got.Event.Bar, got.Event.Beat.String(), got.Event.Symbol,
			want.Key.String(), want.Numeral, got.Key.String(), got.Numeral.String(), figure(got.Confidence),
		})
	}
	return out
}
