package main

import (
	"flag"
	"net/netip"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api"
)

func TestSettings(t *testing.T) {
	t.Setenv("FIFTHWISE_LISTEN", "")
	defaults, err := read(nil)
	require.NoError(t, err)
	assert.Equal(t, settings{
		listen:      "127.0.0.1:8080",
		log:         "text",
		connections: 1000,
		headerTime:  10 * time.Second,
		writeTime:   time.Minute,
		idleTime:    2 * time.Minute,
		noticeTime:  time.Second,
		drainTime:   20 * time.Second,
		options:     api.Options{BodyTime: time.Minute, Memory: 128 << 20},
	}, defaults)

	t.Setenv("FIFTHWISE_LISTEN", "127.0.0.1:9000")
	s, err := read(nil)
	require.NoError(t, err)
	assert.Equal(t, "127.0.0.1:9000", s.listen)

	s, err = read(strings.Fields("-listen :7000 -rate 2.5 -allow-origin https://charts.example -tokens t.txt -proxies 10.0.0.0/8 " +
		"-readings 3 -waiting 4 -connections 5 -memory 6 -header-time 7s -body-time 8s -write-time 9s -idle-time 10s -notice-time 0s -drain-time 1m30s -log json -version"))
	require.NoError(t, err)
	assert.Equal(t, settings{
		listen:      ":7000",
		tokens:      "t.txt",
		log:         "json",
		version:     true,
		connections: 5,
		headerTime:  7 * time.Second,
		writeTime:   9 * time.Second,
		idleTime:    10 * time.Second,
		drainTime:   90 * time.Second,
		options: api.Options{
			AllowOrigins: []string{"https://charts.example"},
			Rate:         2.5,
			Proxies:      []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8")},
			Readings:     3,
			Waiting:      4,
			Memory:       6 << 20,
			BodyTime:     8 * time.Second,
		},
	}, s)
}

func TestBadSettings(t *testing.T) {
	for _, test := range []struct {
		args    string
		wantErr string
	}{
		{"tune.txt", `expected flags only, not "tune.txt"`},
		{"-rate 0", `invalid value "0" for flag -rate: expected a number more than 0 and at most 1000000`},
		{"-rate NaN", `invalid value "NaN" for flag -rate: expected a number more than 0 and at most 1000000`},
		{"-port 1", `flag provided but not defined: -port`},
		{"-readings 0", `invalid value "0" for flag -readings: expected a whole number from 1 to 1000`},
		{"-waiting 1e3", `invalid value "1e3" for flag -waiting: expected a whole number from 1 to 100000`},
		{"-connections -1", `invalid value "-1" for flag -connections: expected a whole number from 1 to 1000000`},
		{"-memory 9999999", `invalid value "9999999" for flag -memory: expected a whole number from 1 to 1048576`},
		{"-body-time 10", `invalid value "10" for flag -body-time: expected a time such as 10s or 1m30s`},
		{"-body-time 0s", `invalid value "0s" for flag -body-time: expected a time more than 0s`},
		{"-notice-time -1s", `invalid value "-1s" for flag -notice-time: expected a time such as 10s or 1m30s`},
		{"-proxies any", `invalid value "any" for flag -proxies: "any" is no address and no network: expected such as 192.0.2.1 or 10.0.0.0/8`},
		{"-listen 18231", `invalid value "18231" for -listen or FIFTHWISE_LISTEN: expected host:port, such as 127.0.0.1:18231`},
		{"-listen localhost", `invalid value "localhost" for -listen or FIFTHWISE_LISTEN: expected host:port, such as 127.0.0.1:8080`},
		{"-listen ::1", `invalid value "::1" for -listen or FIFTHWISE_LISTEN: expected host:port, such as 127.0.0.1:8080`},
		{"-log xml", `invalid value "xml" for flag -log: expected text or json`},
	} {
		_, err := read(strings.Fields(test.args))
		assert.EqualError(t, err, test.wantErr)
	}
	_, err := read([]string{"-h"})
	assert.ErrorIs(t, err, flag.ErrHelp)
}
