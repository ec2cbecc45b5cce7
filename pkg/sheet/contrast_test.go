package sheet

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// luminance is the relative luminance of a colour "#rrggbb" (WCAG 2.1,
// definition of relative luminance).
func luminance(t *testing.T, colour string) float64 {
	require.Len(t, colour, 7, "a colour is #rrggbb")
	n, err := strconv.ParseUint(colour[1:], 16, 32)
	require.NoError(t, err)
	linear := func(shift int) float64 {
		c := float64(n>>shift&0xff) / 255
		if c <= 0.03928 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(16) + 0.7152*linear(8) + 0.0722*linear(0)
}

// contrast is the ratio of two colours, from 1 to 21 (WCAG 2.1, definition of
// contrast ratio).
func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrastOfKnownColours(t *testing.T) {
	// The extremes follow from the definition; the greys are from memory: the
	// lightest that is enough on white and the next.
	assert.InDelta(t, 21, contrast(t, "#000000", "#ffffff"), 1e-9)
	assert.InDelta(t, 1, contrast(t, "#86265a", "#86265a"), 1e-9)
	assert.InDelta(t, 4.54, contrast(t, "#ffffff", "#767676"), 0.005)
	assert.InDelta(t, 4.48, contrast(t, "#ffffff", "#777777"), 0.005)
}

const (
	enoughForText  = 4.5 // WCAG 2.1, 1.4.3 contrast (minimum), for text of any size
	enoughForLines = 3.0 // WCAG 2.1, 1.4.11 non-text contrast
)

// TestContrast holds all that is drawn against its ground: the paper or the box
// drawn before in which it lies.
func TestContrast(t *testing.T) {
	for _, s := range samples(t) {
		t.Run(s.name, func(t *testing.T) {
			all, err := elements(s.svg)
			require.NoError(t, err)
			for _, e := range all {
				switch e.name {
				case "text":
					on := ground(all, e.before, e.number("x"), e.number("y"))
					assert.GreaterOrEqual(t, contrast(t, e.given("fill"), on), enoughForText, e.text)
				case "tspan":
					assert.Empty(t, e.attributes["fill"], "spans are in the colour of their text")
				case "path", "circle", "rect":
					for _, colour := range []string{e.attributes["fill"], e.attributes["stroke"]} {
						if colour == "" || colour == "none" || colour == paper {
							continue
						}
						assert.GreaterOrEqual(t, contrast(t, colour, paper), enoughForLines, e.attributes)
					}
				}
			}
		})
	}
}

// ground is the colour of the box drawn last, of those drawn before, that holds
// a place.
func ground(all []*element, before int, x, y float64) string {
	colour := ""
	for _, e := range all[:before] {
		if e.name != "rect" {
			continue
		}
		if e.attributes["width"] == "100%" {
			colour = e.attributes["fill"]
			continue
		}
		left, top := e.number("x"), e.number("y")
		if left <= x && x <= left+e.number("width") && top <= y && y <= top+e.number("height") {
			colour = e.attributes["fill"]
		}
	}
	return colour
}

// TestBandsDiffer: keys are told apart without colours.
func TestBandsDiffer(t *testing.T) {
	seen := map[string]bool{}
	for _, b := range bands {
		assert.False(t, seen[b.dashes], "dashed %q twice", b.dashes)
		seen[b.dashes] = true
		assert.GreaterOrEqual(t, contrast(t, b.colour, paper), enoughForLines, b.colour)
	}
}
