package function

// spread sets what comes to each key from all others, to owe its tonic or to
// start on it.
func (l *lattice) spread(toOpen, toThin, from *[keyCount]float64) {
	for mode := range modeCount {
		x := fold(from, l.modes[major][mode], l.modes[minor][mode])
		stay := l.modes[mode][mode]
		for c := range 12 {
			key := keyAt[mode][c]
			toOpen[key] = l.open.around(&x, c) - stay*l.open[0]*from[key]
			toThin[key] = l.thin.around(&x, c) - stay*l.thin[0]*from[key]
		}
	}
}

// spreadBack is spread from the arrivals' side: what each key may hope for by
// leaving it.
func (l *lattice) spreadBack(away, inOpen, inThin *[keyCount]float64) {
	for mode := range modeCount {
		open := fold(inOpen, l.modes[mode][major], l.modes[mode][minor])
		thin := fold(inThin, l.modes[mode][major], l.modes[mode][minor])
		stay := l.modes[mode][mode]
		for c := range 12 {
			key := keyAt[mode][c]
			away[key] = l.open.around(&open, c) + l.thin.around(&thin, c) - stay*(l.open[0]*inOpen[key]+l.thin[0]*inThin[key])
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
