package sheet

import (
	"bytes"
	"encoding"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

var (
	_ encoding.TextMarshaler   = A4
	_ encoding.TextUnmarshaler = (*Paper)(nil)
)

var sizes = []Paper{A4, Letter}

// TestGoldenPages holds the pages of one chart, byte for byte.
func TestGoldenPages(t *testing.T) {
	s := sampleOf(t, "sixtyfour")
	pages := Pages(s.chart, &s.analysis, Style{Steps: true}, A4)
	require.Len(t, pages, 2)
	for i, page := range pages {
		file := filepath.Join("testdata", fmt.Sprintf("%s.page%d.svg", s.name, i+1))
		if *update {
			require.NoError(t, os.WriteFile(file, page, 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(page))
	}
}

// TestNumberOfPages: with lines of some 26 mm, a page of A4 has nine, one of Letter
// eight, and one more where they are drawn a tenth smaller.
func TestNumberOfPages(t *testing.T) {
	tests := []struct {
		chart      string
		steps      bool
		a4, letter int
	}{
		{"eight", true, 1, 1},
		{"thirtytwo", false, 1, 1},
		{"thirtytwo", true, 1, 2},
		{"sixtyfour", false, 2, 2},
		{"sixtyfour", true, 2, 2},
		{"hundredtwenty", false, 3, 4},
		{"hundredtwenty", true, 4, 4},
	}
	for _, tt := range tests {
		s := sampleOf(t, tt.chart)
		for p, want := range map[Paper]int{A4: tt.a4, Letter: tt.letter} {
			pages := Pages(s.chart, &s.analysis, Style{Steps: tt.steps}, p)
			assert.Len(t, pages, want, "%s, steps %v, %s", tt.chart, tt.steps, p)
			assert.Equal(t, pages, Pages(s.chart, &s.analysis, Style{Steps: tt.steps}, p), "the same twice")
		}
	}
}

// TestPages holds pages against the drawing of the chart: they have all of it once,
// in its order, each within its margins, and the bars of a line on one page.
func TestPages(t *testing.T) {
	for _, s := range samples(t) {
		for _, p := range sizes {
			t.Run(fmt.Sprint(s.name, " ", p), func(t *testing.T) {
				pages := Pages(s.chart, &s.analysis, Style{Steps: true}, p)
				on := checkPages(t, s.chart, &s.analysis, pages, p)
				d := newDrawing(s.chart, &s.analysis, Style{Steps: true})
				for _, l := range d.grid(&svgRuler).lines(d.bars) {
					for _, b := range l.bars {
						assert.Contains(t, on[d.spoken(&b)], on[d.spoken(&l.bars[0])][0], "bars %s and %s", l.bars[0].number, b.number)
					}
				}
			})
		}
	}
}

// sheetOfPaper is a page, taken apart.
type sheetOfPaper struct {
	title, description string
	head               []*element // texts of the running head
	drawn              []*element // what the drawing has too
	at, scale          float64    // how far down it begins
}

var transform = regexp.MustCompile(`^translate\((\d+(?:\.\d)?) (\d+(?:\.\d)?)\) scale\((0\.\d+)\)$`)

func sheetOf(t failing, page []byte, p Paper, n int) (s sheetOfPaper) {
	all, err := elements(page)
	require.NoError(t, err)
	size := papers[p]
	a := all[0].attributes
	assert.Equal(t, fmt.Sprint(size.width, size.unit), a["width"])
	assert.Equal(t, fmt.Sprint(size.height, size.unit), a["height"])
	var width, height float64
	_, err = fmt.Sscanf(a["viewBox"], "0 0 %f %f", &width, &height)
	require.NoError(t, err)
	assert.InDelta(t, size.height/size.width, height/width, 1e-4)
	s.title, s.description = all[1].text, all[2].text
	require.Equal(t, []string{"svg", "title", "desc", "rect", "g"}, []string{all[0].name, all[1].name, all[2].name, all[3].name, all[4].name})
	m := transform.FindStringSubmatch(all[4].attributes["transform"])
	require.NotNil(t, m, all[4].attributes)
	across, _ := strconv.ParseFloat(m[1], 64)
	s.at, _ = strconv.ParseFloat(m[2], 64)
	s.scale, _ = strconv.ParseFloat(m[3], 64)
	assert.InDelta(t, pageWidth, 2*across+pageWidth*s.scale, .2, "as much on the right as on the left")
	s.drawn = all[5:]
	if n > 0 {
		s.head, s.drawn = s.drawn[:2], s.drawn[2:]
	}
	return s
}

var moveTo = regexp.MustCompile(`^M(\S+) (\S+?)([a-zA-Z].*)$`)

// down is how far down an element is drawn, and what it is but for that.
func down(e *element) (y float64, is string) {
	switch e.name {
	case "text", "rect":
		return e.number("y"), fmt.Sprint(e.name, e.attributes["x"], e.attributes["font-size"], e.text)
	case "circle":
		return e.number("cy"), "circle" + e.attributes["cx"]
	case "path":
		m := moveTo.FindStringSubmatch(e.attributes["d"])
		y, err := strconv.ParseFloat(m[2], 64)
		if err != nil {
			panic(err)
		}
		return y, "path" + m[1] + e.attributes["stroke"]
	}
	return math.NaN(), e.name + e.attributes["aria-label"]
}

// checkPages holds pages against the drawing with steps, and returns on which of
// them each bar stands, by what is said of it.
func checkPages(t failing, c chart.Chart, a *function.Analysis, pages [][]byte, p Paper) map[string][]int {
	whole, err := elements(SVG(c, a, Style{Steps: true}))
	require.NoError(t, err)
	var want, got []string
	for _, e := range whole[4:] {
		_, is := down(e)
		want = append(want, is)
	}
	on := map[string][]int{}
	size := papers[p]
	margin := size.margin / size.width * pageWidth
	for i, page := range pages {
		s := sheetOf(t, page, p, i)
		title := whole[1].text
		if number := fmt.Sprintf("page %d of %d", i+1, len(pages)); len(pages) > 1 {
			title += ", " + number
			assert.Contains(t, s.description, " This page has ")
			if i > 0 {
				require.Equal(t, "text", s.head[0].name)
				assert.True(t, strings.HasPrefix(strings.Join(strings.Fields(whole[1].text), ""), strings.Join(strings.Fields(strings.TrimSuffix(s.head[0].text, "…")), "")), s.head[0].text)
				assert.Equal(t, number, s.head[1].text)
			}
		}
		assert.Equal(t, title, s.title)
		assert.True(t, strings.HasPrefix(s.description, whole[2].text))
		for _, e := range append(s.head, s.drawn...) {
			y, is := down(e)
			y = s.at + y*s.scale
			assert.False(t, y < margin || y > size.height/size.width*pageWidth-margin, "%s at %v", is, y)
			if label := e.attributes["aria-label"]; label != "" {
				on[label] = append(on[label], i)
			}
		}
		for _, e := range s.drawn {
			_, is := down(e)
			got = append(got, is)
		}
	}
	assert.Equal(t, want, got)
	return on
}

// TestHighBlocks: what is higher than a page is drawn smaller, so that it is whole.
func TestHighBlocks(t *testing.T) {
	s := sampleOf(t, "thirtytwo")
	s.chart.Title = strings.Repeat("a title without end ", 200)
	for _, p := range sizes {
		pages := Pages(s.chart, &s.analysis, Style{Steps: true}, p)
		checkPages(t, s.chart, &s.analysis, pages, p)
		assert.Less(t, sheetOf(t, pages[0], p, 0).scale, p.frame().scale*.9)
		assert.GreaterOrEqual(t, sheetOf(t, pages[1], p, 1).scale, p.frame().scale*.9-1e-3)
	}
}

// Without a reading, and without bars, there are pages too.
func TestPagesOfLittle(t *testing.T) {
	s := sampleOf(t, "sixtyfour")
	pages := Pages(s.chart, &function.Analysis{}, Style{}, A4)
	require.NotEmpty(t, pages)
	assert.Contains(t, string(bytes.Join(pages, nil)), `aria-label="bar 64`)
	assert.Len(t, Pages(chart.Chart{}, &function.Analysis{}, Style{}, Letter), 1)
}

// TestPaginate holds pages of random blocks against all ways to break these: none
// has fewer, none with as many costs less, and none is higher than a page but by a
// block of its own.
func TestPaginate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const room = 500
		blocks := make([]block, rapid.IntRange(1, 12).Draw(t, "blocks"))
		for i := range blocks {
			b := &blocks[i]
			b.height = float64(rapid.IntRange(10, 250).Draw(t, "height"))
			b.price = float64(rapid.IntRange(0, 10).Draw(t, "price")) / 10
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				b.isNote = true
			case 1:
			default:
				b.line = &line{}
			}
		}
		if rapid.Bool().Draw(t, "high") {
			blocks[len(blocks)/2].height = 900
		}
		pages := paginate(blocks, room)
		var all []block
		for i, page := range pages {
			all = append(all, page...)
			assert.True(t, heightOf(page, i) <= room || len(page) == 1)
		}
		require.Equal(t, len(blocks), len(all))
		for i := range all {
			assert.Equal(t, blocks[i].height, all[i].height)
		}
		fewest, least := math.MaxInt, math.Inf(1)
		var split func(first int, so [][]block)
		split = func(first int, so [][]block) {
			if first == len(blocks) {
				if n, price := len(so), priceOf(so, room); n < fewest || n == fewest && price < least {
					fewest, least = n, price
				}
				return
			}
			for end := first + 1; end <= len(blocks); end++ {
				page := blocks[first:end]
				if len(page) > 1 && heightOf(page, len(so)) > room {
					break
				}
				split(end, append(so[:len(so):len(so)], page))
			}
		}
		split(0, nil)
		assert.Len(t, pages, fewest)
		assert.InDelta(t, least, priceOf(pages, room), 1e-9)
	})
}

