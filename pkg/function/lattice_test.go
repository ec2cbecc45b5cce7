package function

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/key"
	"fifthwise/pkg/pitch"
)

// A reference reads a chart the slow way: every path is walked to its end, and
// what it costs is added up term by term from the weights. It shares with the
// search only which entries fit a column and which terms a column uses.
type reference struct {
	*lattice
	states [][]state // by column
	hops   [][]hop   // by slot and phase: slot*phaseCount+phase
}

// A state is a slot without its phase.
type state struct {
	*entry
	slot, key int
	own       float64
}

// A hop is a step from a state to one of the next column.
type hop struct {
	to     state
	phase  int
	factor float64
}

// read builds a chart's lattice and runs the search; what is given of its
// chords, if anything, is clamped first.
func read(t require.TestingT, text string, given map[int]Given) *lattice {
	c, err := chart.Parse(text)
	require.NoError(t, err, text)
	events := c.Played()
	l := &lattice{Model: defaultModel()}
	l.build(c.Key, events)
	if given != nil {
		all := make([]Given, len(events))
		for i, g := range given {
			all[i] = g
		}
		l.clamp(all)
	}
	l.sum(0)
	return l
}

func newReference(l *lattice) *reference {
	r := &reference{lattice: l, states: make([][]state, len(l.columns)), hops: make([][]hop, len(l.own)*phaseCount)}
	for i := range l.columns {
		c := &l.columns[i]
		for key := range keyCount {
			for s, hi := c.in(key); s < hi; s++ {
				st := state{c.slot(s).entry, int(s), key, 0}
				if l.own[s] > 0 { // not clamped
					st.own = r.factorOf(r.chordTerms(c, st))
				}
				r.states[i] = append(r.states[i], st)
			}
		}
	}
	for i := range l.columns[1:] {
		for _, a := range r.states[i] {
			for phase := range phaseCount {
				r.addHops(i+1, a, phase)
			}
		}
	}
	return r
}

// factorOf is e to minus the cost of terms.
func (r *reference) factorOf(used []usage) float64 {
	cost := 0.0
	for _, u := range used {
		cost += r.weights[u.term] * u.times
	}
	return math.Exp(-cost / temperature)
}

func (r *reference) chordTerms(c *column, s state) []usage {
	used := c.traits.uses([]usage{{s.fit, 1}}, s.place, r.style.rich)
	used = r.home.uses(used, s.key)
	used = append(used, usage{HintElsewhere, r.misses(s.key)})
	if c.slot(int32(s.slot)).later {
		used = append(used, usage{laterHearing(c.shape.hearings[0].kind), 1})
	}
	if s.is(blue) {
		used = append(used, usage{BlueChart, r.style.blue})
	}
	return used
}

// addHops lists the steps from a state into column i.
func (r *reference) addHops(i int, a state, phase int) {
	c := &r.columns[i]
	at := a.slot*phaseCount + phase
	for _, b := range r.states[i] {
		h := hop{b, phase, 0}
		if b.key == a.key {
			t, ok := pairTerm(a.entry, b.entry)
			if !ok {
				continue
			}
			h.factor = float64(float32(r.factorOf([]usage{{t, 1}}))) // the search keeps these in single precision
			if b.is(arrives) && phase == opening {
				by := 0
				if isCadence(t) {
					by = 1
				}
				h.factor *= r.factorOf(r.settleUses(nil, &c.traits, by))
			}
		} else {
			used, ok := r.changeTerms(i, a, phase, b)
			if !ok {
				continue
			}
			h.factor = r.factorOf(used)
			h.phase = opening
		}
		if b.is(arrives) {
			h.phase = settled
		}
		if h.factor *= b.own; h.factor > 0 {
			r.hops[at] = append(r.hops[at], h)
		}
	}
}

