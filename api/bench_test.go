package api

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/gin-gonic/gin"
	"github.com/go-json-experiment/json"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
	"fifthwise/pkg/chart"
	"fifthwise/pkg/function"
)

// tune is a request of about 2 KB: a chart of 16 bars as lists.
func tune() string {
	symbols := strings.Fields("Fmaj7 Dm7 Gm7 C7 Am7 D7b9 Gm7 C7 Ebm7 Ab7 Dbmaj7 Dbmaj7 Gm7 C7alt Fmaj7 F6/9")
	bars := make([]string, len(symbols))
	for i, s := range symbols {
		bars[i] = fmt.Sprintf(`{"number": %d, "meter": "4/4", "chords": [{"symbol": %q, "beat": 1, "beats": 4, "optional": false}]}`, i+1, s)
	}
	return `{"title": "Night Bus", "meter": "4/4", "key": "F major", "bars": [` + strings.Join(bars, ", ") + `], "options": {"alternatives": 2}}`
}

// The cost of an answer beside that of the same bytes read and written by the
// same JSON packages, with nothing in between.
func BenchmarkAnalyses(b *testing.B) {
	b.Run("fifthwise", func(b *testing.B) { benchmark(b, New(Options{})) })
	b.Run("echo", func(b *testing.B) { benchmark(b, echo(b)) })
}

func echo(b *testing.B) http.Handler {
	var answer wire.Analysis
	require.NoError(b, json.Unmarshal(post(New(Options{}), tune()).Body.Bytes(), &answer))
	r := gin.New()
	r.POST("/v1/analyses", func(c *gin.Context) {
		body, err := io.ReadAll(c.Request.Body)
		if err != nil {
			panic(err)
		}
		var request wire.AnalysisRequest
		if err := json.Unmarshal(body, &request); err != nil {
			panic(err)
		}
		text, err := json.Marshal(&answer)
		if err != nil {
			panic(err)
		}
		c.Data(http.StatusOK, mediaJSON, text)
	})
	return r
}

func benchmark(b *testing.B, h http.Handler) {
	body := tune()
	b.ReportAllocs()
	size := 0
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/analyses", strings.NewReader(body))
		r.Header.Set("Content-Type", mediaJSON)
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatal(w.Code, w.Body)
		}
		size = w.Body.Len()
	}
	b.ReportMetric(float64(len(body)), "B/request")
	b.ReportMetric(float64(size), "B/answer")
}

// The search beside the JSON of its request and its answer, of a tune of 32 bars.
func BenchmarkReading(b *testing.B) {
	const quarter = "Ebmaj7 | Gm7 C7b9 | Fm7 | Bb7sus4 Bb7 | Gm7 C7 | Fm7 Bb7 | "
	c, err := chart.Parse("[A] " + quarter + "Ebmaj7 | Fm7 Bb7 | [A] " + quarter + "Eb6 | Eb6 | " +
		"[B] Bbm7 | Eb7 | Abmaj7 | Ab6 | Am7b5 | D7b9 | Gm7 C7 | Fm7 Bb7 | [A] " + quarter + "Eb6 Abm6 | Gm7 C7")
	require.NoError(b, err)
	body, err := json.Marshal(wire.AnalysisRequest{Chart: wire.Chart{Bars: barsOf(c)}})
	require.NoError(b, err)
	var answer wire.Analysis
	require.NoError(b, json.Unmarshal(post(New(Options{}), string(body)).Body.Bytes(), &answer))
	b.Run("search", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			function.Analyze(c)
		}
	})
	b.Run("json", func(b *testing.B) {
		b.ReportAllocs()
		size := 0
		for b.Loop() {
			var request wire.AnalysisRequest
			if err := json.Unmarshal(body, &request); err != nil {
				b.Fatal(err)
			}
			text, err := json.Marshal(&answer)
			if err != nil {
				b.Fatal(err)
			}
			size = len(text)
		}
		b.ReportMetric(float64(len(body)), "B/request")
		b.ReportMetric(float64(size), "B/answer")
	})
}
