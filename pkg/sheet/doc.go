// Package sheet sets a chart with its reading: as a drawing, as plain text, and as
// words for files of notation.
//
//	a := function.Analyze(c)
//	svg := sheet.SVG(c, &a, sheet.Style{})               // to show, in one piece
//	pages := sheet.Pages(c, &a, sheet.Style{}, sheet.A4) // to print
//	text := sheet.Text(c, &a, sheet.Style{})             // for a terminal
//
// Bars stand four a line, sections and phrases from a new one; each chord over
// its numeral, keys as bands above with the interval from the one before,
// two-fives in brackets, and in a drawing arrows from dominants to where they
// resolve. One layout serves both: it measures words by a ruler, in pixels or
// characters. Pages are the drawing, broken between its lines.
//
// What is shown of a repeated bar is its reading the first time through; others
// are told below. Out of scope: melody, and fonts of its own.
package sheet