func heightOf(page []block, n int) float64 {
	height := float64(bottomMargin)
	if n > 0 {
		height += headRow
	}
	for _, b := range page {
		height += b.height
	}
	return height
}

// priceOf is what is wrong with pages: what stays empty before the last, where they
// end, and what stands alone.
func priceOf(pages [][]block, room float64) (price float64) {
	for i, page := range pages {
		if i > 0 {
			price += page[0].price
			if isAlone(page) {
				price += aloneOnPage
			}
		}
		if i+1 < len(pages) {
			price += max(0, 1-heightOf(page, i)/room)
		}
	}
	return price
}

// TestWherePagesEnd ends pages among lines of which the first holds ten.
func TestWherePagesEnd(t *testing.T) {
	const height, room = 100, bottomMargin + 10*100
	section, phrase, ending, rest := placed{bar: &bar{section: "B", breaks: true}}, placed{bar: &bar{breaks: true}}, placed{bar: &bar{within: true}}, placed{bar: &bar{}, rest: true}
	legend := block{height: 50}
	tests := []struct {
		name  string
		lines int
		begin map[int]placed // with what these lines begin
		below []block
		want  []int // the blocks with which later pages begin
	}{
		{"one page", 10, nil, nil, nil},
		{"anywhere", 14, nil, nil, []int{10}},
		{"before a section near by", 14, map[int]placed{8: section}, nil, []int{8}},
		{"not before one far away", 14, map[int]placed{6: section}, nil, []int{10}},
		{"before a phrase near by", 14, map[int]placed{9: phrase}, nil, []int{9}},
		{"a section rather than a phrase", 14, map[int]placed{9: section, 10: phrase}, nil, []int{9}},
		{"not in an ending", 14, map[int]placed{10: ending}, nil, []int{9}},
		{"not in a bar", 14, map[int]placed{9: rest, 10: rest}, nil, []int{8}},
		{"no line alone", 11, nil, nil, []int{9}},
		{"no more pages for a section", 19, map[int]placed{8: section}, nil, []int{10}},
		{"the legend with lines", 10, nil, []block{legend}, []int{8}},
		{"notes whole", 8, nil, append([]block{legend}, notes(10, 20)...), []int{9}},
		{"the legend with notes", 10, nil, append([]block{legend}, notes(10, 20)...), []int{10}},
		{"notes in two, as whole they take a page more", 8, nil, notes(50, 20), []int{8 + 10}},
		{"notes of more than a page", 8, nil, notes(60, 20), []int{8, 8 + 48}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var blocks []block
			for i := range tt.lines {
				first, ok := tt.begin[i]
				if !ok {
					first.bar = &bar{}
				}
				first.index = i
				l := &line{bars: []placed{first}}
				blocks = append(blocks, block{line: l, height: height, price: l.price()})
			}
			var got []int
			end := 0
			for _, page := range paginate(append(blocks, tt.below...), room) {
				if end > 0 {
					got = append(got, end)
				}
				end += len(page)
			}
			assert.Equal(t, tt.want, got)
		})
	}
}

