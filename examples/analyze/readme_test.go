package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command/commandtest"
)

const readme = "../../README.md"

// block is the part of a document between two lines.
func block(t *testing.T, text, from, to string) (before, between, after string) {
	before, rest, found := strings.Cut(text, from)
	require.True(t, found, from)
	between, after, found = strings.Cut(rest, to)
	require.True(t, found, to)
	return before + from, between, to + after
}

// TestReadme holds that README.md shows the page that the program prints, cut
// after two reasons, and the notation as -h tells it. With -update it is made
// to.
func TestReadme(t *testing.T) {
	_, page, _ := analyze("")
	sheet, reasons, found := strings.Cut(page, "\nWhy\n")
	require.True(t, found)
	shown := strings.SplitAfter(reasons, ".\n")
	page = sheet + "\nWhy\n" + strings.Join(shown[:2], "") + "  ...\n"

	_, notation, _ := block(t, help, "The text notation:\n\n", "\nExit status")
	notation = strings.ReplaceAll("\n"+notation, "\n  ", "\n")[1:]

	data, err := os.ReadFile(readme)
	require.NoError(t, err)
	text := string(data)
	for _, b := range []struct{ name, from, want string }{
		{"page", "after the first two reasons:\n\n```text\n", page},
		{"notation", "## The text notation\n\n```text\n", notation},
	} {
		before, got, after := block(t, text, b.from, "```\n")
		if *commandtest.Update {
			text = before + b.want + after
			continue
		}
		assert.Equal(t, b.want, got, b.name)
	}
	if *commandtest.Update {
		require.NoError(t, os.WriteFile(readme, []byte(text), 0o644))
	}
}

// TestReadmeCaveats holds what README.md says of single inputs.
func TestReadmeCaveats(t *testing.T) {
	data, err := os.ReadFile(readme)
	require.NoError(t, err)
	tests := []struct{ in, says string }{
		{"| c7 F7 |", "write C7 or Cm7"},
		{"| C / F |", "the bar has 3 of 4 beats"},
		{"| C Dm G7 |", "4/3 beats each"},
		{"| C/Dm |", "expected the end of the symbol after the bass"},
		{"| C:(1,3,5,b7,9) |", "I9"},
		{"| C | D.S. al Coda |", "but no jumps"},
		{"| C | Dbdim7 | Dm7 G7 | C6 |", "VIIdim7/II"},
		{"| Dm7/G | Cmaj7 |", "V9sus"},
		{"| Cm | Ab | Fm G7 | Cm |", "bVI "},
		{"Key: G major\n| Am7 | D7 |", "IIm7       V7\n"},
		{"Key: E major\n| C | Dm7 G7 | C |", "the chart states E major"},
	}
	for _, tt := range tests {
		_, page, complaint := analyze(tt.in, "-")
		assert.Contains(t, page+complaint, tt.says, tt.in)
		if bars := strings.TrimSpace(tt.in); strings.HasPrefix(bars, "|") {
			assert.Contains(t, string(data), strings.Trim(bars, "| "))
		}
	}
}
