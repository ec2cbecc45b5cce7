package function

// Steps are the pairs of slots of two neighbouring chords that may follow each other
// in one key: those on to a tonic, which may settle a region, apart.
type steps struct{ on, home edges }

// edges are steps key by key, keys counted from the later chord's root up.
type edges struct {
	list []edge
	keys [keyCount + 1]uint16 // where each key's begin
}

func (e *edges) in(key int) []edge { return e.list[e.keys[key]:e.keys[key+1]] }

// An edge is a step from a slot of the earlier chord to one of the later, both
// counted within their shapes.
type edge struct {
	from, to uint16
	factor   float32 // negative where it is a cadence
}

// between finds the steps from column a to column b.
func (m *Model) between(a, b *column) *steps {
	up := (b.root - a.root + 12) % 12
	known := &m.steps[a.shape.number][b.shape.number][up]
	s := known.Load()
	if s == nil {
		s = m.newSteps(a.shape, b.shape, up)
		known.Store(s)
	}
	return s
}

func (m *Model) newSteps(a, b *shape, up int) *steps {
	s := new(steps)
	for key := range keyCount {
		s.on.keys[key], s.home.keys[key] = uint16(len(s.on.list)), uint16(len(s.home.list))
		old := (key + up*modeCount) % keyCount
		for to := b.keys[key]; to < b.keys[key+1]; to++ {
			list := &s.on
			if b.slots[to].door == doorTonic {
				list = &s.home
			}
			for from := a.keys[old]; from < a.keys[old+1]; from++ {
				t, ok := pairTerm(a.slots[from].entry, b.slots[to].entry)
				if !ok {
					continue
				}
				e := edge{from, to, float32(m.factor[t])}
				if isCadence(t) {
					e.factor = -e.factor
				}
				list.list = append(list.list, e)
			}
		}
	}
	s.on.keys[keyCount], s.home.keys[keyCount] = uint16(len(s.on.list)), uint16(len(s.home.list))
	return s
}
