package main

import (
	"cmp"
	"fmt"
	"runtime/debug"
)

// version tells what this program was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "fifthwise, built without modules"
	}
	return versionOf(info)
}

func versionOf(info *debug.BuildInfo) string {
	build := map[string]string{}
	for _, s := range info.Settings {
		build[s.Key] = s.Value
	}
	said := "fifthwise " + cmp.Or(info.Main.Version, "(devel)")
	if revision := build["vcs.revision"]; revision != "" {
		said += fmt.Sprintf(", revision %s of %s", revision, build["vcs.time"])
		if build["vcs.modified"] == "true" {
			said += ", changed"
		}
	}
	return said + ", " + info.GoVersion
}