// changeTerms are the terms of a change of key; ok is false where the old key
// cannot be left.
func (r *reference) changeTerms(i int, a state, phase int, b state) (used []usage, ok bool) {
	c := &r.columns[i]
	switch {
	case a.is(strictly):
		return nil, false
	case phase == settled:
		used = append(used, usage{leaveTerm(a.entry), 1})
	case a.homeDominant():
		used = append(used, usage{LeaveUnsettled, 1}, usage{LeaveUnsettledRich, r.style.rich})
	default:
		return nil, false
	}
	used = r.moveUses(used, &c.traits)
	used = append(used, usage{enterTerm(b.entry), 1})
	if enterTerm(b.entry) == EnterTwo {
		used = append(used, usage{EnterTwoRich, r.style.rich})
	}
	d := signaturesApart(a.key, b.key)
	if b.is(arrives) {
		used = r.thinUses(append(used, usage{ChangeThin0 + Term(d), 1}), &c.traits)
	} else {
		used = append(used, usage{ChangeSignature0 + Term(d), 1})
	}
	if d <= 1 {
		used = append(used, usage{ChangeNear, r.style.rich})
	}
	if t, ok := modeTerm(a.key%modeCount, b.key%modeCount); ok {
		used = append(used, usage{t, 1})
	}
	if r.isDiatonic(i, a.key) {
		switch enterTerm(b.entry) {
		case EnterTonic, EnterLean:
			used = append(used, usage{PivotTonic, 1})
		case EnterTwo:
			used = append(used, usage{PivotTwo, 1})
		default:
			used = append(used, usage{PivotOther, 1}, usage{PivotOtherRich, r.style.rich})
		}
	}
	if r.isDiatonic(i-1, b.key) {
		used = append(used, usage{PivotLeft, 1})
	}
	return used, true
}

// isDiatonic: a row of the key's own chords fits what column i is first heard as.
func (r *reference) isDiatonic(i, key int) bool {
	heard := r.columns[i].shape.hearings[0]
	root := pitch.Class(r.columns[i].root).Plus(heard.root)
	for _, e := range vocabulary[key%modeCount] {
		if e.role == Diatonic && e.kinds.has(heard.kind) && root == pitch.Class(key/modeCount).Plus(int(e.root)) {
			return true
		}
	}
	return false
}

// signaturesApart counts steps on the circle of fifths between the signatures
// of two keys, 0 to 6: a fifth is seven half steps, and a minor key has the
// signature of the major key three half steps higher.
func signaturesApart(a, b int) int {
	relative := func(k int) int { return k/modeCount + 3*(k%modeCount) }
	for d := range 7 {
		if up := (relative(b) - relative(a) + 24) % 12; up == 7*d%12 || up == 5*d%12 {
			return d
		}
	}
	panic("unreachable")
}

// misses: how far a key is from the one that the chart states.
func (r *reference) misses(k int) float64 {
	switch {
	case r.hint < 0 || r.hint == k:
		return 0
	case r.hint/modeCount == k/modeCount:
		return .5
	}
	return 1
}

func (r *reference) starts(f func(s state, phase int, factor float64)) {
	for _, s := range r.states[0] {
		factor := s.own
		factor *= r.factorOf([]usage{{HintStart, r.misses(s.key)}})
		phase := opening
		if s.is(arrives) {
			phase = settled
		}
		if phase == opening && s.upbeat() {
			factor *= r.factorOf([]usage{{StartUnsettled, r.style.rich}})
		}
		f(s, phase, factor)
	}
}

