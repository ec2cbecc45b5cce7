package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// serving serves as the flags say, and stops.
func serving(t *testing.T, args ...string) (address string, stop func() error) {
	t.Helper()
	s, err := read(append([]string{"-notice-time", "0s"}, args...))
	require.NoError(t, err)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- serve(ctx, l, s) }()
	return l.Addr().String(), func() error {
		cancel()
		return <-done
	}
}

// dial opens a connection that says something and reads within 10 seconds.
func dial(t *testing.T, address, said string) (net.Conn, *bufio.Reader) {
	t.Helper()
	c, err := net.Dial("tcp", address)
	require.NoError(t, err)
	t.Cleanup(func() { c.Close() })
	require.NoError(t, c.SetDeadline(time.Now().Add(10*time.Second)))
	_, err = io.WriteString(c, said)
	require.NoError(t, err)
	return c, bufio.NewReader(c)
}

// logged is what is logged from now on.
func logged(t *testing.T) func() string {
	before := slog.Default()
	t.Cleanup(func() { slog.SetDefault(before) })
	var log safeBuffer
	slog.SetDefault(slog.New(slog.NewTextHandler(&log, nil)))
	return log.String
}

type safeBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *safeBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *safeBuffer) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

const health = "GET /healthz HTTP/1.1\r\nHost: x\r\n\r\n"

// An answer that has begun when the service is told to stop is finished.
func TestServe(t *testing.T) {
	address, stop := serving(t)
	c, answers := dial(t, address, "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 56\r\n\r\n"+`{"title": "Slow Ferry", `)
	time.Sleep(100 * time.Millisecond) // that it has begun is not to be seen from here
	done := make(chan error, 1)
	go func() { done <- stop() }()
	time.Sleep(50 * time.Millisecond)
	_, err := io.WriteString(c, `"changes": "| Dm7 | G7 | C6 |"} `)
	require.NoError(t, err)
	answer, err := http.ReadResponse(answers, nil)
	require.NoError(t, err)
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	assert.Equal(t, 200, answer.StatusCode)
	assert.Contains(t, string(text), "Slow Ferry")
	require.NoError(t, <-done)
	_, err = net.Dial("tcp", address)
	assert.Error(t, err)
}

// Between the signal and the end requests are still taken, on connections old and
// new, and each answer is the last of its connection.
func TestNotice(t *testing.T) {
	address, stop := serving(t, "-notice-time", "500ms")
	idle, answers := dial(t, address, health)
	answer, err := http.ReadResponse(answers, nil)
	require.NoError(t, err)
	_, err = io.Copy(io.Discard, answer.Body)
	require.NoError(t, err)
	done := make(chan error, 1)
	go func() { done <- stop() }()
	time.Sleep(100 * time.Millisecond)

	_, err = io.WriteString(idle, health)
	require.NoError(t, err)
	answer, err = http.ReadResponse(answers, nil)
	require.NoError(t, err)
	assert.Equal(t, 200, answer.StatusCode)
	assert.True(t, answer.Close)
	_, answers = dial(t, address, "GET /readyz HTTP/1.1\r\nHost: x\r\n\r\n")
	answer, err = http.ReadResponse(answers, nil)
	require.NoError(t, err)
	assert.Equal(t, 503, answer.StatusCode)
	require.NoError(t, <-done)
	_, err = net.Dial("tcp", address)
	assert.Error(t, err)
}

// A client that goes on for ever does not keep the service from its end.
func TestDrainEnds(t *testing.T) {
	address, stop := serving(t, "-drain-time", "200ms")
	dial(t, address, "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 56\r\n\r\n{")
	time.Sleep(100 * time.Millisecond)
	assert.EqualError(t, stop(), "answers were cut off, since they did not end in 200ms: context deadline exceeded")
}

