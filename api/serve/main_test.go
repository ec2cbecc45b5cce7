package main

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api"
)

func TestSettings(t *testing.T) {
	t.Setenv("FIFTHWISE_LISTEN", "")
	address, options, err := settings(nil)
	require.NoError(t, err)
	assert.Equal(t, "127.0.0.1:8080", address)
	assert.Zero(t, options)

	t.Setenv("FIFTHWISE_LISTEN", "127.0.0.1:9000")
	address, _, err = settings(nil)
	require.NoError(t, err)
	assert.Equal(t, "127.0.0.1:9000", address)

	address, options, err = settings([]string{"-listen", ":7000", "-rate", "2.5", "-allow-origin", "https://charts.example"})
	require.NoError(t, err)
	assert.Equal(t, ":7000", address)
	assert.Equal(t, api.Options{Rate: 2.5, AllowOrigins: []string{"https://charts.example"}}, options)
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
	} {
		_, _, err := settings(strings.Fields(test.args))
		assert.EqualError(t, err, test.wantErr)
	}
	_, _, err := settings([]string{"-h"})
	assert.ErrorIs(t, err, flag.ErrHelp)
}

// An answer that has begun when the service is told to stop is finished.
func TestServe(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- serve(ctx, listener, api.Options{Stopping: ctx}) }()

	conn, err := net.Dial("tcp", listener.Addr().String())
	require.NoError(t, err)
	defer conn.Close()
	fmt.Fprint(conn, "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 56\r\n\r\n", `{"title": "Slow Ferry", `)
	time.Sleep(100 * time.Millisecond) // that it has begun is not to be seen from here
	stop()
	time.Sleep(50 * time.Millisecond)
	fmt.Fprint(conn, `"changes": "| Dm7 | G7 | C6 |"} `)
	answer, err := http.ReadResponse(bufio.NewReader(conn), nil)
	require.NoError(t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	assert.Equal(t, 200, answer.StatusCode)
	assert.Contains(t, string(text), "Slow Ferry")
	require.NoError(t, <-done)
	_, err = net.Dial("tcp", listener.Addr().String())
	assert.Error(t, err)
}
