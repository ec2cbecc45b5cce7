package function

// doors holds a number for each way into each key.
type doors [doorCount][keyCount]float64

// kernel is that of regions that begin by a door.
func (l *lattice) kernel(d door) *kernel {
	if d == doorTonic {
		return &l.thin
	}
	return &l.open
}

// spread sets what comes to each key from all others, by each door.
func (l *lattice) spread(to, from *doors) {
	m := &l.modes
	l.carry(to, from, &[modeCount][modeCount]float64{{m[major][major], m[minor][major]}, {m[major][minor], m[minor][minor]}})
}

// spreadBack is spread from the arrivals' side: what each key may hope for by
// leaving it.
func (l *lattice) spreadBack(away, in *doors) { l.carry(away, in, &l.modes) }

// carry sums what all other keys bring to each key: by its mode and theirs, and
// by the distance of the signatures.
func (l *lattice) carry(to, from *doors, modes *[modeCount][modeCount]float64) {
	for d := range doorCount {
		k := l.kernel(d)
		for mode := range modeCount {
			x := fold(&from[d], modes[mode][major], modes[mode][minor])
			stay := modes[mode][mode] * k[0]
			for c := range 12 {
				key := keyAt[mode][c]
				to[d][key] = k.around(&x, c) - stay*from[d][key]
			}
		}
	}
}

// fold brings both modes onto the circle, each with its factor, twice round so
// that no index wraps.
func fold(from *[keyCount]float64, ofMajor, ofMinor float64) (x [24]float64) {
	for c := range 12 {
		x[c] = from[keyAt[major][c]]*ofMajor + from[keyAt[minor][c]]*ofMinor
		x[c+12] = x[c]
	}
	return x
}

// around sums what stands round place c of the circle, both ways at once.
func (k *kernel) around(x *[24]float64, c int) float64 {
	at := x[c : c+12 : c+12]
	return k[0]*at[0] + k[1]*(at[1]+at[11]) + k[2]*(at[2]+at[10]) + k[3]*(at[3]+at[9]) +
		k[4]*(at[4]+at[8]) + k[5]*(at[5]+at[7]) + k[6]*at[6]
}
