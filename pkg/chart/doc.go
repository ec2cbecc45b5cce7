// Package chart models a tune as a lead sheet writes it: bars, sections,
// repeats, and chords in time.
package chart
