package sheet

// face is the widths of a typeface's characters from space to tilde, in
// thousandths of their size (Adobe, font metrics of the core 14 fonts, from
// memory), and by how much others of its kind may be wider.
type face struct {
	widths    [95]uint16
	tolerance float64
}

var (
	// sans is Helvetica; Arial and Liberation Sans are as wide, DejaVu Sans is
	// wider.
	sans = face{tolerance: 1.15, widths: [...]uint16{
		278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, // space to /
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, // 0 to ?
		1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, // @ to O
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, // P to _
		333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, // ` to o
		556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, // p to ~
	}}
	// bold is Helvetica Bold.
	bold = face{tolerance: 1.2, widths: [...]uint16{
		278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
		556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
		975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
		667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
		333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
		611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
	}}
	// serif is Times; Liberation Serif is as wide, Georgia and DejaVu Serif are
	// wider.
	serif = face{tolerance: 1.25, widths: [...]uint16{
		250, 333, 408, 500, 500, 833, 778, 180, 333, 333, 500, 564, 250, 333, 250, 278,
		500, 500, 500, 500, 500, 500, 500, 500, 500, 500, 278, 278, 564, 564, 564, 444,
		921, 722, 667, 667, 722, 611, 556, 722, 722, 333, 389, 722, 611, 889, 722, 722,
		556, 722, 667, 556, 611, 722, 722, 944, 722, 722, 611, 333, 278, 333, 469, 500,
		333, 444, 500, 444, 500, 444, 333, 500, 500, 278, 278, 500, 278, 778, 500, 500,
		500, 500, 333, 389, 278, 500, 500, 722, 500, 500, 444, 480, 200, 480, 541,
	}}
)

// Widths of characters beyond ASCII: a wide letter's, and a square from the
// first script whose characters are as wide as high. Accidentals are 472 and 484
// in DejaVu Sans, which most typefaces borrow them from where it is installed.
const (
	signWidth   = 500
	otherWidth  = 650
	squareWidth = 1000
	firstSquare = 0x1100
	lastSquare  = 0x1fffff
)

// width is the room of a text of a size, in pixels.
func (f *face) width(s string, size float64) float64 {
	return f.narrow(s, size) * f.tolerance
}

// narrow is the width of a text where the typeface is no wider than these.
func (f *face) narrow(s string, size float64) float64 {
	sum := 0
	for _, r := range s {
		switch {
		case r == '♭' || r == '♯':
			sum += signWidth
		case r >= ' ' && r <= '~':
			sum += int(f.widths[r-' '])
		case r >= firstSquare && r <= lastSquare && (r < 0x2000 || r > 0x2bff):
			sum += squareWidth
		default:
			sum += otherWidth
		}
	}
	return float64(sum) / 1000 * size
}

// in measures text of a size.
func (f *face) in(size float64) func(string) float64 {
	return func(s string) float64 { return f.width(s, size) }
}
