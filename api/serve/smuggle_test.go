package main

import (
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a proxy and the service could take for different requests is answered once
// at most, and the connection closed (RFC 9112, sections 6.1 and 11.2).
func TestSmuggling(t *testing.T) {
	const hidden = "GET /v1/keys/C HTTP/1.1\r\nHost: x\r\n\r\n"
	tests := []struct {
		name, head, body string
		status           int
	}{
		{"both lengths, chunked is short", "Content-Length: 45\r\nTransfer-Encoding: chunked\r\n", "0\r\n\r\n" + hidden, 400},
		{"both lengths, chunked is long", "Transfer-Encoding: chunked\r\nContent-Length: 4\r\n", "28\r\n" + hidden + "\r\n0\r\n\r\n", 400},
		{"folded", "Transfer-Encoding:\r\n chunked\r\nContent-Length: 2\r\n", "0\r\n\r\n" + hidden, 400},
		{"two lengths", "Content-Length: 2\r\nContent-Length: 42\r\n", "{}" + hidden, 400},
		{"a sign", "Content-Length: +2\r\n", "{}" + hidden, 400},
		{"below 0", "Content-Length: -1\r\n", "{}" + hidden, 400},
		{"a list", "Content-Length: 2, 2\r\n", "{}" + hidden, 400},
		{"hex", "Content-Length: 0x2\r\n", "{}" + hidden, 400},
		{"another encoding", "Transfer-Encoding: xchunked\r\n", "0\r\n\r\n" + hidden, 501},
		{"two encodings", "Transfer-Encoding: chunked\r\nTransfer-Encoding: identity\r\n", "0\r\n\r\n" + hidden, 501},
		{"a space before the colon", "Transfer-Encoding : chunked\r\nContent-Length: 2\r\n", "{}" + hidden, 400},
		{"a chunk longer than numbers are", "Transfer-Encoding: chunked\r\n", "fffffffffffffffff\r\n{}" + hidden, 400},
	}
	address, stop := serving(t)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			_, answers := dial(t, address, "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"+test.head+"\r\n"+test.body)
			answer, err := http.ReadResponse(answers, nil)
			require.NoError(t, err)
			assert.Equal(t, test.status, answer.StatusCode)
			assert.Equal(t, "application/problem+json", answer.Header.Get("Content-Type"))
			_, err = io.Copy(io.Discard, answer.Body)
			require.NoError(t, err)
			rest, _ := io.ReadAll(answers) // it may end in a reset, since not all was read
			assert.False(t, strings.Contains(string(rest), "HTTP/1.1"), "%s", rest)
		})
	}
	require.NoError(t, stop())
}
