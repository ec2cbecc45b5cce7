package pitch

import (
	"errors"
	"fmt"
)

// SyntaxError tells where a text stopped making sense and what would. The
// parsers of notes, chords, keys, charts and numerals all return it.
type SyntaxError struct {
	Input  string // what was read
	Offset int    // in bytes, where the fault begins
	Msg    string // what was expected, in lower case
	Hint   string // what would be right, where something near is; else ""
}

// Error says the message, the quoted input and the hint.
func (e *SyntaxError) Error() string {
	s := fmt.Sprintf("%s at offset %d of %q", e.Msg, e.Offset, e.Input)
	if e.Hint != "" {
		s += " (" + e.Hint + ")"
	}
	return s
}

// Within moves a syntax error found in a part of input, which begins offset
// bytes into it, to the whole. Other errors are returned as they are.
func Within(err error, input string, offset int) error {
	var e *SyntaxError
	if !errors.As(err, &e) {
		return err
	}
	return &SyntaxError{Input: input, Offset: offset + e.Offset, Msg: e.Msg, Hint: e.Hint}
}
