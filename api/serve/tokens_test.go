package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	ada  = "ada-7f3a91c0d2e4b5"
	bert = "bert/5d1e.8a~2b+9c0f=="
)

// tokensFile is a file with a text, and writes it anew.
func tokensFile(t *testing.T, text string) (name string, write func(string)) {
	t.Helper()
	name = filepath.Join(t.TempDir(), "tokens")
	write = func(text string) { require.NoError(t, os.WriteFile(name, []byte(text), 0o600)) }
	write(text)
	return name, write
}

func TestTokens(t *testing.T) {
	name, _ := tokensFile(t, "# class 3b\n\n  "+ada+"  # Ada\r\n"+bert)
	known, err := openTokens(name)
	require.NoError(t, err)
	for _, token := range []string{ada, bert} {
		assert.True(t, known.admits(token))
	}
	for _, token := range []string{"", "#", "Ada", ada[1:], ada + " ", strings.ToUpper(ada), ada + "\n" + bert} {
		assert.False(t, known.admits(token), "%q", token)
	}
}

func TestBadTokens(t *testing.T) {
	for _, test := range []struct{ text, wantErr string }{
		{"", "FILE: expected a token; with none nobody would be answered"},
		{"# none\n", "FILE: expected a token; with none nobody would be answered"},
		{ada + "\ntwo words\n", "FILE:2: expected one token of letters, digits and -._~+/, with = at its end alone"},
		{"secrét", "FILE:1: expected one token of letters, digits and -._~+/, with = at its end alone"},
		{"a=b", "FILE:1: expected one token of letters, digits and -._~+/, with = at its end alone"},
		{strings.Repeat(ada+"\n", maxTokens+1), "FILE:10001: expected at most 10000 tokens"},
		{strings.Repeat("a", 1<<17), "FILE: bufio.Scanner: token too long"},
	} {
		name, _ := tokensFile(t, test.text)
		_, err := openTokens(name)
		assert.EqualError(t, err, strings.ReplaceAll(test.wantErr, "FILE", name))
	}
	_, err := openTokens(filepath.Join(t.TempDir(), "none"))
	assert.ErrorIs(t, err, os.ErrNotExist)
}

// What makes tokens weak is said, and the tokens are not.
func TestWeakTokens(t *testing.T) {
	log := logged(t)
	name, _ := tokensFile(t, "short-one\n"+ada)
	require.NoError(t, os.Chmod(name, 0o644))
	_, err := openTokens(name)
	require.NoError(t, err)
	assert.Contains(t, log(), "everybody on this machine may read the tokens")
	assert.Contains(t, log(), "a short token can be guessed; 16 characters drawn at random are enough")
	assert.Contains(t, log(), "line=1 characters=9")
	assert.NotContains(t, log(), "short-one")
	assert.NotContains(t, log(), ada)
	require.NoError(t, os.Chmod(name, 0o640))
	log = logged(t)
	_, err = openTokens(name)
	require.NoError(t, err)
	assert.NotContains(t, log(), "everybody")
}

// At SIGHUP the file is read anew; the tokens of before stay if it is bad.
func TestReload(t *testing.T) {
	log := logged(t)
	name, write := tokensFile(t, ada)
	known, err := openTokens(name)
	require.NoError(t, err)
	stop := reloading(known)
	defer stop()
	hangUp := func(want string) {
		require.NoError(t, syscall.Kill(os.Getpid(), syscall.SIGHUP))
		assert.Eventually(t, func() bool { return strings.Contains(log(), want) }, 5*time.Second, time.Millisecond)
	}
	write("no token\n")
	hangUp("level=ERROR msg=\"the tokens are those of before\"")
	assert.True(t, known.admits(ada))
	write("# both\n" + bert + "\n" + ada + "\n")
	hangUp("tokens=2")
	assert.True(t, known.admits(ada))
	assert.True(t, known.admits(bert))
	write(bert)
	log = logged(t)
	hangUp("tokens=1")
	assert.False(t, known.admits(ada))
}