// end is the factor of a state of the last column: it goes round to whichever
// first chord in its key it goes to best, or breaks off.
func (r *reference) end(a state, phase int) float64 {
	round := 0.0
	if !a.is(strictly) {
		round = r.factorOf([]usage{{roundTerm(a.entry), circle}})
	}
	for _, b := range r.states[0] {
		if b.key != a.key || !r.goesOn(b) {
			continue
		}
		if t, ok := pairTerm(a.entry, b.entry); ok && !(a.is(strictly) && t == PairHold) {
			round = max(round, r.factorOf([]usage{{t, circle}}))
		}
	}
	round *= r.factorOf([]usage{{HintEnd, r.misses(a.key)}})
	first := (r.columns[0].root - a.key/modeCount + 12) % 12
	if a.applied() && a.pays != 0 && a.pays>>first&1 == 0 {
		round *= r.factorOf([]usage{{EndInDebt, 1}})
	}
	if phase == opening && r.hint != a.key {
		owed := 1.0
		for _, b := range r.states[0] {
			if b.key == a.key && b.is(arrives) && a.homeDominant() && len(r.states) > 1 {
				owed = 1 - circle
			}
		}
		round *= r.factorOf([]usage{{EndUnsettled, owed}})
		if !a.homeDominant() || len(r.states) == 1 {
			round *= r.factorOf([]usage{{EndUnsettledRich, r.style.rich}})
		}
	}
	return round
}

// goesOn: a state of the first column that may go on in its key to the second.
func (r *reference) goesOn(a state) bool {
	for _, b := range r.states[1%len(r.states)] {
		if _, ok := pairTerm(a.entry, b.entry); ok && b.key == a.key {
			return true
		}
	}
	return !a.is(strictly)
}

// sums are those of the factors of paths: through each slot, and of those that
// keep a key behind a column.
type sums struct {
	through []float64
	kept    [][keyCount]float64
}

func (r *reference) noSums() sums {
	return sums{make([]float64, len(r.own)), make([][keyCount]float64, len(r.columns))}
}

// walk goes all ways on from a state that was reached with some factor, adds
// up the factors of the paths, and returns their sum.
func (r *reference) walk(all *sums, i int, s state, phase int, factor float64) (sum float64) {
	if i == len(r.states)-1 {
		sum = factor * r.end(s, phase)
	} else {
		for _, h := range r.hops[s.slot*phaseCount+phase] {
			more := r.walk(all, i+1, h.to, h.phase, factor*h.factor)
			sum += more
			if h.to.key == s.key {
				all.kept[i][s.key] += more
			}
		}
	}
	all.through[s.slot] += sum
	return sum
}

// price is what a path's step behind column i costs, from a key to a key.
func (r *reference) price(i, from, to int) float64 {
	if from == to {
		return 0
	}
	left := r.shares[i][from] - r.kept[i][from]
	entered := r.shares[i+1][to] - r.kept[i][to]
	return straying(left) + straying(entered)
}

// worthOf adds up what the path is made of.
func (r *reference) worthOf(worth []float64, steps []step) (sum float64) {
	for i, s := range steps {
		sum += worth[s.slot]
		if i > 0 {
			sum -= r.price(i-1, int(steps[i-1].key), int(s.key))
		}
	}
	return sum
}

// best is the largest sum of worth over all ways on from a state.
func (r *reference) best(worth []float64, i int, s state, phase int) float64 {
	if i == len(r.states)-1 {
		return worth[s.slot]
	}
	most := math.Inf(-1)
	for _, h := range r.hops[s.slot*phaseCount+phase] {
		most = max(most, r.best(worth, i+1, h.to, h.phase)-r.price(i, s.key, h.to.key))
	}
	return most + worth[s.slot]
}

// labels adds up a figure of slots by column, key, degree and target.
func (r *reference) labels(of func(slot int) float64) []float64 {
	type name struct {
		key            int
		degree, target Degree
	}
	sums := make([]float64, len(r.own))
	for _, states := range r.states {
		named := map[name]float64{}
		for _, s := range states {
			named[name{s.key, s.degree, s.target}] += of(s.slot)
		}
		for _, s := range states {
			sums[s.slot] = named[name{s.key, s.degree, s.target}]
		}
	}
	return sums
}

// searched is a slot's probability as the search has it.
func (r *reference) searched(slot int) float64 {
	return r.chance[opening][slot] + r.chance[settled][slot]
}

