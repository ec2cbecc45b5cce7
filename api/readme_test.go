package api

import (
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const readme = "../README.md"

// exchange is a curl line of README.md with the answer below it.
var exchange = regexp.MustCompile("(?s)```sh\n(curl [^`]*)```\n\n```json\n([^`]*)```")

// TestReadme sends what the curl lines of README.md say and holds the answers
// against what it shows. With -update the probabilities are made to fit; all
// else there is written by hand.
func TestReadme(t *testing.T) {
	data, err := os.ReadFile(readme)
	require.NoError(t, err)
	text := string(data)
	found := exchange.FindAllStringSubmatch(text, -1)
	require.Len(t, found, strings.Count(text, "\ncurl "), "every curl line has its answer")
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
