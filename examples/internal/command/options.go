package command

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strconv"

	"fifthwise/pkg/pitch"
)

// Parse reads arguments. Options may stand behind files, each of which is given
// to file.
func Parse(set *flag.FlagSet, args []string, file func(string) error) error {
	set.SetOutput(io.Discard)
	for {
		if err := set.Parse(args); err != nil {
			return err
		}
		if args = set.Args(); len(args) == 0 {
			return nil
		}
		if err := file(args[0]); err != nil {
			return err
		}
		args = args[1:]
	}
}

// One takes a single file, called what it is.
func One(what string, to *string) func(string) error {
	return func(name string) error {
		if *to != "" {
			return fmt.Errorf("expected one %s, not both %q and %q", what, *to, name)
		}
		*to = name
		return nil
	}
}

// Many takes all files.
func Many(to *[]string) func(string) error {
	return func(name string) error {
		*to = append(*to, name)
		return nil
	}
}

// Whole takes the value of an option that is a number from some number on.
func Whole(to *int, from int) func(string) error {
	return func(value string) error {
		n, err := strconv.Atoi(value)
		if err != nil || n < from {
			return fmt.Errorf("expected a number from %d", from)
		}
		*to = n
		return nil
	}
}

// Accidentals takes the value of an option that is ascii or unicode.
func Accidentals(to *pitch.Accidentals) func(string) error {
	return func(value string) error {
		switch value {
		case "ascii":
			*to = pitch.ASCII
		case "unicode":
			*to = pitch.Unicode
		default:
			return errors.New("expected ascii or unicode")
		}
		return nil
	}
}
