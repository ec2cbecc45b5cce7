package evaluate

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/function"
	"fifthwise/pkg/key"
)

func TestLoosen(t *testing.T) {
	m := function.NewModel(function.Default())
	tests := []struct {
		name, words string
		loosened    []int
	}{
		{"nothing to loosen", "C:I F:IV G7:V C:I", nil},
		{"a key between two strokes of one chord", "C:I F:IV G:V C:I |F C:V F:I C7:V F:I", []int{4}},
		{"a label that no reading has is passed over", "C:I F:bV G7:V C:I", nil},
	}
	for _, tt := range tests {
		p := invented(t, tt.name, tt.words)
		given := p.labels()
		want := p.labels()
		assert.Equal(t, len(tt.loosened), p.loosen(given, m), tt.name)
		for _, i := range tt.loosened {
			want[i] = function.Given{}
		}
		assert.Equal(t, want, given, tt.name)
		_, told := function.Expect(p.Chart, m, given)
		assert.True(t, finite(told.LogSum), tt.name)
	}
}

func TestMarginLeavesOutWhatCannotBe(t *testing.T) {
	p := invented(t, "Sill", "C:I F:IV G:V C:I |F C:V F:I C7:V F:I")
	got := MarginOf(&p, function.NewModel(function.Default()))
	assert.Equal(t, 7, got.Chords)
	assert.Equal(t, 1, got.Left)
	assert.Positive(t, got.Nats)

	for i := range p.Answers {
		p.Answers[i] = Answer{}
	}
	got = MarginOf(&p, function.NewModel(function.Default()))
	assert.Zero(t, got, "nothing was said")

	p = invented(t, "Quoin", "C:I G7:V C:I G7:V C:I")
	sure := MarginOf(&p, function.NewModel(function.Default()))
	for i := range p.Answers {
		p.Answers[i].Key = key.MustParse("Db major")
	}
	odd := MarginOf(&p, function.NewModel(function.Default()))
	require.Equal(t, 5, odd.Chords)
	assert.Greater(t, odd.Mean(), sure.Mean()+1, "an odd analyst lies further off")
	assert.Less(t, sure.Mean(), .1)
}
