package sheet

// Widths of Helvetica's characters from space to tilde, in thousandths of their
// size (Adobe, font metrics of the core 14 fonts, from memory). Other sans
// serifs are as wide or, as DejaVu Sans, wider by tolerance.
var helvetica = [...]uint16{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, // space to /
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, // 0 to ?
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, // @ to O
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, // P to _
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, // ` to o
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, // p to ~
}

const tolerance = 1.15

// other are characters beyond ASCII: as wide as a wide letter, and as high as
// wide from the first script whose characters are.
const (
	otherWidth  = 650
	squareWidth = 1000
	firstSquare = 0x1100
	lastSquare  = 0x1fffff
)

// widthOf is the room of a text of a size, in pixels.
func widthOf(s string, size float64) float64 {
	sum := 0
	for _, r := range s {
		switch {
		case r >= ' ' && r <= '~':
			sum += int(helvetica[r-' '])
		case r >= firstSquare && r <= lastSquare && (r < 0x2000 || r > 0x2bff):
			sum += squareWidth
		default:
			sum += otherWidth
		}
	}
	return float64(sum) / 1000 * size * tolerance
}

// inSize measures text of a size.
func inSize(size float64) func(string) float64 {
	return func(s string) float64 { return widthOf(s, size) }
}
