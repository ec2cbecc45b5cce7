package review_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/evaluate"
	"fifthwise/pkg/function"
	"fifthwise/pkg/internal/corpora"
	"fifthwise/pkg/review"
)

// Two analysts of one corpus mark each other: files NAME.ANALYST.jsonl of a
// directory outside of the project, if the environment names one. Where both heard
// the same chord, less than one numeral in twenty contradicts.
func TestAnalystsMarkEachOther(t *testing.T) {
	files, pairs := corpora.Files(t), 0
	for _, marked := range files {
		corpus, _, _ := strings.Cut(filepath.Base(marked), ".")
		for _, answered := range files {
			if marked != answered && strings.HasPrefix(filepath.Base(answered), corpus+".") {
				markAnalyst(t, marked, answered)
				pairs++
			}
		}
	}
	require.Positive(t, pairs, "no two NAME.ANALYST.jsonl of one name")
}

func markAnalyst(t *testing.T, marked, answered string) {
	t.Helper()
	answers := map[string]evaluate.Piece{}
	for _, p := range piecesOf(t, answered) {
		answers[p.ID] = p
	}
	all, same := verdicts{}, verdicts{}
	for _, p := range piecesOf(t, marked) {
		student, ok := answers[p.ID]
		if !ok {
			continue
		}
		a := function.Analyze(p.Chart)
		answer, heard := answerOf(&a, &student)
		r, err := review.Of(&a, answer)
		require.NoError(t, err, p.ID)
		for i, c := range r.Chords {
			all[c.Verdict]++
			if heard[i] {
				same[c.Verdict]++
			}
		}
	}
	t.Logf("%s by %s: %s; of the same chord %s", filepath.Base(marked), filepath.Base(answered), all, same)
	require.Less(t, same.share(review.Contradicts), .05)
}

// verdicts counts numerals by verdict; blanks are left out.
type verdicts map[review.Verdict]int

func (v verdicts) share(of review.Verdict) float64 {
	return float64(v[of]) / float64(max(1, v[review.Agrees]+v[review.Defensible]+v[review.Contradicts]))
}

func (v verdicts) String() string {
	return fmt.Sprintf("%.3f agree, %.3f defensible, %.3f contradict", v.share(review.Agrees), v.share(review.Defensible), v.share(review.Contradicts))
}

// answerOf is what an analyst says where the chords of a reading start, and whether
// the chord is the same there.
func answerOf(a *function.Analysis, p *evaluate.Piece) (answer review.Answer, heard []bool) {
	events := p.Chart.Played()
	at := -1
	for i := range a.Chords {
		e := &a.Chords[i].Event
		if e.Chord.IsSilence() {
			continue
		}
		for at+1 < len(events) && !isAfter(&events[at+1], e) {
			at++
		}
		if at < 0 || !p.Answers[at].Labeled {
			answer.Numerals, heard = append(answer.Numerals, ""), append(heard, false)
			continue
		}
		said := &p.Answers[at]
		if n := len(answer.Regions); n == 0 || answer.Regions[n-1].Key != said.Key {
			answer.Regions = append(answer.Regions, review.Region{Key: said.Key, Bar: e.Bar, Beat: e.Beat, Pass: e.Pass})
		}
		numeral := said.Degree.String()
		if said.Target.IsValid() {
			numeral += "/" + said.Target.String()
		}
		answer.Numerals = append(answer.Numerals, numeral)
		other := events[at].Chord
		heard = append(heard, other.Root().Sounds(e.Chord.Root()) && other.Quality() == e.Chord.Quality())
	}
	return answer, heard
}

func isAfter(a, b *chart.Event) bool {
	return a.Bar > b.Bar || a.Bar == b.Bar && b.Beat.Less(a.Beat)
}

func piecesOf(t *testing.T, file string) []evaluate.Piece {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	pieces, err := evaluate.Read(f)
	require.NoError(t, err, file)
	return pieces
}
