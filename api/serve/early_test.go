package main

import (
	"bufio"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
)

// Requests that no handler sees are refused with problems too.
func TestEarlyRefusals(t *testing.T) {
	tests := []struct {
		name, request string
		status        int
		detail        string
	}{
		{"path", "GET /v1/chords/%zz HTTP/1.1\r\nHost: x\r\n\r\n", 400, "the request is not as HTTP demands"},
		{"no host", "GET /healthz HTTP/1.1\r\n\r\n", 400, "the request is not as HTTP demands: missing required Host header"},
		{"no HTTP", "| C | F |\r\n\r\n", 400, "the request is not as HTTP demands"},
		{"version", "GET /healthz HTTP/3.7\r\nHost: x\r\n\r\n", 505, "the request is not as HTTP demands: unsupported protocol version"},
		{"header", "GET /healthz HTTP/1.1\r\nHost: x\r\nA: " + strings.Repeat("a", 2*maxHeader) + "\r\n\r\n", 431, "the request is not as HTTP demands"},
		{"transfer encoding", "POST /v1/analyses HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: gzip\r\n\r\n", 501, "the request is not as HTTP demands"},
		{"none of these", "GET /nothing HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n", 404, "there is nothing at this path; /docs shows all that there is"},
	}
	address, stop := serving(t)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			conn, err := net.Dial("tcp", address)
			require.NoError(t, err)
			defer conn.Close()
			go io.WriteString(conn, test.request)
			answer, err := http.ReadResponse(bufio.NewReader(conn), nil)
			require.NoError(t, err)
			assert.Equal(t, test.status, answer.StatusCode)
			assert.Equal(t, "application/problem+json", answer.Header.Get("Content-Type"))
			var p wire.Problem
			require.NoError(t, json.NewDecoder(answer.Body).Decode(&p))
			assert.Equal(t, test.status, p.Status)
			assert.Equal(t, http.StatusText(test.status), p.Title)
			assert.Equal(t, test.detail, p.Detail)
		})
	}
	require.NoError(t, stop())
}
