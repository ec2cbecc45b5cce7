package chart

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fifthwise/pkg/key"
)

// placed is "C 0+4; F 4+4" for chords and what they occupy.
func placed(slots []Slot) string {
	var parts []string
	for _, s := range slots {
		parts = append(parts, fmt.Sprintf("%s %v+%v", s.Symbol, s.At, s.Len))
	}
	return strings.Join(parts, "; ")
}

func on(symbol string, beat Beats) Entry   { return Entry{Symbol: symbol, Beat: beat} }
func lasts(symbol string, len Beats) Entry { return Entry{Symbol: symbol, Beats: len} }
func plain(symbols ...string) (list []Entry) {
	for _, s := range symbols {
		list = append(list, Entry{Symbol: s})
	}
	return list
}

func TestFillBar(t *testing.T) {
	tests := []struct {
		name    string
		meter   Meter
		entries []Entry
		want    string
	}{
		{"no chords", Meter{4, 4}, nil, ""},
		{"evenly", Meter{4, 4}, plain("C", "F"), "C 0+2; F 2+2"},
		{"three evenly", Meter{4, 4}, plain("C", "F", "G"), "C 0+4/3; F 4/3+4/3; G 8/3+4/3"},
		{"evenly in 6/8", Meter{6, 8}, plain("C", "F"), "C 0+1; F 1+1"},
		{"with beat, to the next and to the end", Meter{4, 4}, []Entry{on("C", B(1, 1)), on("F", B(7, 2))}, "C 0+5/2; F 5/2+3/2"},
		{"with beat, the chord before holds", Meter{4, 4}, []Entry{on("C", B(3, 1))}, "C 2+2"},
		{"with beats", Meter{4, 4}, []Entry{lasts("C", B(3, 1)), lasts("F", B(1, 1))}, "C 0+3; F 3+1"},
		{"with beats, underfull", Meter{4, 4}, []Entry{lasts("C", B(1, 1)), lasts("F", B(1, 2))}, "C 0+1; F 1+1/2"},
		{"the rest shares what is left", Meter{4, 4}, []Entry{lasts("C", B(2, 1)), {Symbol: "F"}, {Symbol: "G"}}, "C 0+2; F 2+1; G 3+1"},
		{"what is left in front", Meter{4, 4}, []Entry{{Symbol: "C"}, lasts("F", B(1, 1))}, "C 0+3; F 3+1"},
		{"beat and beats", Meter{4, 4}, []Entry{{Symbol: "C", Beat: B(2, 1), Beats: B(3, 1)}}, "C 1+3"},
		{"a beat behind chords that share", Meter{4, 4}, []Entry{{Symbol: "C"}, {Symbol: "D"}, on("F", B(4, 1))}, "C 0+3/2; D 3/2+3/2; F 3+1"},
		{"a chord with beats behind one with beat", Meter{4, 4}, []Entry{on("C", B(1, 1)), lasts("F", B(1, 1))}, "C 0+3; F 3+1"},
		{"Harte's syntax", Meter{4, 4}, plain("C:min7", "N"), "C:min7 0+2; N 2+2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			slots, err := FillBar(tt.meter, tt.entries)
			require.NoError(t, err)
			assert.Equal(t, tt.want, placed(slots))
		})
	}
}

