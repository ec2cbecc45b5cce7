package main

import (
	"bufio"
	"crypto/sha256"
	"crypto/subtle"
	"fmt"
	"log/slog"
	"os"
	"regexp"
	"strings"
	"sync/atomic"
)

// tokens are those of a file. Of each only the hash is kept, so that all are
// compared in one time whatever their length.
type tokens struct {
	file  string
	known atomic.Pointer[[][sha256.Size]byte]
}

// openTokens reads a file of tokens. The error names the file and the line, and
// no token.
func openTokens(file string) (*tokens, error) {
	t := &tokens{file: file}
	return t, t.reload()
}

// reload reads the file anew. If it is bad, the tokens of before stay.
func (t *tokens) reload() error {
	known, err := readTokens(t.file)
	if err != nil {
		return err
	}
	t.known.Store(&known)
	slog.Info("tokens read", "file", t.file, "tokens", len(known))
	return nil
}

// admits reports whether a token is known, in a time that depends neither on
// which one it is nor on how much of one is right.
func (t *tokens) admits(token string) bool {
	hash := sha256.Sum256([]byte(token))
	found := 0
	for _, known := range *t.known.Load() {
		found |= subtle.ConstantTimeCompare(hash[:], known[:])
	}
	return found == 1
}

// Bounds of a file of tokens, all of which are compared at each request.
const (
	maxTokens   = 10_000
	shortToken  = 16 // below which one can be guessed
	forEveryone = 0o004
)

// tokenForm is the syntax of RFC 6750, section 2.1.
var tokenForm = regexp.MustCompile(`^[A-Za-z0-9._~+/-]+=*$`)

func readTokens(file string) (known [][sha256.Size]byte, err error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.Mode()&forEveryone != 0 {
		slog.Warn("everybody on this machine may read the tokens; chmod o-r takes that away", "file", file)
	}
	lines := bufio.NewScanner(f)
	for number := 1; lines.Scan(); number++ {
		line, _, _ := strings.Cut(lines.Text(), "#")
		token := strings.TrimSpace(line)
		switch {
		case token == "":
			continue
		case !tokenForm.MatchString(token):
			return nil, fmt.Errorf("%s:%d: expected one token of letters, digits and -._~+/, with = at its end alone", file, number)
		case len(known) == maxTokens:
			return nil, fmt.Errorf("%s:%d: expected at most %d tokens", file, number, maxTokens)
		case len(token) < shortToken:
			slog.Warn(fmt.Sprintf("a short token can be guessed; %d characters drawn at random are enough", shortToken), "file", file, "line", number, "characters", len(token))
		}
		known = append(known, sha256.Sum256([]byte(token)))
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if len(known) == 0 {
		return nil, fmt.Errorf("%s: expected a token; with none nobody would be answered", file)
	}
	return known, nil
}
