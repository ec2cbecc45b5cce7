package api

import (
	"crypto/rand"
	"strings"
)

// requestHeader names a request in an answer and in the log. A client or a proxy
// may choose the name.
const requestHeader = "X-Request-ID"

// maxRequestID bounds a name that was chosen, in bytes.
const maxRequestID = 64

// requestID is the name that was chosen, or a new one where there is none that
// may stand in a log as it is.
func requestID(chosen string) string {
	if chosen == "" || len(chosen) > maxRequestID || strings.ContainsFunc(chosen, isNoIDRune) {
		return rand.Text()
	}
	return chosen
}

func isNoIDRune(r rune) bool {
	return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '.' || r == '_' || r == '-')
}
