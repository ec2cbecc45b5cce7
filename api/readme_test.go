package api

import (
	"bufio"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const readme = "../README.md"

// exchange is a curl line of README.md with the answer below it.
var exchange = regexp.MustCompile("(?s)```sh\n(curl [^`]*)```\n\n```json\n([^`]*)```")

// intoFile is a curl line of README.md whose answer goes into a file.
var intoFile = regexp.MustCompile("(?m)^curl .* -o ([^ \n]+)")

// shell is a block of README.md with commands that use curl, which may stand in a
// list, and the answer below it if there is one.
var shell = regexp.MustCompile("(?m)^ *```sh\n((?:[^`]*[ \n])?curl [^`]*)```\n(?:\n```json\n([^`]*)```)?")

// TestReadmeInShell pastes the curl lines of README.md into a shell.
func TestReadmeInShell(t *testing.T) {
	for _, program := range []string{"sh", "curl"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("%s is not installed here; TestReadme sends most of the lines without it", program)
		}
	}
	data, err := os.ReadFile(readme)
	require.NoError(t, err)
	server := httptest.NewServer(New(Options{}))
	defer server.Close()
	blocks := shell.FindAllStringSubmatch(string(data), -1)
	require.Len(t, blocks, strings.Count(string(data), "curl http://")+strings.Count(string(data), "curl 'http://")+1, "one command a block, and a stream")
	for _, m := range blocks {
		command := exec.Command("sh", "-c", strings.ReplaceAll(m[1], "http://127.0.0.1:8080", server.URL))
		command.Dir = t.TempDir()
		answer, took := output(t, command)
		if strings.Contains(m[1], "sleep 1") {
			assert.Greater(t, took, 300*time.Millisecond, "the first answer comes while the second line is waited for")
		}
		switch file := intoFile.FindStringSubmatch(m[1]); {
		case file != nil:
			answer, err := os.ReadFile(filepath.Join(command.Dir, file[1]))
			require.NoError(t, err)
			assert.Contains(t, string(answer), ">IIm7<", m[1])
		case m[2] != "":
			assert.Regexp(t, shownAs(m[2]), strings.ReplaceAll(string(answer), "\n", ""), m[1])
		default:
			assert.Contains(t, string(answer), `"symbol":"G7"`, m[1])
		}
	}
}

// output is what a command prints, and how long that is after its first line.
func output(t *testing.T, command *exec.Cmd) (text []byte, took time.Duration) {
	t.Helper()
	out, err := command.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, command.Start())
	in := bufio.NewReader(out)
	first, _ := in.ReadBytes('\n')
	start := time.Now()
	rest, err := io.ReadAll(in)
	require.NoError(t, err)
	took = time.Since(start)
	require.NoError(t, command.Wait(), command.Args)
	return append(first, rest...), took
}

// TestReadme sends what the curl lines of README.md say and holds the answers
// against what it shows. With -update the probabilities are made to fit; all
// else there is written by hand.
func TestReadme(t *testing.T) {
	data, err := os.ReadFile(readme)
	require.NoError(t, err)
	text := string(data)
	found := exchange.FindAllStringSubmatch(text, -1)
	require.Len(t, found, strings.Count(text, "\ncurl ")-len(intoFile.FindAllString(text, -1)), "every curl line has its answer, or a file for it")
	require.NotEmpty(t, found)
	for _, m := range found {
		command, shown := m[1], m[2]
		answer := httptest.NewRecorder()
		New(Options{}).ServeHTTP(answer, requestOf(t, command))
		told := shownAs(shown).FindStringSubmatch(strings.ReplaceAll(answer.Body.String(), "\n", ""))
		if !assert.NotNil(t, told, "%s\nis answered\n%s\nwhich is not\n%s", command, answer.Body, shown) {
			continue
		}
		fitting := withProbabilities(shown, told[1:])
		if *update {
			text = strings.Replace(text, shown, fitting, 1)
			continue
		}
		assert.Equal(t, fitting, shown, command)
	}
	if *update {
		require.NoError(t, os.WriteFile(readme, []byte(text), 0o644))
	}
}

var words = regexp.MustCompile(`'[^']*'|[^\s']+`)

// requestOf reads a curl command with the options that README.md uses.
func requestOf(t *testing.T, command string) *http.Request {
	t.Helper()
	list := words.FindAllString(command, -1)
	for i := range list {
		list[i] = strings.Trim(list[i], "'")
	}
	method, target, body, headers := http.MethodGet, "", "", map[string]string{}
	for i := 1; i < len(list); i++ {
		switch word := list[i]; word {
		case "-H":
			i++
			name, value, _ := strings.Cut(list[i], ": ")
			headers[name] = value
		case "-d":
			i++
			method, body = http.MethodPost, strings.ReplaceAll(list[i], "\n", "") // as curl does
		case "--data-binary":
			i++
			method, body = http.MethodPost, list[i]
		default:
			require.Empty(t, target, "%q of %q is not understood", word, command)
			target = word
		}
	}
	require.True(t, strings.HasPrefix(target, "http://127.0.0.1:8080/"), target)
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	for name, value := range headers {
		r.Header.Set(name, value)
	}
	return r
}

// token is a part of an answer as README.md shows it. The first group is a
// probability.
var token = regexp.MustCompile(`"confidence": ([0-9.e-]+)|"(?:[^"\\]|\\.)*"|\.\.\.|\s+|.`)

// shownAs matches an answer as README.md shows it: the space between words is
// for the eye, dots are anything, and any probability is captured.
func shownAs(shown string) *regexp.Regexp {
	var b strings.Builder
	for _, m := range token.FindAllStringSubmatch(shown, -1) {
		switch {
		case m[1] != "":
			b.WriteString(`"confidence":([0-9.e-]+)`)
		case m[0] == "...":
			b.WriteString(`.*?`)
		default:
			b.WriteString(regexp.QuoteMeta(strings.TrimSpace(m[0])))
		}
	}
	return regexp.MustCompile(`^` + b.String() + `$`)
}

// withProbabilities is the answer as shown with these probabilities in turn.
func withProbabilities(shown string, told []string) string {
	next := -1
	return token.ReplaceAllStringFunc(shown, func(part string) string {
		if !strings.HasPrefix(part, `"confidence": `) {
			return part
		}
		next++
		return `"confidence": ` + told[next]
	})
}
