package function

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A sentence belongs to one role, names a source beside it and uses only marks
// that explain fills.
func TestSentencesOfTheVocabulary(t *testing.T) {
	marks := regexp.MustCompile(`\{[^}]*\}`)
	known := []string{"{chord}", "{key}", "{tonic}", "{root}", "{3}", "{5}", "{6}", "{7}", "{target}", "{goal}", "{lead}", "{fourth}", "{dominant}", "{sharp}", "{above}", "{below}", "{pull}", "{foreign}"}
	role := map[string]Role{}
	for i := range idioms {
		row := &idioms[i]
		assert.NotEmpty(t, row.says, "row %d", i)
		assert.NotEmpty(t, row.source, row.says)
		assert.NotRegexp(t, `[.;]$`, row.says, "the stop is put behind it")
		for _, m := range marks.FindAllString(row.says, -1) {
			assert.Contains(t, known, m, row.says)
			if m == "{target}" {
				assert.NotEmpty(t, row.of, row.says)
			}
		}
		if r, ok := role[row.says]; ok {
			assert.Equal(t, r, row.role, "one sentence for two roles: %s", row.says)
		}
		role[row.says] = row.role
	}
}
