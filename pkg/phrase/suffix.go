package phrase

// suffixes sorts the suffixes of a text of small numbers, by doubling the
// length compared, and gives for each but the first how many numbers it shares
// with the one sorted before it. U. Manber and G. Myers, SIAM Journal on
// Computing 22 (1993); T. Kasai et al., Combinatorial Pattern Matching (2001).
// Time grows with n log n.
func suffixes(text []int32) (sorted, shared []int32) {
	n := int32(len(text))
	sorted, shared = make([]int32, n), make([]int32, n)
	if n == 0 {
		return sorted, shared
	}
	rank, next := make([]int32, n), make([]int32, n)
	most := n
	for i, x := range text {
		rank[i], sorted[i] = x, int32(i)
		most = max(most, x)
	}
	// order is a stable counting sort by numbers from 0 to most.
	room, count := make([]int32, n), make([]int32, most+2)
	order := func(key func(i int32) int32) {
		clear(count)
		for _, s := range sorted {
			count[key(s)+1]++
		}
		for k := range most {
			count[k+1] += count[k]
		}
		for _, s := range sorted {
			k := key(s)
			room[count[k]] = s
			count[k]++
		}
		sorted, room = room, sorted
	}
	first := func(i int32) int32 { return rank[i] }
	for width := int32(0); ; width = max(1, 2*width) {
		second := func(i int32) int32 { // past the end is before all
			if width > 0 && i+width < n {
				return rank[i+width] + 1
			}
			return 0
		}
		if width > 0 {
			order(second)
		}
		order(first)
		next[sorted[0]] = 0
		for k := int32(1); k < n; k++ {
			a, b := sorted[k-1], sorted[k]
			next[b] = next[a]
			if rank[a] != rank[b] || second(a) != second(b) {
				next[b]++
			}
		}
		rank, next = next, rank
		if rank[sorted[n-1]] == n-1 {
			break
		}
	}
	common := int32(0)
	for i := range n {
		if rank[i] == 0 {
			common = 0
			continue
		}
		j := sorted[rank[i]-1]
		for i+common < n && j+common < n && text[i+common] == text[j+common] {
			common++
		}
		shared[rank[i]] = common
		common = max(0, common-1)
	}
	return sorted, shared
}
