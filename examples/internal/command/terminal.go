package command

import (
	"fmt"
	"io"
	"os"
	"strings"
)

// IsTerminal reports whether a person reads or writes a stream.
func IsTerminal(stream any) bool {
	file, ok := stream.(*os.File)
	if !ok {
		return false
	}
	info, err := file.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

// ShowsProgress reports whether a bar that moves can be shown.
func ShowsProgress(out io.Writer) bool { return IsTerminal(out) && os.Getenv("TERM") != "dumb" }

// Bar shows how much of something is done.
func Bar(width int, done, total int64) string {
	full := int(int64(width) * done / total)
	return fmt.Sprintf("[%s%s] %3d%%", strings.Repeat("=", full), strings.Repeat(" ", width-full), 100*done/total)
}

// ClearLine takes away what a line shows.
const ClearLine = "\r\x1b[K"
