package sheet

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// browserVariable names the path of a Chromium. Where it is not set, the tests
// that measure drawings in one are left out.
const browserVariable = "FIFTHWISE_CHROMIUM"

// measure is a script that measures the drawings of its page.
//
//go:embed testdata/measure.js
var measure string

// measured is what the script finds, in the units of a drawing.
type measured struct {
	Installed bool // the fonts that were asked for are there
	Sheets    []measuredSheet
	Widths    map[string][]float64 // of the characters from space to tilde, by font, in thousandths
}

type measuredSheet struct {
	Width, Height float64
	Texts         []area // each run of characters of one size: its advance by the height of its ink
	Shapes        []area // paths and circles but curves
	Boxes         []area // of sections
}

// area is a rectangle with what it is of.
type area struct {
	Left, Top, Right, Bottom float64
	What                     string // the text, or the commands of a path
	Of                       int    // the number of the text element
}

// overlap is by how much two areas overlap, in the direction in which they do
// less; below 0, their distance.
func (a area) overlap(b area) float64 {
	return min(min(a.Right, b.Right)-max(a.Left, b.Left), min(a.Bottom, b.Bottom)-max(a.Top, b.Top))
}

func (a area) String() string {
	return fmt.Sprintf("%q at %.1f…%.1f, %.1f…%.1f", a.What, a.Left, a.Right, a.Top, a.Bottom)
}

// fonts that a reader may have.
type fonts struct{ name, sans, serif string }

var fontsOfReaders = []fonts{
	{name: "as asked for"},
	{"Liberation", "Liberation Sans", "Liberation Serif"},
	{"DejaVu", "DejaVu Sans", "DejaVu Serif"},
}

// in is a drawing in other fonts.
func (f fonts) in(svg []byte) string {
	if f.sans == "" {
		return string(svg)
	}
	own := serifType[len(`font-family="`) : len(serifType)-1]
	s := strings.ReplaceAll(string(svg), own, "'"+f.serif+"'")
	return strings.Replace(s, sansFamilies, "'"+f.sans+"'", 1)
}

// browse shows a page of drawings to the browser and returns what it measures.
func browse(t *testing.T, f fonts, drawings ...[]byte) measured {
	browser := os.Getenv(browserVariable)
	if browser == "" {
		t.Skipf("set %s to the path of a Chromium to measure drawings in it", browserVariable)
	}
	wanted := []string{}
	if f.sans != "" {
		wanted = []string{f.sans, f.serif}
	}
	names, err := json.Marshal(wanted)
	require.NoError(t, err)
	var page strings.Builder
	page.WriteString("<!doctype html><meta charset=utf-8>\n")
	for _, d := range drawings {
		page.WriteString(f.in(d))
	}
	fmt.Fprintf(&page, "<script type=application/json id=wanted>%s</script><pre id=found></pre><script>%s</script>\n", names, measure)
	dir := t.TempDir()
	file := filepath.Join(dir, "page.html")
	require.NoError(t, os.WriteFile(file, []byte(page.String()), 0o644))

	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	out, err := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--user-data-dir="+filepath.Join(dir, "profile"),
		"--dump-dom", "file://"+file).Output()
	require.NoError(t, err)
	_, from, ok := strings.Cut(string(out), `<pre id="found">`)
	require.True(t, ok, "the page was not loaded")
	found, _, _ := strings.Cut(from, "</pre>")
	var m measured
	require.NoError(t, json.Unmarshal([]byte(html.UnescapeString(found)), &m), "the script failed: %s", found)
	return m
}

// TestMeasured measures all drawings in a browser, in several fonts: no two texts
// meet, none leaves the drawing, none is crossed by a line or stands on a dot or
// an arrow's point, and names of sections stand in their boxes.
func TestMeasured(t *testing.T) {
	all := samples(t)
	drawings := make([][]byte, len(all))
	for i := range all {
		drawings[i] = all[i].svg
	}
	for _, f := range fontsOfReaders {
		t.Run(f.name, func(t *testing.T) {
			m := browse(t, f, drawings...)
			if !m.Installed {
				t.Skipf("%s and %s are not installed", f.sans, f.serif)
			}
			require.Len(t, m.Sheets, len(all))
			for i := range m.Sheets {
				t.Run(all[i].name, func(t *testing.T) {
					assert.NotEmpty(t, m.Sheets[i].Texts)
					assert.Empty(t, m.Sheets[i].faults())
				})
			}
		})
	}
}

// TestMeasuredPages measures pages of both sizes of paper in a browser: what holds
// of drawings, and that all that is on a page keeps to its margins.
func TestMeasuredPages(t *testing.T) {
	for _, f := range fontsOfReaders {
		for _, p := range sizes {
			t.Run(fmt.Sprint(f.name, " ", p), func(t *testing.T) {
				var names []string
				var pages [][]byte
				for _, s := range samples(t) {
					for i, page := range Pages(s.chart, &s.analysis, Style{Steps: true}, p) {
						names, pages = append(names, fmt.Sprint(s.name, " ", i+1)), append(pages, page)
					}
				}
				m := browse(t, f, pages...)
				if !m.Installed {
					t.Skipf("%s and %s are not installed", f.sans, f.serif)
				}
				require.Len(t, m.Sheets, len(pages))
				margin := p.frame().margin - allowed
				for i := range m.Sheets {
					s := &m.Sheets[i]
					assert.NotEmpty(t, s.Texts, names[i])
					assert.Empty(t, s.faults(), names[i])
					for _, a := range slices.Concat(s.Texts, s.Shapes, s.Boxes) {
						within := a.Left >= margin && a.Top >= margin && a.Right <= s.Width-margin && a.Bottom <= s.Height-margin
						assert.True(t, within, "%s: %v of %v × %v", names[i], a, s.Width, s.Height)
					}
				}
			})
		}
	}
}

