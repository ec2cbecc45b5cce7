package command

import (
	"fmt"
	"io"
	"os"

	"fifthwise/pkg/chart/file"
)

var errTooLong = fmt.Errorf("the file has more than %d MiB", file.MaxBytes>>20)

// ReadAll is the content of a file that is no longer than charts may be.
func ReadAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, file.MaxBytes+1))
	if err == nil && len(data) > file.MaxBytes {
		err = errTooLong
	}
	return data, err
}

// Read is the content of a file and its name for people; that of "-" is standard
// input.
func Read(path string, in io.Reader) (name string, data []byte, err error) {
	name = "standard input"
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return path, nil, err
		}
		defer f.Close()
		name, in = path, f
	}
	if data, err = ReadAll(in); err == errTooLong {
		err = fmt.Errorf("%s: %w", name, err)
	}
	return name, data, err
}

// Faults are all that an error says is wrong, one by one.
func Faults(err error) []error {
	if list, ok := err.(interface{ Unwrap() []error }); ok {
		return list.Unwrap()
	}
	return []error{err}
}
