package sheet

// Colours of a drawn sheet. They are only a second cue: keys are named, and
// their bands dashed in ways of their own.
const (
	paper = "#ffffff"
	ink   = "#1b1d20"
	quiet = "#565c63" // numbers, slashes, legend
)

// band is how the band of a key looks.
type band struct {
	colour string
	dashes string // of the line; empty: solid
}

// bands are those of the home key and of the others in the order in which they
// come up, over again where there are more.
var bands = []band{
	{"#1d4f63", ""},
	{"#8f3d14", "14 4"},
	{"#5a3a8e", "5 3"},
	{"#27662f", "14 3 3 3"},
	{"#86265a", "9 3 3 3 3 3"},
	{"#5f5600", "2 3"},
	{"#8f3d14", "20 6"},
	{"#5a3a8e", "8 8"},
	{"#27662f", "14 3 3 3 3 3"},
	{"#86265a", "3 6"},
	{"#5f5600", "20 3 2 3"},
	{"#1d4f63", "6 2 2 2 2 2"},
	{"#8f3d14", "11 5 5 5"},
}
