package function

import "math"

// traits is what the terms of place ask of a column.
type traits struct {
	first, last, opens, closes, loop, downbeat, wide, sequence, frames, leans, leadsOn, again, back bool
	long                                                                                            float64 // doublings of its length beyond a bar
	moves                                                                                           Term    // where a change of key before it would fall
}

// A usage is a term and how often it applies.
type usage struct {
	term  Term
	times float64
}

// uses appends the terms that apply to an entry of a place.
func (t *traits) uses(dst []usage, p place, rich float64) []usage {
	flag := func(on bool, tonic, dominant, other Term) {
		if u := [placeCount]Term{tonic, dominant, other, other, other}[p]; on && u != none {
			dst = append(dst, usage{u, 1})
		}
	}
	flag(t.first, TonicFirst, DominantFirst, OtherFirst)
	flag(t.last, TonicLast, DominantLast, OtherLast)
	flag(t.opens, TonicOpens, DominantOpens, none)
	flag(t.closes, TonicCloses, DominantCloses, none)
	flag(t.frames, TonicFrames, none, none)
	flag(t.again, TonicAgain, none, none)
	flag(t.loop, TonicLoop, DominantLoop, none)
	flag(t.downbeat, TonicDownbeat, DominantDownbeat, none)
	flag(t.wide, TonicWide, none, none)
	dst = append(dst, usage{[placeCount]Term{TonicLong, DominantLong, OtherLong, OtherLong, OtherLong}[p], t.long})
	if t.back && p == placeDominant {
		dst = append(dst, usage{DominantBack, rich})
	}
	switch p {
	case placeBorrowed:
		dst = append(dst, usage{BorrowedLong, rich * max(0, min(2, t.long-1))})
	case placeForeign:
		dst = append(dst, usage{ForeignLong, max(0, min(2, t.long-1))})
	}
	return dst
}

// none stands where no term applies.
const none = termCount

// A price is the factors of a column's traits.
type price struct {
	of     traits
	place  [2 * placeCount]float64 // by place, then the same for entries that want a blues
	move   float64                 // of a change of key before it
	thin   float64                 // further, where it is the new key's tonic
	settle [2]float64              // where it is the tonic that a region owes: reached otherwise, by a cadence
}

// priceOf finds the place of the price of traits, which many columns share; it looks
// back some way only.
func (l *lattice) priceOf(t traits) int32 {
	for i := max(0, len(l.prices)-32); i < len(l.prices); i++ {
		if l.prices[i].of == t {
			return int32(i)
		}
	}
	p := price{of: t}
	for place := range placeCount {
		p.place[place] = l.product(t.uses(l.room[:0], place, l.style.rich))
		p.place[placeCount+place] = p.place[place] * l.blue
	}
	for by := range p.settle {
		p.settle[by] = l.product(l.settleUses(l.room[:0], &t, by))
	}
	p.move = l.product(l.moveUses(l.room[:0], &t))
	p.thin = l.product(l.thinUses(l.room[:0], &t))
	l.prices = append(l.prices, p)
	return int32(len(l.prices) - 1)
}

// price is a column's.
func (l *lattice) price(c *column) *price { return &l.prices[c.price] }

// moveUses appends the terms of any change of key before a column.
func (l *lattice) moveUses(dst []usage, t *traits) []usage {
	dst = append(l.style.uses(dst), usage{ChangeKey, 1}, usage{t.moves, 1})
	if t.sequence {
		dst = append(dst, usage{ChangeAtSequence, 1})
	}
	if t.opens {
		dst = append(dst, usage{ChangeAtSectionRich, l.style.rich})
	}
	return dst
}

// thinUses appends those of a region that starts on its tonic with a column.
func (l *lattice) thinUses(dst []usage, t *traits) []usage {
	if t.last && !t.opens && t.long < 2 {
		dst = append(dst, usage{EnterLast, 1})
	}
	if t.opens || t.long >= 1 {
		return dst
	}
	return append(dst, usage{EnterTonicRich, l.style.rich})
}

// product is the factor of several terms.
func (l *lattice) product(used []usage) float64 {
	factor, cost := 1.0, 0.0
	for _, u := range used {
		switch u.times {
		case 0:
		case 1:
			factor *= l.factor[u.term]
		case -1:
			factor /= l.factor[u.term]
		default:
			cost += l.weights[u.term] * u.times
		}
	}
	if cost == 0 {
		return factor
	}
	return factor * math.Exp(-cost/temperature)
}

// settleUses appends the terms of a region's tonic reached in a column, by a
// cadence (1) or otherwise (0).
func (l *lattice) settleUses(dst []usage, t *traits, by int) []usage {
	dst = append(dst, usage{SettleLong, t.long})
	if t.leans {
		dst = append(dst, usage{SettleLean, 1})
	}
	if t.leadsOn {
		times := l.style.rich
		if t.leans {
			times *= max(0, 1-4*l.style.blue)
		}
		dst = append(dst, usage{SettleLeadsOn, times})
	}
	if by == 0 {
		return append(dst, usage{SettleOther, 1})
	}
	dst = append(dst, usage{SettleCadence, 1}, usage{SettleRich, l.style.rich * max(0, min(1, t.long))})
	if t.closes || t.last {
		dst = append(dst, usage{SettleCloses, l.style.rich})
	}
	if t.sequence {
		dst = append(dst, usage{SettleSequence, l.style.rich})
	}
	if t.opens {
		dst = append(dst, usage{SettleAtSection, l.style.rich})
	}
	if t.long < 1 && !t.closes && !t.last && !t.sequence {
		dst = append(dst, usage{SettleBare, l.style.rich})
	}
	return dst
}
