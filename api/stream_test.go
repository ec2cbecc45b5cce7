package api

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"testing/iotest"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
)

// lineOf is what a line of an answer may hold.
type lineOf struct {
	Title   string        `json:"title"`
	Line    int           `json:"line"`
	Problem *wire.Problem `json:"problem"`
}

func postLines(t *testing.T, url string, body io.Reader) *http.Response {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, url+"/v1/analyses", body)
	require.NoError(t, err)
	r.Header.Set("Content-Type", mediaLines)
	answer, err := http.DefaultClient.Do(r)
	require.NoError(t, err)
	t.Cleanup(func() { answer.Body.Close() })
	return answer
}

// inLines prints the answer of a stream: a title, or line, status and detail.
func inLines(t *testing.T, body io.Reader) (told []string) {
	t.Helper()
	in := bufio.NewScanner(body)
	in.Buffer(nil, 8<<20)
	for in.Scan() {
		var l lineOf
		require.NoError(t, json.Unmarshal(in.Bytes(), &l), "%s", in.Text())
		if l.Problem == nil {
			told = append(told, l.Title)
			continue
		}
		told = append(told, fmt.Sprintf("%d: %d %s", l.Line, l.Problem.Status, l.Problem.Detail))
	}
	require.NoError(t, in.Err())
	return told
}

func TestStream(t *testing.T) {
	server := httptest.NewServer(New(Options{}))
	defer server.Close()
	long := strings.Repeat(" ", maxBody)
	tests := []struct {
		name, body string
		want       []string
	}{
		{"nothing", "", nil},
		{"blank lines only", "\n \r\n\t\n", nil},
		{"one", `{"title": "a", "changes": "| C |"}` + "\n", []string{"a"}},
		{"no line break at the end", `{"title": "a", "changes": "| C |"}` + "\n" + `{"title": "b", "changes": "| F |"}`, []string{"a", "b"}},
		{"carriage returns", `{"title": "a", "changes": "| C |"}` + "\r\n" + `{"title": "b", "changes": "| F |"}` + "\r\n", []string{"a", "b"}},
		{"blank lines count", "\n\n" + `{"title": "a", "changes": "| C |"}` + "\n\n{}\n", []string{"a", "5: 422 the request has a fault: neither changes nor bars is given"}},
		{"bad lines in their place", `{"title": "a", "changes": "| C |"}` + "\nx\n" + `{"changes": "| b |"}` + "\n" + `{"title": "b", "changes": "| C |"}`,
			[]string{"a", "2: 400 the request is not understood", "3: 422 the request has a fault: expected the root in upper case", "b"}},
		{"two on a line", `{"changes": "| C |"} {"changes": "| F |"}`, []string{"1: 400 the request is not understood"}},
		{"one on two lines", "{\"title\": \"a\",\n\"changes\": \"| C |\"}", []string{"1: 400 the request is not understood", "2: 400 the request is not understood"}},
		{"overlong line", `{"title": "a", "changes": "| C |"}` + "\n{" + long + long + long + "}\n" + `{"title": "b", "changes": "| C |"}`, []string{"a", "2: 413 the line has more than 1,048,576 bytes", "b"}},
		{"overlong line at the end", `{"title": "a", "changes": "| C |"}` + "\n" + long + ".", []string{"a", "2: 413 the line has more than 1,048,576 bytes"}},
		{"the longest line", `{"title": "a", "changes": "| C |"}` + long[34:] + "\n", []string{"a"}},
		{"a chart too long", bars(2001, 1) + "\n" + `{"title": "b", "changes": "| C |"}`, []string{"1: 413 the chart has more than 2,000 bars", "b"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			answer := postLines(t, server.URL, strings.NewReader(test.body))
			assert.Equal(t, 200, answer.StatusCode)
			assert.Equal(t, mediaLines, answer.Header.Get("Content-Type"))
			assert.Equal(t, test.want, inLines(t, answer.Body))
		})
	}
}

// Each answer comes while the request is still being sent.
func TestStreamFlows(t *testing.T) {
	server := httptest.NewServer(New(Options{}))
	defer server.Close()
	body, send := io.Pipe()
	defer send.Close()
	answer := postLines(t, server.URL, body)
	in := bufio.NewReader(answer.Body)
	for i := range 5 {
		_, err := fmt.Fprintf(send, "{\"title\": \"%d\", \"changes\": \"| C |\"}\n", i)
		require.NoError(t, err)
		line, err := in.ReadBytes('\n')
		require.NoError(t, err)
		var l lineOf
		require.NoError(t, json.Unmarshal(line, &l))
		assert.Equal(t, fmt.Sprint(i), l.Title)
	}
	send.Close()
	rest, err := io.ReadAll(in)
	require.NoError(t, err)
	assert.Empty(t, rest)
}

