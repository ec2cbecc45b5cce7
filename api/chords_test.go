package api

import (
	"encoding/json"
	"net/http"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/api/wire"
)

func TestChord(t *testing.T) {
	tests := []struct{ path, want string }{
		{"F/A", `{"symbol": "F/A", "canonical": "F/A", "root": "F", "bass": "A", "quality": "", "family": "major",
			"notes": ["F", "A", "C"], "degrees": ["1", "3", "5"], "intervals": ["unison", "major third", "perfect fifth"],
			"harte": "F:maj/3", "enharmonic": null, "other_spellings": ["Fmaj/A", "FM/A", "Fma/A", "Fj/A"]}`},
		{"C%23-7", `{"symbol": "C#-7", "canonical": "C#m7", "root": "C#", "bass": "C#", "quality": "m7", "family": "minor",
			"notes": ["C#", "E", "G#", "B"], "degrees": ["1", "b3", "5", "b7"], "intervals": ["unison", "minor third", "perfect fifth", "minor seventh"],
			"harte": "C#:min7", "enharmonic": "Dbm7", "other_spellings": ["C#min7", "C#mi7", "C#-7", "C#−7", "Dbm7"]}`},
		{"Gb:(1,b3,b7,9)?accidentals=unicode", `{"symbol": "Gb:(1,b3,b7,9)", "canonical": "G♭:(1,♭3,♭7,9)", "root": "G♭", "bass": "G♭", "quality": ":(1,♭3,♭7,9)", "family": "minor",
			"notes": ["G♭", "B♭♭", "F♭", "A♭"], "degrees": ["1", "♭3", "♭7", "9"], "intervals": ["unison", "minor third", "minor seventh", "major ninth"],
			"harte": "Gb:(1,b3,b7,9)", "enharmonic": "F♯:(1,♭3,♭7,9)", "other_spellings": ["F#:(1,b3,b7,9)"]}`},
		{"N.C.", `{"symbol": "N.C.", "canonical": "N.C.", "root": "", "bass": "", "quality": "", "family": "none",
			"notes": [], "degrees": [], "intervals": [], "harte": "N", "enharmonic": null, "other_spellings": []}`},
	}
	for _, tt := range tests {
		w := ask(t, http.MethodGet, "/v1/chords/"+tt.path, "")
		assert.Equal(t, http.StatusOK, w.Code)
		assert.JSONEq(t, tt.want, w.Body.String(), tt.path)
	}
}

func TestSlashOfAChordMayBeEscaped(t *testing.T) {
	bare, escaped := ask(t, http.MethodGet, "/v1/chords/F/A", ""), ask(t, http.MethodGet, "/v1/chords/F%2FA", "")
	assert.Equal(t, bare.Body.String(), escaped.Body.String())
	six := ask(t, http.MethodGet, "/v1/chords/C6/9/E", "")
	assert.Contains(t, six.Body.String(), `"canonical":"C6/9/E"`)
}

func TestKey(t *testing.T) {
	w := ask(t, http.MethodGet, "/v1/keys/Ebm?numerals=cased", "")
	assert.JSONEq(t, `{"key": "Eb minor", "tonic": "Eb", "mode": "minor",
		"signature": {"sharps": 0, "flats": 6, "notes": ["Bb", "Eb", "Ab", "Db", "Gb", "Cb"]},
		"scale": ["Eb", "F", "Gb", "Ab", "Bb", "Cb", "Db"],
		"diatonic_triads": [
			{"numeral": "i", "symbol": "Ebm", "notes": ["Eb", "Gb", "Bb"]},
			{"numeral": "iidim", "symbol": "Fdim", "notes": ["F", "Ab", "Cb"]},
			{"numeral": "bIII", "symbol": "Gb", "notes": ["Gb", "Bb", "Db"]},
			{"numeral": "iv", "symbol": "Abm", "notes": ["Ab", "Cb", "Eb"]},
			{"numeral": "v", "symbol": "Bbm", "notes": ["Bb", "Db", "F"]},
			{"numeral": "bVI", "symbol": "Cb", "notes": ["Cb", "Eb", "Gb"]},
			{"numeral": "bVII", "symbol": "Db", "notes": ["Db", "F", "Ab"]}],
		"diatonic_sevenths": [
			{"numeral": "i7", "symbol": "Ebm7", "notes": ["Eb", "Gb", "Bb", "Db"]},
			{"numeral": "ii7b5", "symbol": "Fm7b5", "notes": ["F", "Ab", "Cb", "Eb"]},
			{"numeral": "bIIImaj7", "symbol": "Gbmaj7", "notes": ["Gb", "Bb", "Db", "F"]},
			{"numeral": "iv7", "symbol": "Abm7", "notes": ["Ab", "Cb", "Eb", "Gb"]},
			{"numeral": "v7", "symbol": "Bbm7", "notes": ["Bb", "Db", "F", "Ab"]},
			{"numeral": "bVImaj7", "symbol": "Cbmaj7", "notes": ["Cb", "Eb", "Gb", "Bb"]},
			{"numeral": "bVII7", "symbol": "Db7", "notes": ["Db", "F", "Ab", "Cb"]}],
		"relative": "Gb major", "parallel": "Eb major",
		"closely_related": ["Gb major", "Db major", "Bb minor", "Cb major", "Ab minor"],
		"enharmonic": "D# minor"}`, w.Body.String())
}