// allowed is what areas may overlap by, in pixels: less than is seen.
const allowed = 0.5

// faults are what is wrong with a drawing.
func (s *measuredSheet) faults() (faults []string) {
	fault := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	for i, a := range s.Texts {
		if a.Left < -allowed || a.Top < -allowed || a.Right > s.Width+allowed || a.Bottom > s.Height+allowed {
			fault("%v leaves the drawing", a)
		}
		for _, b := range s.Texts[i+1:] {
			if a.Of != b.Of && a.overlap(b) > allowed {
				fault("%v meets %v", a, b)
			}
		}
		for _, b := range s.Shapes {
			if a.crossedBy(b) {
				fault("%v is crossed by %v", a, b)
			}
		}
		for _, b := range s.Boxes {
			if a.overlap(b) > 0 && (a.Left < b.Left || a.Right > b.Right || a.Top < b.Top || a.Bottom > b.Bottom) {
				fault("%v leaves %v", a, b)
			}
		}
	}
	return faults
}

// crossedBy reports whether a shape lies on a text. The box of a line across is
// without height, that of a bar line without width; brackets and the lines over
// endings are but lines too, and their boxes not what they cover.
func (a area) crossedBy(b area) bool {
	if strings.Contains(b.What, "H") && strings.Contains(b.What, "v") {
		b.Top = b.Bottom - 1
		if strings.Contains(b.What, fmt.Sprintf("v-%dH", endingHook)) || strings.HasSuffix(b.What, fmt.Sprintf("v%d", endingHook)) {
			b.Top, b.Bottom = b.Bottom-endingHook, b.Bottom-endingHook+1
		}
	}
	const thin = 0.1
	if b.Right-b.Left < thin {
		b.Left, b.Right = b.Left-allowed, b.Right+allowed+thin
	}
	if b.Bottom-b.Top < thin {
		b.Top, b.Bottom = b.Top-allowed, b.Bottom+allowed+thin
	}
	return a.overlap(b) > allowed
}

// TestFaultsAreFound draws what is wrong and expects it found.
func TestFaultsAreFound(t *testing.T) {
	const frame = `<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100" viewBox="0 0 200 100" font-family="%s">%s</svg>`
	tests := []struct{ name, drawing, want string }{
		{"nothing", `<text x="10" y="40" font-size="20">Dm7</text><text x="100" y="40" font-size="20">G7</text>`, ""},
		{"texts meet", `<text x="10" y="40" font-size="20">Dm7</text><text x="30" y="40" font-size="20">G7</text>`, `"Dm7".* meets "G7"`},
		{"a span meets a text", `<text x="10" y="40" font-size="20">D<tspan dy="-6">maj7</tspan></text><text x="60" y="34" font-size="20">G</text>`, `"maj7".* meets "G"`},
		{"beyond the edge", `<text x="180" y="40" font-size="20">Dm7</text>`, `"Dm7".* leaves the drawing`},
		{"below the edge", `<text x="10" y="98" font-size="20">g</text>`, `"g".* leaves the drawing`},
		{"on a bar line", `<text x="10" y="40" font-size="20">Dm7</text><path d="M20 10v44" stroke="black"/>`, `"Dm7".* is crossed by "M20 10v44"`},
		{"on a dot", `<text x="10" y="40" font-size="20">Dm7</text><circle cx="20" cy="32" r="2.4"/>`, `"Dm7".* is crossed by "dot"`},
		{"on a band", `<text x="10" y="40" font-size="20">Dm7</text><path d="M0 32H100" stroke="black"/>`, `"Dm7".* is crossed by "M0 32H100"`},
		{"beyond its box", `<rect x="5" y="20" width="20" height="30" rx="3" fill="none"/><text x="10" y="40" font-size="20">Dm7</text>`, `"Dm7".* leaves "box"`},
	}
	var drawings [][]byte
	for _, tt := range tests {
		drawings = append(drawings, fmt.Appendf(nil, frame, sansFamilies, tt.drawing))
	}
	m := browse(t, fonts{}, drawings...)
	require.Len(t, m.Sheets, len(tests))
	for i, tt := range tests {
		faults := m.Sheets[i].faults()
		if tt.want == "" {
			assert.Empty(t, faults, tt.name)
			continue
		}
		if assert.Len(t, faults, 1, tt.name) {
			assert.Regexp(t, tt.want, faults[0], tt.name)
		}
	}
}

// TestMetrics holds the widths of characters against the fonts of Liberation,
// which are made to be as wide.
func TestMetrics(t *testing.T) {
	m := browse(t, fontsOfReaders[1])
	if !m.Installed {
		t.Skip("the fonts of Liberation are not installed")
	}
	for name, f := range map[string]face{"sans": sans, "bold": bold, "serif": serif} {
		require.Len(t, m.Widths[name], len(f.widths))
		for i, want := range m.Widths[name] {
			assert.InDelta(t, want, float64(f.widths[i]), 1, "%q in %s", rune(' '+i), name)
		}
	}
}