// Who is slow is not waited for.
func TestSlowClients(t *testing.T) {
	address, stop := serving(t, "-header-time", "100ms", "-body-time", "100ms", "-idle-time", "100ms")
	post := "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 56\r\n\r\n{"
	tests := []struct {
		name, said string
		statuses   []int // then the connection is closed
	}{
		{"nothing said", "", nil},
		{"half a head", "GET /healthz HTTP/1.1\r\nHo", []int{400}},
		{"half a body", fmt.Sprintf(post, "/v1/analyses"), []int{408}},
		{"half a body that nobody reads", fmt.Sprintf(post, "/nowhere"), []int{404}},
		{"no second request", health, []int{200}},
		{"half a second request", health + "GET /hea", []int{200, 400}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, answers := dial(t, address, test.said)
			start := time.Now()
			for _, want := range test.statuses {
				answer, err := http.ReadResponse(answers, nil)
				require.NoError(t, err)
				assert.Equal(t, want, answer.StatusCode)
				_, err = io.Copy(io.Discard, answer.Body)
				require.NoError(t, err)
			}
			rest, err := io.ReadAll(answers)
			require.NoError(t, err)
			assert.Empty(t, rest)
			assert.Less(t, time.Since(start), 5*time.Second)
		})
	}
	require.NoError(t, stop())
}

// The times of a request are not those of a stream, which has some for each line.
func TestSlowStream(t *testing.T) {
	address, stop := serving(t, "-header-time", "50ms", "-body-time", "50ms", "-write-time", "50ms")
	c, in := dial(t, address, "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nContent-Type: application/x-ndjson\r\nTransfer-Encoding: chunked\r\n\r\n")
	answer, err := http.ReadResponse(in, nil)
	require.NoError(t, err)
	lines := bufio.NewReader(answer.Body)
	for _, title := range []string{"One", "Two"} {
		time.Sleep(300 * time.Millisecond)
		line := fmt.Sprintf("{\"title\": %q, \"changes\": \"| C |\"}\n", title)
		_, err := fmt.Fprintf(c, "%x\r\n%s\r\n", len(line), line)
		require.NoError(t, err)
		told, err := lines.ReadString('\n')
		require.NoError(t, err)
		assert.Contains(t, told, title)
	}
	_, err = io.WriteString(c, "0\r\n\r\n")
	require.NoError(t, err)
	_, err = lines.ReadString('\n')
	assert.Equal(t, io.EOF, err)
	require.NoError(t, stop())
}

// More connections than are allowed wait for others to end.
func TestConnections(t *testing.T) {
	address, stop := serving(t, "-connections", "2")
	first, answers := dial(t, address, health)
	_, err := http.ReadResponse(answers, nil)
	require.NoError(t, err)
	dial(t, address, "")
	_, answers = dial(t, address, health)
	time.AfterFunc(200*time.Millisecond, func() { first.Close() })
	start := time.Now()
	answer, err := http.ReadResponse(answers, nil)
	require.NoError(t, err)
	assert.Equal(t, 200, answer.StatusCode)
	assert.GreaterOrEqual(t, time.Since(start), 190*time.Millisecond)
	dial(t, address, "") // waits while the service stops
	require.NoError(t, stop())
}

// The tokens of the file are those that are answered.
func TestServeWithTokens(t *testing.T) {
	file := filepath.Join(t.TempDir(), "tokens")
	require.NoError(t, os.WriteFile(file, []byte("correct-horse-battery\n"), 0o600))
	known, err := openTokens(file)
	require.NoError(t, err)
	s, err := read([]string{"-notice-time", "0s"})
	require.NoError(t, err)
	s.options.Admits = known.admits
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- serve(ctx, l, s) }()
	for token, want := range map[string]int{"correct-horse-battery": 200, "correct-horse-batterx": 401} {
		_, answers := dial(t, l.Addr().String(), "GET /v1/keys/C HTTP/1.1\r\nHost: x\r\nAuthorization: Bearer "+token+"\r\n\r\n")
		answer, err := http.ReadResponse(answers, nil)
		require.NoError(t, err)
		assert.Equal(t, want, answer.StatusCode)
	}
	stop()
	require.NoError(t, <-done)
}

func TestWarnOfOthers(t *testing.T) {
	for _, test := range []struct {
		ip     string
		tokens bool
		want   string
	}{
		{"127.0.0.1", false, ""},
		{"::1", true, ""},
		{"0.0.0.0", false, "everybody is answered"},
		{"::", false, "everybody is answered"},
		{"192.0.2.1", true, "tokens are sent in the clear"},
	} {
		log := logged(t)
		warnOfOthers(&net.TCPAddr{IP: net.ParseIP(test.ip), Port: 80}, test.tokens)
		if test.want == "" {
			assert.Empty(t, log(), test.ip)
			continue
		}
		assert.Contains(t, log(), "level=WARN", test.ip)
		assert.Contains(t, log(), test.want, test.ip)
	}
}