func TestKeyNames(t *testing.T) {
	tests := []struct{ path, key, first string }{
		{"C", "C major", "Imaj7"},
		{"F%23%20minor", "F# minor", "Im7"},
		{"F%23m", "F# minor", "Im7"},
		{"D%20dorian", "D dorian", "Im7"},
		{"B%E2%99%AD%20mixolydian?numerals=arabic", "Bb mixolydian", "1 7"},
		{"G%23?accidentals=unicode", "G♯ major", "Imaj7"},
	}
	for _, tt := range tests {
		w := ask(t, http.MethodGet, "/v1/keys/"+tt.path, "")
		require.Equal(t, http.StatusOK, w.Code, tt.path)
		var got wire.KeyInfo
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &got))
		assert.Equal(t, tt.key, got.Key)
		assert.Equal(t, tt.first, got.DiatonicSevenths[0].Numeral)
	}
}

func TestReferenceRefusals(t *testing.T) {
	offset := func(n int) *int { return &n }
	tests := []struct {
		target string
		status int
		faults []Fault
	}{
		{"/v1/chords/c7", 422, []Fault{{Pointer: "/symbol", Detail: "expected the root in upper case", Hint: "write C7 or Cm7", Symbol: "c7", Offset: offset(0)}}},
		{"/v1/chords/C%2F%2FA", 422, []Fault{{Pointer: "/symbol", Detail: "expected a note name A to G", Symbol: "C//A", Offset: offset(2)}}},
		{"/v1/chords/ii7", 422, []Fault{{Pointer: "/symbol", Detail: "expected a root A to G or N.C.", Hint: "this looks like a numeral, not like a chord symbol; /v1/realizations makes chords of numerals", Symbol: "ii7", Offset: offset(0)}}},
		{"/v1/keys/eb", 422, []Fault{{Pointer: "/key", Detail: "expected a note name A to G", Hint: "write Eb major or Eb minor", Symbol: "eb", Offset: offset(0)}}},
		{"/v1/chords/C?accidental=unicode&x~%2F=1", 422, []Fault{
			{Pointer: "/accidental", Detail: "unknown parameter", Hint: "write accidentals"},
			{Pointer: "/x~0~1", Detail: "unknown parameter", Hint: "the parameters are accidentals"}}},
		{"/v1/keys/C?numerals=roman&accidentals=ascii&accidentals=unicode", 422, []Fault{
			{Pointer: "/accidentals", Detail: "the parameter stands more than once"},
			{Pointer: "/numerals", Detail: "expected upper, cased or arabic"}}},
		{"/v1/chords/C%FF", 400, []Fault{{Detail: "the URL is not UTF-8"}}},
		{"/v1/chords/C?%FF=1", 400, []Fault{{Detail: "the URL is not UTF-8"}}},
		{"/v1/chords/C?a;b", 400, []Fault{{Detail: "the query is not as a URL demands", Hint: "write % as %25, ; as %3B"}}},
		{"/v1/chords/", 404, nil},
		{"/v1/chords", 404, nil},
		{"/v1/keys/", 404, nil},
		{"/v1/keys/C/major", 404, nil},
	}
	for _, tt := range tests {
		w := ask(t, http.MethodGet, tt.target, "")
		assert.Equal(t, tt.status, w.Code, tt.target)
		var p wire.Problem
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &p))
		assert.Equal(t, tt.faults, p.Errors, tt.target)
	}
	assert.Equal(t, http.StatusNotAcceptable, ask(t, http.MethodGet, "/v1/chords/C", "", "Accept", "text/html").Code)
	assert.Equal(t, http.StatusMethodNotAllowed, ask(t, http.MethodDelete, "/v1/keys/C", "").Code)
}

// Whatever the path names is answered as the document says, and never with a
// fault of the service.
func FuzzReference(f *testing.F) {
	for _, seed := range []string{"F/A", "F#ø", "N.C.", "c7", "C:(1,b3,b7,9)/b3", "Eb major", "d dorian", "G#", "", "//", "C\xff", "..", "%2F", "C?x=1", "♭"} {
		f.Add(seed)
	}
	h := New(Options{})
	f.Fuzz(func(t *testing.T, name string) {
		for _, path := range []string{"/v1/chords/", "/v1/keys/"} {
			w := askOf(t, h, http.MethodGet, path+url.PathEscape(name), "")
			assert.Contains(t, []int{200, 400, 404, 422}, w.Code, "%q: %s", name, w.Body)
		}
	})
}
