package main

import (
	"runtime/debug"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestVersion(t *testing.T) {
	info := &debug.BuildInfo{GoVersion: "go1.26.0"}
	assert.Equal(t, "fifthwise (devel), go1.26.0", versionOf(info))
	info.Main.Version = "v0.2.0"
	info.Settings = []debug.BuildSetting{{Key: "vcs.revision", Value: "0ea1b57"}, {Key: "vcs.time", Value: "2026-11-25T12:00:00Z"}}
	assert.Equal(t, "fifthwise v0.2.0, revision 0ea1b57 of 2026-11-25T12:00:00Z, go1.26.0", versionOf(info))
	info.Settings = append(info.Settings, debug.BuildSetting{Key: "vcs.modified", Value: "true"})
	assert.Equal(t, "fifthwise v0.2.0, revision 0ea1b57 of 2026-11-25T12:00:00Z, changed, go1.26.0", versionOf(info))
	assert.Contains(t, version(), "fifthwise ")
}
