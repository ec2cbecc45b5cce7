package function

// Changes of key, factored: what leaves the 24 keys is carried to all of them by
// the modes and by the distance of the signatures on the circle of fifths.

// circles holds a number for each key, by its mode and the place of its signature
// on the circle.
type circles [modeCount][12]float64

func (x *circles) of(key int) *float64 { return &x[key%modeCount][circleOf[key]] }

// A ring is a kernel laid round the circle twice, so that the factors of all places
// for place p stand together from 12-p.
type ring [24]float64

func (k kernel) ring() (r ring) {
	for i := range r {
		r[i] = k[min(i%12, 12-i%12)]
	}
	return r
}

// ring is that of regions that begin by a door.
func (l *lattice) ring(d door) *ring {
	if d == doorTonic {
		return &l.thin
	}
	return &l.open
}

func (r *ring) around(p int) *[12]float64 { return (*[12]float64)(r[12-p:]) }

// arrivals are what comes to the keys of a column from all other keys.
type arrivals struct {
	leaving [doorCount]circles // what sets out for each door
	other   circles            // what comes by doorOther
}

// set takes what leaves the keys before a column.
func (a *arrivals) set(l *lattice, leaving *[keyCount]float64, c *column) {
	for mode := range keyAt {
		for place, key := range keyAt[mode] {
			natural := c.natural >> key & 1
			for d := range a.leaving {
				a.leaving[d][mode][place] = leaving[key] * l.pivot[d][natural]
			}
		}
	}
	l.open.carry(&a.other, &a.leaving[doorOther], &l.come)
}

// by is what comes to a key by a door. Most chords are the tonic or the two of few
// keys, so that those are summed one by one.
func (a *arrivals) by(l *lattice, d door, key int) float64 {
	if d == doorOther {
		return *a.other.of(key)
	}
	mode, place := key%modeCount, int(circleOf[key])
	at := l.ring(d).around(place)
	ofMajor, ofMinor := 0.0, 0.0
	x := &a.leaving[d]
	for i, factor := range at {
		ofMajor += factor * x[major][i]
		ofMinor += factor * x[minor][i]
	}
	m := &l.come[mode]
	return max(0, ofMajor*m[major]+ofMinor*m[minor]-x[mode][place]*at[place]*m[mode])
}

// deal adds what a key's number is to all other keys that may come to it by a door.
func (l *lattice) deal(to *circles, d door, key int, number float64) {
	mode, place := key%modeCount, int(circleOf[key])
	own := &to[mode][place]
	kept := *own
	at := l.ring(d).around(place)
	ofMajor, ofMinor := number*l.modes[major][mode], number*l.modes[minor][mode]
	for i, factor := range at {
		to[major][i] += factor * ofMajor
		to[minor][i] += factor * ofMinor
	}
	*own = kept
}

// carry sets what all other keys bring to each key, where to[a] gets m[a's mode][b's
// mode] of what from has for b. Round a circle the sums of opposite places depend on
// sums of opposite places alone, and the differences on differences: that halves the
// work (z^12-1 = (z^6-1)(z^6+1)).
func (r *ring) carry(to, from *circles, m *modeFactors) {
	s0, s1, s2, s3 := (r[0]+r[6])/2, (r[1]+r[5])/2, (r[2]+r[4])/2, r[3]
	d0, d1, d2 := (r[0]-r[6])/2, (r[1]-r[5])/2, (r[2]-r[4])/2
	for mode := range modeCount {
		var sums, differences [10]float64 // from two places before 0 to two behind 5
		ofMajor, ofMinor := m[mode][major], m[mode][minor]
		for p := range 6 {
			here := from[major][p]*ofMajor + from[minor][p]*ofMinor
			there := from[major][p+6]*ofMajor + from[minor][p+6]*ofMinor
			sums[p+2], differences[p+2] = here+there, here-there
		}
		for p := range 2 {
			sums[p], sums[p+8] = sums[p+6], sums[p+2]
			differences[p], differences[p+8] = -differences[p+6], -differences[p+2]
		}
		own := m[mode][mode] * r[0]
		for p := range 6 {
			x, y := (*[5]float64)(sums[p:]), (*[5]float64)(differences[p:])
			sum := s0*x[2] + s1*(x[1]+x[3]) + s2*(x[0]+x[4]) + s3*sums[(p+3)%6+2]
			difference := d0*y[2] + d1*(y[1]+y[3]) + d2*(y[0]+y[4])
			to[mode][p] = max(0, sum+difference-own*from[mode][p]) // rounding may leave less than nothing
			to[mode][p+6] = max(0, sum-difference-own*from[mode][p+6])
		}
	}
}
