package evaluate

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"fifthwise/pkg/function"
)

// WriteWeights writes a line for each term, its name, a tab and its cost in
// hundredths: "fit major ii\t1.38".
func WriteWeights(out io.Writer, w function.Weights) error {
	b := bufio.NewWriter(out)
	for t, name := range function.Terms() {
		fmt.Fprintf(b, "%s\t%s\n", name, strconv.FormatFloat(hundredths(w[t]), 'f', -1, 64))
	}
	return b.Flush()
}

// Rounded is the weights as [WriteWeights] writes them.
func Rounded(w function.Weights) function.Weights {
	for t := range w {
		w[t] = hundredths(w[t])
	}
	return w
}

func hundredths(x float64) float64 { return math.Round(x*100)/100 + 0 } // no -0

// maxCost bounds a cost: by far more than a reading can be worth.
const maxCost = 100

// ReadWeights reads what [WriteWeights] writes. Terms that have no line keep
// their cost in [function.Default]; empty lines and those that start with # are
// passed over. The first faulty line stops the reading; the error names it.
func ReadWeights(in io.Reader) (function.Weights, error) {
	w := function.Default()
	names := function.Terms()
	seen := make([]bool, len(names))
	lines := bufio.NewScanner(in)
	n := 1
	for ; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" || line[0] == '#' {
			continue
		}
		name, cost, tab := strings.Cut(line, "\t")
		if !tab {
			return w, fmt.Errorf("line %d: expected the name of a term, a tab and a cost, not %q", n, line)
		}
		t := slices.Index(names, strings.TrimSpace(name))
		if t < 0 {
			return w, fmt.Errorf("line %d: no term is called %q", n, strings.TrimSpace(name))
		}
		if seen[t] {
			return w, fmt.Errorf("line %d: %q has a cost already", n, names[t])
		}
		x, err := strconv.ParseFloat(strings.TrimSpace(cost), 64)
		if err != nil || !(math.Abs(x) <= maxCost) {
			return w, fmt.Errorf("line %d: expected a number from %d to %d, not %q", n, -maxCost, maxCost, strings.TrimSpace(cost))
		}
		w[t], seen[t] = x, true
	}
	if err := lines.Err(); err != nil {
		return w, fmt.Errorf("line %d: %w", n, err)
	}
	return w, nil
}
