package sheet

import (
	"fmt"
	"strings"

	"fifthwise/pkg/pitch"
)

// Paper is a size of paper, upright. The zero value is A4.
type Paper uint8

// The sizes.
const (
	A4     Paper = iota // 210 × 297 mm (ISO 216)
	Letter              // 8.5 × 11 in (ANSI/ASME Y14.1, size A)
)

var papers = [...]struct {
	name, unit    string
	width, height float64 // in the unit
	margin        float64 // 10 mm, in the unit: beyond the edge that printers cannot print on
}{
	{"a4", "mm", 210, 297, 10},
	{"letter", "in", 8.5, 11, 10 / 25.4},
}

// String is the size's name, as CSS has it too: "a4", "letter".
func (p Paper) String() string {
	if int(p) < len(papers) {
		return papers[p].name
	}
	return fmt.Sprintf("paper(%d)", uint8(p))
}

// ParsePaper reads the name of a size in any case.
func ParsePaper(s string) (Paper, error) {
	for i := range papers {
		if strings.EqualFold(s, papers[i].name) {
			return Paper(i), nil
		}
	}
	return 0, &pitch.SyntaxError{Input: s, Msg: "expected a size of paper: a4 or letter"}
}

// MarshalText prints as [Paper.String] does.
func (p Paper) MarshalText() ([]byte, error) {
	if int(p) >= len(papers) {
		return nil, fmt.Errorf("size %d of paper does not exist", p)
	}
	return []byte(p.String()), nil
}

// UnmarshalText reads what [ParsePaper] reads.
func (p *Paper) UnmarshalText(text []byte) (err error) {
	*p, err = ParsePaper(string(text))
	return err
}