// requireSame: the search's sum, probabilities and path are those of all paths
// walked one by one.
func requireSame(t require.TestingT, text string, l *lattice) {
	r := newReference(l)
	all, total := r.noSums(), 0.0
	r.starts(func(s state, phase int, factor float64) { total += r.walk(&all, 0, s, phase, factor) })
	require.Positive(t, total, text)
	require.InEpsilon(t, total, math.Exp(l.logSum), 1e-9, text)

	want, got := r.labels(func(slot int) float64 { return all.through[slot] / total }), r.labels(r.searched)
	require.InDeltaSlice(t, want, got, 1e-9, text)
	for i := range l.columns[1:] {
		for key, kept := range all.kept[i] {
			require.InDelta(t, kept/total, l.kept[i][key], 1e-9, text)
		}
	}

	worth := make([]float64, len(want))
	for s, p := range want {
		if p >= negligible {
			worth[s] = p
		}
	}
	most := math.Inf(-1)
	r.starts(func(s state, phase int, _ float64) { most = max(most, r.best(worth, 0, s, phase)) })
	steps := l.path()
	r.requireAdmissible(t, text, steps)
	require.InDelta(t, most, r.worthOf(worth, steps), likelier*float64(len(steps))+1e-9, text) // a trace of the states' own decides between near ties
}

// requireAdmissible: the path starts and goes on by hops of the reference.
func (r *reference) requireAdmissible(t require.TestingT, text string, steps []step) {
	require.Len(t, steps, len(r.states), text)
	started := false
	r.starts(func(s state, phase int, _ float64) {
		started = started || s.slot == int(steps[0].slot) && phase == int(steps[0].phase)
	})
	require.True(t, started, text)
	for i, to := range steps[1:] {
		from, found := steps[i], false
		for _, h := range r.hops[int(from.slot)*phaseCount+int(from.phase)] {
			found = found || h.to.slot == int(to.slot) && h.phase == int(to.phase) && h.to.key == int(to.key)
		}
		require.True(t, found, "%s: step %d is none", text, i+1)
	}
}

func TestSearchIsExact(t *testing.T) {
	tests := []struct{ name, chart string }{
		{"two chords", "G7 | C"},
		{"the same root", "C | Cm"},
		{"a two-five-one", "Dm7 | G7 | Cmaj7"},
		{"a minor two-five-one", "F#m7b5 | B7b9 | Em6"},
		{"an applied dominant and its goal", "Eb | G7 | Cm"},
		{"a substitute", "Ebm7 | Bb7 | A6"},
		{"a chain of dominants", "A7 | D7 | G7"},
		{"a diminished seventh of four names", "C | C#dim7 | Dm7"},
		{"only diminished sevenths", "Cdim7 | Bdim7"},
		{"suspended dominants over a bass", "Dm7/G | F/G | C"},
		{"a seventh in the bass", "D/C | G/B"},
		{"six-four", "C/G | G7 | C"},
		{"silence between", "G7 | N.C. | C | N.C."},
		{"silence first, one chord", "N.C. | Bb7"},
		{"held over sections", "C | C | [B] C | F"},
		{"sections", "[A] F | C7 | [B] Dm"},
		{"half bars", "Am F | C G"},
		{"a key stated and met", "Key: G minor\nGm | D7 | Gm"},
		{"a key stated and missed", "Key: F# major\nC | G7 | C"},
		{"a key stated and its tonic owed", "Key: A major\nBm7 | E7"},
		{"a blues", "A7 | D7 | A7 | E7"},
		{"plain triads", "E | C#m | A | B"},
		{"a change of key", "Cmaj7 | F#7 | Bmaj7 | / / / /"},
		{"two chords in turn", "Gm7 | Am7 | Gm7 | Am7"},
		{"odd chords", "Caug | E5 | Absus4"},
		{"five chords", "C | Am | Dm | G | C"},
		{"five in minor, with sections", "Key: C minor\n[A] Cm | Ab | [B] Fm | G | [C] Cm"},
		{"a two-five on its way", "Fmaj7 | Bbm7 Eb7 | Gm7 Fmaj7"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { requireSame(t, tt.chart, read(t, tt.chart, nil)) })
	}
}

