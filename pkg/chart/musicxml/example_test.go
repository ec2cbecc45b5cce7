package musicxml_test

import (
	"fmt"
	"strings"

	"fifthwise/pkg/chart"
	"fifthwise/pkg/chart/musicxml"
)

const sheet = `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
  <work><work-title>Low Tide</work-title></work>
  <part-list><score-part id="P1"><part-name>Lead</part-name></score-part></part-list>
  <part id="P1">
    <measure number="1">
      <attributes><divisions>1</divisions><key><fifths>-1</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
      <harmony><root><root-step>G</root-step></root><kind text="m7">minor-seventh</kind></harmony>
      <note><rest/><duration>2</duration></note>
      <harmony><root><root-step>C</root-step></root><kind text="7">dominant</kind></harmony>
      <note><rest/><duration>2</duration></note>
    </measure>
    <measure number="2">
      <harmony><root><root-step>F</root-step></root><kind text="maj7">major-seventh</kind></harmony>
      <note><rest/><duration>4</duration></note>
    </measure>
  </part>
</score-partwise>
`

func ExampleRead() {
	d, err := musicxml.Read([]byte(sheet))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(d.Chart())
	// Output:
	// Title: Low Tide
	// Meter: 4/4
	// Key: F major
	//
	// | Gm7 C7 | Fmaj7 |
}

// What is not understood is told with its place in the score.
func ExampleRead_error() {
	_, err := musicxml.Read([]byte(strings.Replace(sheet, "major-seventh", "majorish", 1)))
	fmt.Println(err)
	// Output:
	// part "Lead", measure 2, line 14, "Fmaj7": the kind "majorish" is none of MusicXML's (such as major, minor, dominant, minor-seventh)
}

// The words are added behind the chord symbols; all else stays as it was.
func ExampleDocument_Annotate() {
	d, err := musicxml.Read([]byte(sheet))
	if err != nil {
		fmt.Println(err)
		return
	}
	out, err := d.Annotate([]chart.Mark{{Bar: 0, Chord: 1, Below: "V7"}})
	if err != nil {
		fmt.Println(err)
		return
	}
	was := strings.Split(sheet, "\n")
	for i, line := range strings.Split(string(out), "\n") {
		if line != was[i] {
			fmt.Println(strings.TrimSpace(line))
		}
	}
	// Output:
	// <harmony><root><root-step>C</root-step></root><kind text="7">dominant</kind></harmony><!--fifthwise--><direction placement="below"><direction-type><words>V7</words></direction-type></direction><!--/fifthwise-->
}

func ExampleWrite() {
	c, err := chart.Parse("| Dm7 |")
	if err != nil {
		fmt.Println(err)
		return
	}
	out := string(musicxml.Write(c, []chart.Mark{{Above: "C major", Below: "IIm7"}}))
	start := strings.Index(out, "      <harmony>")
	fmt.Print(out[start : start+strings.Index(out[start:], "\n")+1])
	// Output:
	// <harmony><root><root-step>D</root-step></root><kind text="m7">minor-seventh</kind></harmony><!--fifthwise--><direction placement="above"><direction-type><words>C major</words></direction-type></direction><!--/fifthwise--><!--fifthwise--><direction placement="below"><direction-type><words>IIm7</words></direction-type></direction><!--/fifthwise-->
}
