package sheet

import (
	"fmt"
	"math"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// Pages is the drawing of [SVG] as pages to print, each a drawing of one sheet of
// paper, 1000 wide, with at least 10 mm left empty all round. A page ends between
// lines of bars, before a section or a phrase where there is one near its end; the
// chart is on as few pages as hold it, drawn up to a tenth smaller where that spares
// one. The legend and, where they fit, the notes are kept whole. From the second on
// pages are headed by title and number.
//
// A line of bars, or a paragraph, that is higher than a page has one alone, drawn the
// smaller for it. Of a size of paper that does not exist Pages panics.
func Pages(c chart.Chart, a *function.Analysis, s Style, p Paper) [][]byte {
	d := newDrawing(c, a, s)
	f, broken := p.frame().fitted(d.measured())
	pages := make([][]byte, len(broken))
	for i, blocks := range broken {
		d.out.Reset()
		d.y = 0
		name, description := d.name(), d.description()
		if len(broken) > 1 {
			number := fmt.Sprintf("page %d of %d", i+1, len(broken))
			if i > 0 {
				d.runningHead(number)
			}
			name += ", " + number
			description += barsOf(blocks)
		}
		for _, b := range blocks {
			b.draw()
		}
		pages[i] = d.framed(f, name, description)
	}
	return pages
}

// frame is a sheet of paper around a drawing.
type frame struct {
	width, height string  // with units
	viewHeight    float64 // of a view that is pageWidth wide
	margin        float64 // that is left empty, in the view
	scale         float64 // at which the drawing is shown
	room          float64 // how far down it may go
}

// edge is how much of a drawing is empty all round, at the least.
const edge = 10

func (p Paper) frame() frame {
	size := papers[p]
	unit := pageWidth / size.width
	f := frame{
		width:      fmt.Sprint(size.width, size.unit),
		height:     fmt.Sprint(size.height, size.unit),
		viewHeight: size.height * unit,
		margin:     size.margin * unit,
	}
	f.scale = (pageWidth - 2*f.margin) / (pageWidth - 2*edge)
	f.room = (f.viewHeight-2*f.margin)/f.scale + 2*edge
	return f
}

// shrinks are the sizes at which pages may be drawn, where the larger ones take more.
var shrinks = [...]float64{1, .95, .9}

// fitted breaks blocks into the fewest pages of any size, in the largest that has
// as few.
func (f frame) fitted(blocks []block) (at frame, pages [][]block) {
	for _, size := range shrinks {
		smaller := f
		smaller.scale, smaller.room = f.scale*size, f.room/size
		if broken := paginate(blocks, smaller.room); pages == nil || len(broken) < len(pages) {
			at, pages = smaller, broken
		}
	}
	return at, pages
}

// framed is what is drawn, on its sheet of paper and in its middle.
func (d *drawing) framed(f frame, name, description string) []byte {
	scale := f.scale * min(1, f.room/(d.y+bottomMargin))
	x, y := number(pageWidth*(1-scale)/2), number(f.margin-edge*scale)
	body := fmt.Appendf(nil, `<g transform="translate(%s %s) scale(%.4g)">`+"\n%s</g>\n", x, y, scale, d.out.Bytes())
	return document(f.width, f.height, number(f.viewHeight), name, description, body)
}

// runningHead heads a page with the title, cut to a line, and the page's number.
func (d *drawing) runningHead(number string) {
	const size = numberSize
	d.y = topMargin + size
	room := pageWidth - 4*sideMargin - sans.width(number, size)
	title := wrap(d.name(), room-sans.width(" …", size), sans.in(size))
	if len(title) > 1 {
		title[0] += " …"
	}
	d.text(sideMargin, d.y, size, title[0], `fill="`+quiet+`"`)
	d.text(pageWidth-sideMargin, d.y, size, number, `text-anchor="end" fill="`+quiet+`"`)
}

// headRow is the height of a running head.
const headRow = topMargin + numberSize

// barsOf tells which bars stand on a page.
func barsOf(blocks []block) string {
	first, last := "", ""
	for _, b := range blocks {
		if b.line == nil {
			continue
		}
		if first == "" {
			first = b.line.bars[0].number
		}
		last = b.line.bars[len(b.line.bars)-1].number
	}
	switch {
	case first == "":
		return " This page has no bars."
	case first == last:
		return " This page has bar " + first + "."
	}
	return " This page has bars " + first + " to " + last + "."
}

// measured is the blocks in which there is something, with their heights.
func (d *drawing) measured() (all []block) {
	for _, b := range d.blocks() {
		top, drawn := d.y, d.out.Len()
		b.draw()
		if b.height = d.y - top; d.out.Len() > drawn {
			all = append(all, b)
		}
	}
	return all
}

// What it costs to end a page, in pages left empty. A page costs more than all that
// may be wrong with how it ends, so that there are as few as will do.
const (
	aPage        = 100
	afterHeading = 10
	inBar        = 1
	inEndings    = .5
	inPhrase     = .3
	beforePhrase = .1 // or what else begins a line, such as a repeat
	inNotes      = 1
	aloneOnPage  = 1 // a line of bars, or the legend, with none before it
)

// price is what it costs to end a page before a line of bars.
func (l *line) price() float64 {
	switch first := &l.bars[0]; {
	case first.index == 0 && !first.rest:
		return afterHeading
	case first.rest:
		return inBar
	case first.ending != "" || first.within:
		return inEndings
	case first.section != "":
		return 0
	case first.breaks:
		return beforePhrase
	}
	return inPhrase
}

// isAlone reports whether a page other than the first has but a line of bars, or
// neither bars nor notes.
func isAlone(page []block) bool {
	lines, notes := 0, 0
	for _, b := range page {
		switch {
		case b.line != nil:
			lines++
		case b.isNote:
			notes++
		}
	}
	return lines == 1 || lines == 0 && notes == 0
}

// paginate breaks blocks into pages, at the least cost: of all ways to break them,
// tried from the last block backwards, in time that grows with blocks times those
// that a page holds. Of equal ones that is taken whose first page has the most.
func paginate(blocks []block, room float64) (pages [][]block) {
	type way struct {
		price float64
		next  int // the block with which the next page begins
	}
	best := make([]way, len(blocks)+1)
	for i := len(blocks) - 1; i >= 0; i-- {
		best[i].price = math.Inf(1)
		height := float64(bottomMargin)
		if i > 0 {
			height += headRow
		}
		for k := i; k < len(blocks); k++ {
			if height += blocks[k].height; k > i && height > room {
				break
			}
			price := aPage + best[k+1].price
			if k+1 < len(blocks) {
				price += blocks[k+1].price + max(0, 1-height/room)
			}
			if i > 0 && isAlone(blocks[i:k+1]) {
				price += aloneOnPage
			}
			if price <= best[i].price {
				best[i] = way{price, k + 1}
			}
		}
	}
	for i := 0; i < len(blocks); i = best[i].next {
		pages = append(pages, blocks[i:best[i].next])
	}
	return pages
}
