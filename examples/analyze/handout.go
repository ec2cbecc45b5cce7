package main

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"

	"fifthwise/pkg/sheet"
)

// handoutHead begins a document of pages, each on its own sheet of paper, with the
// paper's name and the title to be filled in. It is well-formed XML too.
const handoutHead = `<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" lang="en">
<head>
<meta charset="utf-8"/>
<meta name="viewport" content="width=device-width"/>
<title>%[2]s</title>
<style>
@page { size: %[1]s; margin: 0 }
body { margin: 0; background: #ebe9e4 }
svg { display: block; margin: 24px auto; max-width: 100%%; height: auto; box-shadow: 0 1px 6px #0004 }
@media print {
  body { background: none }
  svg { margin: 0; box-shadow: none; break-inside: avoid }
  svg:not(:last-child) { break-after: page }
}
</style>
</head>
<body>
`

// handout is a document to print, in HTML, that needs nothing from elsewhere.
func handout(title string, paper sheet.Paper, pages [][]byte) []byte {
	var out, escaped bytes.Buffer
	_ = xml.EscapeText(&escaped, []byte(cmp.Or(title, "Chord chart"))) // a Buffer takes all
	fmt.Fprintf(&out, handoutHead, paper, &escaped)
	for _, p := range pages {
		out.Write(p)
	}
	out.WriteString("</body>\n</html>\n")
	return out.Bytes()
}