// notes are paragraphs, the first with what heads them.
func notes(n int, height float64) (all []block) {
	for i := range n {
		b := block{isNote: true, height: height, price: inNotes}
		if i == 0 {
			b.price = 0
		}
		all = append(all, b)
	}
	return all
}

func TestPaper(t *testing.T) {
	for i := range papers {
		p := Paper(i)
		text, err := p.MarshalText()
		require.NoError(t, err)
		var again Paper
		require.NoError(t, again.UnmarshalText(bytes.ToUpper(text)))
		assert.Equal(t, p, again)
		f := p.frame()
		assert.InDelta(t, f.margin, pageWidth*(1-f.scale)/2+edge*f.scale, 1e-9, "a drawing reaches the margins")
	}
	assert.Equal(t, "a4", Paper(0).String())
	_, err := ParsePaper("A5")
	assert.EqualError(t, err, `expected a size of paper: a4 or letter at offset 0 of "A5"`)
	_, err = Paper(9).MarshalText()
	assert.EqualError(t, err, "size 9 of paper does not exist")
	assert.Equal(t, "paper(9)", Paper(9).String())
	// 10 mm, of 210 mm (ISO 216) and of 8.5 in (ANSI/ASME Y14.1) of 25.4 mm.
	assert.InDelta(t, 47.62, A4.frame().margin, .01)
	assert.InDelta(t, 46.32, Letter.frame().margin, .01)
}