// Given chords leave few paths, so that longer charts can be walked, and what
// clamping does is held against the reference too.
func TestClampedSearchIsExact(t *testing.T) {
	g, f, bflatMinor := key.MustParse("G major"), key.MustParse("F major"), key.MustParse("Bb minor")
	tests := []struct {
		name, chart string
		given       map[int]Given
	}{
		{"two regions", "Gmaj7 | D7 | Gmaj7 | C7 | Fmaj7", map[int]Given{
			0: {Key: g, Degree: D(1, 0)}, 2: {Key: g, Degree: D(1, 0)}, 4: {Key: f, Degree: D(1, 0)}}},
		{"applied, then its goal", "Bbm | Bb7 | Ebm | F7 | Bbm", map[int]Given{
			0: {Key: bflatMinor, Degree: D(1, 0)}, 1: {Key: bflatMinor, Degree: D(5, 0), Target: D(4, 0)}, 4: {Key: bflatMinor}}},
		{"the tonic alone known", "[A] F | Bb7 | F7 | [B] Fm | Db", map[int]Given{
			0: {Key: f, AnyMode: true}, 1: {Key: f, AnyMode: true}, 3: {Key: f, AnyMode: true}}},
		{"a passing diminished chord", "G | G#dim7 | Am7 | D7 | G", map[int]Given{
			0: {Key: g}, 1: {Key: g}, 4: {Key: g}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			l := read(t, tt.chart, tt.given)
			r := newReference(l)
			all := r.noSums()
			total := 0.0
			r.starts(func(s state, phase int, factor float64) {
				if factor > 0 {
					total += r.walk(&all, 0, s, phase, factor)
				}
			})
			require.InEpsilon(t, total, math.Exp(l.logSum), 1e-9)
			require.InDeltaSlice(t, r.labels(func(slot int) float64 { return all.through[slot] / total }), r.labels(r.searched), 1e-9)
		})
	}
}

// drawnSymbols have roots of all kinds on few places, so that drawn charts hang
// together often enough.
var drawnSymbols = []string{
	"C", "Cm", "C7", "Cmaj7", "F", "Fm", "F7", "G", "G7", "Gm7", "G7sus4", "Dm7", "D7", "Dm7b5", "Am", "A7", "Ab", "Ab7", "Bb7", "Db7", "Db", "E7", "Bdim7",
	"C#dim7", "B7", "F#m7b5", "Ebmaj7", "Eb", "Cm6", "C/G", "Dm7/G", "Em7", "Caug", "C5", "Bdim",
}

func TestSearchIsExactOnDrawnCharts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var text strings.Builder
		if hint := rapid.SampledFrom([]string{"", "C major", "C minor", "A minor", "Ab major", "D dorian"}).Draw(t, "hint"); hint != "" {
			fmt.Fprintf(&text, "Key: %s\n", hint)
		}
		for i := range rapid.IntRange(1, 4).Draw(t, "chords") {
			text.WriteString(rapid.SampledFrom([]string{"", "", "| ", "| N.C. | ", fmt.Sprintf("| [Part %d] ", i)}).Draw(t, "before"))
			text.WriteString(rapid.SampledFrom(drawnSymbols).Draw(t, "symbol") + " ")
		}
		requireSame(t, text.String(), read(t, text.String(), nil))
	})
}