// Answers keep the order of many requests.
func TestStreamOrder(t *testing.T) {
	server := httptest.NewServer(New(Options{}))
	defer server.Close()
	var body bytes.Buffer
	var want []string
	for i := range 300 {
		title := fmt.Sprint(i)
		fmt.Fprintf(&body, "{\"title\": %q, \"changes\": %q}\n", title, strings.Repeat("| Dm7 G7 | Cmaj7 ", 1+i*7%20)+"|")
		want = append(want, title)
	}
	assert.Equal(t, want, inLines(t, postLines(t, server.URL, &body).Body))
}

// streaming serves a stream of work.
func streaming(t *testing.T, s *Server, work worker) *httptest.Server {
	r := gin.New()
	r.Use(s.observe, s.recover)
	r.POST("/v1/analyses", func(c *gin.Context) { s.stream(c, work) })
	server := httptest.NewServer(r)
	t.Cleanup(server.Close)
	return server
}

// A panic fails its line and no other.
func TestStreamPanic(t *testing.T) {
	server := streaming(t, loggingTo(io.Discard), func(line []byte) ([]byte, error) {
		if string(line) == "bad" {
			panic("secret")
		}
		return fmt.Appendf(nil, `{"title": %q}`, line), nil
	})
	answer := postLines(t, server.URL, strings.NewReader("a\nbad\nb\n"))
	assert.Equal(t, []string{"a", "2: 500 the request could not be answered; the fault is not in it", "b"}, inLines(t, answer.Body))
}

// When the client is gone, no further line is worked on.
func TestStreamClientGone(t *testing.T) {
	var worked atomic.Int64
	server := streaming(t, loggingTo(io.Discard), func([]byte) ([]byte, error) {
		worked.Add(1)
		return bytes.Repeat([]byte("1"), 1<<10), nil
	})
	ctx, leave := context.WithCancel(t.Context())
	endless := iotest.DataErrReader(io.MultiReader(strings.NewReader("1\n"), neverEnding("2\n")))
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, server.URL+"/v1/analyses", endless)
	require.NoError(t, err)
	r.Header.Set("Content-Type", mediaLines)
	answer, err := http.DefaultClient.Do(r)
	require.NoError(t, err)
	_, err = io.CopyN(io.Discard, answer.Body, 10<<10)
	require.NoError(t, err)
	leave()
	answer.Body.Close()
	server.Close() // waits for the handler
	done := worked.Load()
	time.Sleep(50 * time.Millisecond)
	assert.Equal(t, done, worked.Load())
}

// neverEnding is a text again and again.
type neverEnding string

func (n neverEnding) Read(p []byte) (int, error) { return copy(p, n), nil }

// A client that takes no answers holds the work up; nothing piles up.
func TestStreamWaitsForItsReader(t *testing.T) {
	var worked atomic.Int64
	server := streaming(t, loggingTo(io.Discard), func([]byte) ([]byte, error) {
		worked.Add(1)
		return bytes.Repeat([]byte("1"), 64<<10), nil
	})
	conn, err := net.Dial("tcp", server.Listener.Addr().String())
	require.NoError(t, err)
	fmt.Fprintf(conn, "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nTransfer-Encoding: chunked\r\n\r\n", mediaLines)
	go func() {
		for {
			if _, err := io.WriteString(conn, "2\r\n1\n\r\n"); err != nil {
				return
			}
		}
	}()
	assert.Eventually(t, func() bool {
		before := worked.Load()
		time.Sleep(100 * time.Millisecond)
		return before > 0 && worked.Load() == before
	}, 10*time.Second, time.Millisecond)
	assert.Less(t, worked.Load(), int64(1000)) // 64 KiB each: what the connection's buffers hold
	conn.Close()
}

// A service that stops ends its streams with a word.
func TestStreamStopping(t *testing.T) {
	stopping, stop := context.WithCancel(t.Context())
	server := httptest.NewServer(New(Options{Stopping: stopping}))
	defer server.Close()
	body, send := io.Pipe()
	defer send.Close()
	answer := postLines(t, server.URL, body)
	in := bufio.NewReader(answer.Body)
	_, err := io.WriteString(send, "{\"changes\": \"| C |\"}\n")
	require.NoError(t, err)
	_, err = in.ReadBytes('\n')
	require.NoError(t, err)
	stop()
	assert.Equal(t, []string{"2: 503 the service stops; this line and those behind it were not read"}, inLines(t, in))
}

// A body that breaks off is answered as far as it came, and is not taken for
// whole: its last line may be half of one.
func TestStreamBrokenOff(t *testing.T) {
	server := httptest.NewServer(New(Options{}))
	defer server.Close()
	conn, err := net.Dial("tcp", server.Listener.Addr().String())
	require.NoError(t, err)
	defer conn.Close()
	line := "{\"title\": \"a\", \"changes\": \"| C |\"}\n"
	fmt.Fprintf(conn, "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nTransfer-Encoding: chunked\r\n\r\n%x\r\n%s\r\nno chunk\r\n", mediaLines, len(line), line)
	answer, err := http.ReadResponse(bufio.NewReader(conn), nil)
	require.NoError(t, err)
	body, err := io.ReadAll(answer.Body)
	assert.ErrorIs(t, err, io.ErrUnexpectedEOF)
	assert.Equal(t, 1, bytes.Count(body, []byte("\n")))
}
