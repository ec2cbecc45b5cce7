// Package commandtest is what the tests of the example programs share.
package commandtest

import (
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/examples/internal/command"
	"fifthwise/examples/internal/plain"
)

// Update is whether golden files are written anew.
var Update = flag.Bool("update", false, "write the golden files anew")

// Run is what a program says that runs.
func Run(run func(out, complain io.Writer) int) (status int, out, complaint string) {
	var o, c strings.Builder
	status = run(&o, &c)
	return status, o.String(), c.String()
}

// Golden holds what is said against a file.
func Golden(t *testing.T, name, got string) {
	t.Helper()
	if *Update {
		require.NoError(t, os.WriteFile(name, []byte(got), 0o644))
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

// Page holds a page against a file, and its lines to a width.
func Page(t *testing.T, name, got string, width int) {
	t.Helper()
	Golden(t, name, got)
	for line := range strings.Lines(got) {
		assert.LessOrEqual(t, plain.Width(strings.TrimRight(line, "\n")), width, line)
		assert.Equal(t, strings.TrimRight(line, " \n")+"\n", line)
	}
}

// Complaint is how a program says why it ends with a status.
func Complaint(program string, status int, msg string) string {
	switch status {
	case command.Misusage:
		return fmt.Sprintf("%s: %s\n%[1]s -h says what there is\n", program, msg)
	case command.Faulty:
		return fmt.Sprintf("%s: %s\n", program, msg)
	}
	return ""
}

// FuzzPage holds that every text gives a page or its faults. The charts below
// testdata and the program's own are among those that it begins with.
func FuzzPage(f *testing.F, run func(text string) (status int, page, complaint string)) {
	charts, err := filepath.Glob("testdata/*.txt")
	require.NoError(f, err)
	for _, name := range append(charts, "tune.txt") {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(string(text))
	}
	f.Add("| Cm7 F7 | b7 |")
	f.Add("Pickup: 1/3\n| C@4 |: N.C. | (C | / / / / ) :|")
	f.Fuzz(func(t *testing.T, text string) {
		status, page, complaint := run(text)
		switch status {
		case command.Done:
			assert.NotEmpty(t, page)
			assert.Empty(t, complaint)
		case command.Faulty:
			assert.Empty(t, page)
			assert.NotEmpty(t, complaint)
		default:
			t.Errorf("status %d", status)
		}
	})
}