// The path is the best of all admissible ones for any worth of labels, not only
// for those that a chart gives, which seldom make a forbidden step tempting.
func TestPathIsBestForAnyLabels(t *testing.T) {
	charts := []string{"Dm7 | G7 | C", "G | Gdim7 | Am7 | D7", "Am7b5 D7 | Gm | C#dim7", "C/G | E7 | Am | Ab7", "Gm7 | C7 | F#m7 | B7"}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(charts).Draw(t, "chart")
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 0))
		rare := rapid.Float64Range(0, 1).Draw(t, "share of labels that count for nothing")
		l := read(t, text, nil)
		for s := range l.label {
			l.label[s] = 0
			if random.Float64() >= rare {
				l.label[s] = random.Float64()
			}
		}
		for key := range l.live {
			l.live[key] = true
		}
		r := newReference(l)
		most := math.Inf(-1)
		r.starts(func(s state, phase int, _ float64) { most = max(most, r.best(l.label, 0, s, phase)) })
		steps := l.path()
		r.requireAdmissible(t, text, steps)
		require.InDelta(t, most, r.worthOf(l.label, steps), 1e-9, text)
	})
}

// What is passed over backwards moves no probability by more than is ever told,
// however long the chart.
func TestFaintKeysCountForNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom(drawnSymbols), 1, 60).Draw(t, "chords")
		text := strings.Repeat(strings.Join(words, " | ")+" |\n", rapid.IntRange(1, 4).Draw(t, "times"))
		all := read(t, text, nil)
		l := read(t, text, nil)
		l.sum(faint)
		require.InDelta(t, all.logSum, l.logSum, 1e-9, text)
		for phase := range phaseCount {
			require.InDeltaSlice(t, all.chance[phase], l.chance[phase], 1e-6, text)
		}
	})
}

// A chart so long that its sums leave the range of numbers: scaled sums are
// those that plain sums in logarithms give, which need no scaling.
func TestLongChartsStayInRange(t *testing.T) {
	words := make([]string, 300)
	for i := range words {
		words[i] = drawnSymbols[(i*i+i/7)%len(drawnSymbols)]
	}
	text := strings.Join(words, " | ")
	l := read(t, text, nil)
	require.Greater(t, len(l.columns), 250)
	require.Less(t, l.logSum, math.Log(math.SmallestNonzeroFloat64), "the chart is too short to tell")
	r := newReference(l)

	ahead := make([]float64, len(l.own)*phaseCount) // logarithms of sums up to each state, then on from it
	after := make([]float64, len(l.own)*phaseCount)
	for i := range ahead {
		ahead[i], after[i] = math.Inf(-1), math.Inf(-1)
	}
	r.starts(func(s state, phase int, factor float64) { ahead[s.slot*phaseCount+phase] = math.Log(factor) })
	for i := range r.states[1:] {
		for _, s := range r.states[i] {
			for phase := range phaseCount {
				at := s.slot*phaseCount + phase
				for _, h := range r.hops[at] {
					to := &ahead[h.to.slot*phaseCount+h.phase]
					*to = addLogs(*to, ahead[at]+math.Log(h.factor))
				}
			}
		}
	}
	total := math.Inf(-1)
	last := len(r.states) - 1
	for _, s := range r.states[last] {
		for phase := range phaseCount {
			at := s.slot*phaseCount + phase
			after[at] = math.Log(r.end(s, phase))
			total = addLogs(total, ahead[at]+after[at])
		}
	}
	require.InEpsilon(t, total, l.logSum, 1e-12)
	for i := last - 1; i >= 0; i-- {
		for _, s := range r.states[i] {
			for phase := range phaseCount {
				at := s.slot*phaseCount + phase
				for _, h := range r.hops[at] {
					after[at] = addLogs(after[at], math.Log(h.factor)+after[h.to.slot*phaseCount+h.phase])
				}
			}
		}
	}
	for i, states := range r.states {
		sum := 0.0
		for _, s := range states {
			for phase := range phaseCount {
				got, at := l.chance[phase][s.slot], s.slot*phaseCount+phase
				require.InDelta(t, math.Exp(ahead[at]+after[at]-total), got, 1e-9)
				sum += got
			}
		}
		require.InDelta(t, 1, sum, 1e-9, "column %d", i)
	}
}

// addLogs is the logarithm of the sum of two numbers given by theirs.
func addLogs(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	if math.IsInf(b, -1) {
		return a
	}
	return a + math.Log1p(math.Exp(b-a))
}
