package function

// addPivots gives a chord where one region opens into the next its second
// numeral: the first chord of the new region in the old key, if it is diatonic
// there, else the last of the old in the new.
func (a *Analysis) addPivots() {
	o := a.outcome
	for i := 1; i < len(o.columns); i++ {
		if o.chosen[i].key == o.chosen[i-1].key {
			continue
		}
		if !a.setPivot(i, i-1) {
			a.setPivot(i-1, i)
		}
	}
}

// setPivot reads column i in the key of column other too.
func (a *Analysis) setPivot(i, other int) bool {
	o := a.outcome
	k := int(o.chosen[other].key)
	if o.entry(i).role != Diatonic {
		return false
	}
	named := a.Chords[o.columns[other].first].Key
	c := &o.columns[i]
	for s, hi := c.in(k); s < hi; s++ {
		e := c.slot(s).entry
		if e.role != Diatonic {
			continue
		}
		for j := c.first; j <= c.last; j++ {
			if r := &a.Chords[j]; r.Region >= 0 {
				r.Pivot = Pivot{Key: named, Numeral: e.numeral(r.Event.Chord, named.Tonic())}
			}
		}
		return true
	}
	return false
}
