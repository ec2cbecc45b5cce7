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
	return ofMajor*m[major] + ofMinor*m[minor] - x[mode][place]*at[place]*m[mode]
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
// mode] of what from has for b.
func (r *ring) carry(to, from *circles, m *modeFactors) {
	for mode := range modeCount {
		var x [24]float64 // both modes on one circle, twice round so that no index wraps
		for p := range 12 {
			x[p] = from[major][p]*m[mode][major] + from[minor][p]*m[mode][minor]
			x[p+12] = x[p]
		}
		own := m[mode][mode] * r[0]
		for p := range 12 {
			at := (*[12]float64)(x[p:])
			to[mode][p] = r[0]*at[0] + r[1]*(at[1]+at[11]) + r[2]*(at[2]+at[10]) + r[3]*(at[3]+at[9]) +
				r[4]*(at[4]+at[8]) + r[5]*(at[5]+at[7]) + r[6]*at[6] - own*from[mode][p]
		}
	}
}
