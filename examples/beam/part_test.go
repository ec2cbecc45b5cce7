package main

import (
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A runner gives texts in any order, and may have them written twice.
func TestWrite(t *testing.T) {
	name := filepath.Join(t.TempDir(), "folder", "rows-000000")
	texts := []Text{{9, []byte("nine\n")}, {10, []byte("ten\n")}, {2, []byte("two\n")}}
	for range 2 {
		rest := texts
		require.NoError(t, new(writeFn).ProcessElement(t.Context(), name, func(to *Text) bool {
			if len(rest) == 0 {
				return false
			}
			*to, rest = rest[0], rest[1:]
			return true
		}))
		assert.Equal(t, "two\nnine\nten\n", contents(t, name))
		slices.Reverse(texts)
	}
}

func TestPartName(t *testing.T) {
	for number, want := range map[int]string{1: "r-000000", 100: "r-000000", 101: "r-000001", 12_345_600: "r-123455"} {
		assert.Equal(t, want, partName("r", number, 100))
	}
}
