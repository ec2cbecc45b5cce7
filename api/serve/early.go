package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"

	"fifthwise/api/wire"
)

// Write writes an answer. A request that is no HTTP, such as one with %zz in its
// path, is refused by the HTTP server before any handler, in plain text; a problem
// is sent in its place.
func (c conn) Write(p []byte) (int, error) {
	refusal, ok := asProblem(p)
	if !ok {
		return c.TCPConn.Write(p)
	}
	if _, err := c.TCPConn.Write(refusal); err != nil {
		return 0, err
	}
	return len(p), nil
}

// earlyHeaders are those of the server's own refusals. It writes each of them at
// once, and no handler answers so.
var earlyHeaders = []byte("\r\nContent-Type: text/plain; charset=utf-8\r\nConnection: close\r\n\r\n")

// asProblem is the problem that stands for a refusal by the server.
func asProblem(p []byte) (refusal []byte, ok bool) {
	head, _, ok := bytes.Cut(p, earlyHeaders)
	if !ok || !bytes.HasPrefix(head, []byte("HTTP/1.1 ")) || bytes.ContainsRune(head, '\n') {
		return nil, false
	}
	var status int
	if _, err := fmt.Sscanf(string(head), "HTTP/1.1 %d", &status); err != nil {
		return nil, false
	}
	detail := "the request is not as HTTP demands"
	if _, cause, ok := strings.Cut(string(head), ": "); ok {
		detail += ": " + cause
	}
	title := http.StatusText(status)
	body, err := json.Marshal(wire.Problem{Type: "about:blank", Title: title, Status: status, Detail: detail})
	if err != nil {
		return nil, false
	}
	return fmt.Appendf(nil, "HTTP/1.1 %d %s\r\nContent-Type: application/problem+json\r\nContent-Length: %d\r\nConnection: close\r\n\r\n%s\n",
		status, title, len(body)+1, body), true
}