func TestFillBarErrors(t *testing.T) {
	tests := []struct {
		name    string
		entries []Entry
		chord   int
		wantErr string
	}{
		{"unknown symbol", plain("C", "H"), 1, `"H": ` + said("H")},
		{"empty symbol", plain(""), 0, said("")},
		{"overfull", []Entry{lasts("C", B(3, 1)), lasts("F", B(3, 2))}, 1, `"F": the chord lasts 1/2 beats beyond the end of the bar (the bar has 4 beats)`},
		{"overfull by one", []Entry{lasts("C", B(5, 1))}, 0, `"C": the chord lasts 1 beat beyond the end of the bar (the bar has 4 beats)`},
		{"longer than to the next", []Entry{lasts("C", B(3, 1)), on("F", B(3, 1))}, 0, `"C": the chord lasts 1 beat beyond beat 3 (there are 2 beats before beat 3)`},
		{"nothing before the next", []Entry{lasts("C", B(1, 1)), on("F", B(4, 1))}, 1, `"F": no chord for 2 beats before beat 4 (let the chord before last until then, or write N.C.)`},
		{"nothing left to share", []Entry{lasts("C", B(4, 1)), {Symbol: "F"}}, 1, `"F": no time is left for the chord before the end of the bar (the bar has 4 beats)`},
		{"a beat behind the bar", []Entry{on("C", B(5, 1))}, 0, `"C": beat 5 lies behind the bar (its last beat is 4)`},
		{"a beat before the bar", []Entry{on("C", B(1, 2))}, 0, `"C": beat 1/2 lies before the bar (it starts on beat 1)`},
		{"beats out of order", []Entry{on("C", B(3, 1)), on("F", B(2, 1))}, 1, `"F": beat 2 does not come after beat 3`},
		{"negative beats", []Entry{lasts("C", B(-1, 1))}, 0, `"C": a chord of -1 beats`},
		{"too fine", []Entry{lasts("C", B(1, 10007)), {Symbol: "F"}}, 0, `"C": the beat is divided into more than 10000 parts`},
		{"too many", plain(strings.Split(strings.Repeat("C", 65), "")...), 64, `a bar holds at most 64 chords`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			slots, err := FillBar(Meter{4, 4}, tt.entries)
			var list ErrorList
			require.ErrorAs(t, err, &list)
			assert.Nil(t, slots)
			assert.Equal(t, tt.chord, list[0].Chord)
			assert.Equal(t, tt.wantErr, list[0].Error())
		})
	}
	_, err := FillBar(Meter{4, 4}, plain("C", "H", "x"))
	assert.EqualError(t, err, `"H": `+said("H")+"\n"+`"x": `+said("x"))
}

func TestFromEntries(t *testing.T) {
	number := func(n int) *int { return &n }
	full := BarEntries{Chords: plain("C")}
	tests := []struct {
		name     string
		bars     []BarEntries
		want     string
		pickup   Beats
		warnings []Warning
	}{
		{"evenly", []BarEntries{{Chords: plain("C", "F")}, full}, "1.1 C 2; 1.3 F 2; 2.1 C 4", Beats{}, nil},
		{"an empty bar holds", []BarEntries{full, {}, {Chords: plain("F")}}, "1.1 C 8; 3.1 F 4", Beats{}, nil},
		{"a late chord holds the one before", []BarEntries{full, {Chords: []Entry{on("F", B(3, 1))}}}, "1.1 C 6; 2.3 F 2", Beats{}, nil},
		{"a change of meter", []BarEntries{full, {Meter: Meter{3, 4}, Chords: plain("F")}, full}, "1.1 C 4; 2.1 F 3; 3.1 C 3", Beats{}, nil},
		{"a pickup by its length", []BarEntries{{Chords: []Entry{lasts("G7", B(1, 1))}}, full}, "0.4 G7 1; 1.1 C 4", B(1, 1), nil},
		{"a pickup by its beat", []BarEntries{{Chords: []Entry{on("G7", B(4, 1))}}, full}, "0.4 G7 1; 1.1 C 4", B(1, 1), nil},
		{"a pickup by both", []BarEntries{{Chords: []Entry{{Symbol: "G7", Beat: B(1, 1), Beats: B(1, 1)}}}, full}, "0.1 G7 1; 1.1 C 4", B(1, 1), nil},
		{"a pickup with its number", []BarEntries{{Number: number(0), Chords: []Entry{on("G7", B(4, 1))}}, full}, "0.4 G7 1; 1.1 C 4", B(1, 1), nil},
		{"a late start", []BarEntries{{Number: number(1), Chords: []Entry{on("G7", B(4, 1))}}, full}, "1.4 G7 1; 2.1 C 4", Beats{},
			[]Warning{{1, "nothing sounds before beat 4; N.C. or a pickup would say so"}}},
		{"an incomplete last bar", []BarEntries{full, {Chords: []Entry{lasts("F", B(3, 1))}}}, "1.1 C 4; 2.1 F 3", Beats{}, nil},
		{"an incomplete only bar", []BarEntries{{Chords: []Entry{lasts("F", B(3, 1))}}}, "1.1 F 3", Beats{}, nil},
		{"numbers", []BarEntries{{Number: number(17), Chords: plain("C")}, full, {Number: number(5), Chords: plain("F", "G", "A")}}, "17.1 C 4; 18.1 C 4; 5.1 F 4/3; 5.7/3 G 4/3; 5.11/3 A 4/3", Beats{},
			[]Warning{{5, "3 chords share 4 beats evenly, 4/3 beats each"}}},
		{"a whole bar of number 0", []BarEntries{{Number: number(0), Chords: plain("C")}, full}, "0.1 C 4; 1.1 C 4", Beats{}, nil},
		{"optional chords", []BarEntries{full, {Chords: []Entry{{Symbol: "G7", Optional: true}}}}, "1.1 C 4; 2.1 (G7) 4", Beats{}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := FromEntries(Header{Title: " Night Bus ", Key: key.MustParse("F major")}, tt.bars)
			require.NoError(t, err)
			assert.Equal(t, tt.want, told(c))
			assert.Equal(t, tt.pickup, c.Pickup)
			assert.Equal(t, tt.warnings, c.Warnings)
			assert.Equal(t, "Night Bus", c.Title)
			assert.Equal(t, Meter{4, 4}, c.Meter)
			assert.NoError(t, c.Validate())
		})
	}
}

