// Package chord models chords and reads and prints their symbols.
package chord