func TestFromEntriesErrors(t *testing.T) {
	full := BarEntries{Chords: plain("C")}
	short := BarEntries{Chords: []Entry{lasts("C", B(3, 1))}}
	tests := []struct {
		name    string
		header  Header
		bars    []BarEntries
		wantErr string
	}{
		{"no bars", Header{}, nil, "the chart has no bars (write chords between bar lines: | C | F G |)"},
		{"nothing to hold", Header{}, []BarEntries{{}, full}, "bar 1: no chord stands before the bar that could be held through it (write N.C. for silence)"},
		{"underfull", Header{}, []BarEntries{full, short, full}, "bar 2: the bar has 3 of 4 beats (only the first and the last bar may be incomplete, the first as a pickup)"},
		{"a bad symbol", Header{}, []BarEntries{full, {Chords: plain("H")}, {}}, `bar 2, "H": ` + said("H")},
		{"a bad meter", Header{}, []BarEntries{full, {Meter: Meter{3, 5}, Chords: plain("C")}, full}, "bar 2: 3/5 is no meter"},
		{"a bad meter of the chart", Header{Meter: Meter{3, 5}}, []BarEntries{full, full}, "3/5 is no meter"},
		{"a bad title", Header{Title: "A\nB"}, []BarEntries{full}, "the title holds a line break or another control character"},
		{"a bad section", Header{}, []BarEntries{{Section: "A]", Chords: plain("C")}}, `bar 1, "A]": the name of the section holds ]`},
		{"several", Header{}, []BarEntries{{Chords: plain("H")}, short, {Chords: plain("c", "D")}, {Chords: []Entry{lasts("C", B(5, 1))}}},
			`bar 1, "H": ` + said("H") + "\nbar 2: the bar has 3 of 4 beats (only the first and the last bar may be incomplete, the first as a pickup)\n" +
				`bar 3, "c": ` + said("c") + "\n" + `bar 4, "C": the chord lasts 1 beat beyond the end of the bar (the bar has 4 beats)`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := FromEntries(tt.header, tt.bars)
			assert.EqualError(t, err, tt.wantErr)
		})
	}
}
