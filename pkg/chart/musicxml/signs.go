package musicxml

import (
	"regexp"
	"strconv"
	"strings"

	"fifthwise/pkg/chord"
)

// barline takes in repeats, endings, double bars and signs at a bar line. Where
// it stands is told by its location, right if not said; a sign belongs to the
// bar on that side of it to which it is open.
func (s *score) barline(e *element) {
	location, _ := e.attr("location")
	if location == "middle" && e.child("repeat") != nil {
		s.warn(s.measure, "the repeat sign in the midst of the measure is read as if it stood at the bar line")
	}
	before, behind := s.barAt(s.measure-1), s.barAt(s.measure)
	if location != "left" {
		before, behind = behind, s.barAt(s.measure+1)
	}
	if location == "middle" {
		behind = before
	}
	if r := e.child("repeat"); r != nil {
		switch direction, _ := r.attr("direction"); direction {
		case "forward":
			behind.RepeatStart = true
		case "backward":
			before.RepeatEnd = true
			before.takeTimes(r)
		}
	}
	if en := e.child("ending"); en != nil {
		switch kind, _ := en.attr("type"); kind {
		case "start":
			number, _ := en.attr("number")
			behind.Ending = endingNumbers(number, en.text())
		case "stop", "discontinue":
			before.EndingStop = true
		}
	}
	if location != "middle" {
		before.takeStyle(e.textOf("bar-style"))
	}
	b := &s.bars[s.measure]
	if name, ok := e.attr("segno"); ok || e.child("segno") != nil {
		b.setSign(&b.Segno, name)
	}
	if name, ok := e.attr("coda"); ok || e.child("coda") != nil {
		b.setSign(&b.Coda, name)
	}
}

// takeTimes takes in what is said of a :| behind the bar.
func (b *bar) takeTimes(repeat *element) {
	if n, ok := repeat.attr("times"); ok {
		b.Times, _ = strconv.Atoi(n)
	}
	jump, _ := repeat.attr("after-jump")
	b.AfterJump = jump == "yes"
}

// takeStyle takes in a double bar behind the bar, or one that is final where the
// tune ends.
func (b *bar) takeStyle(style string) {
	switch style {
	case "light-light", "heavy-heavy", "heavy":
		b.Double = true
	case "light-heavy":
		b.final = !b.RepeatEnd
	}
}

var passesIn = regexp.MustCompile(`(\d+)(?:[.\s]*[-–][.\s]*(\d+))?`)

// endingNumbers are the passes of an ending: "1", "1,2", "1, 2", "1-3". Where
// the number says none, as for endings that are not numbered, the text may.
func endingNumbers(number, text string) []int {
	for _, s := range []string{number, text} {
		var passes []int
		for _, m := range passesIn.FindAllStringSubmatch(s, -1) {
			from, err := strconv.Atoi(m[1])
			to, err2 := strconv.Atoi(m[2])
			if err2 != nil {
				to = from
			}
			for n := from; err == nil && n <= min(to, maxPass); n++ {
				passes = append(passes, n)
			}
		}
		if len(passes) > 0 {
			return passes
		}
	}
	return nil
}

// maxPass bounds the numbers of endings, as charts do.
const maxPass = 99

// setSign names a sign; the first name counts, and a sign without a name is
// called by a dash.
func (b *bar) setSign(sign *string, name string) {
	if *sign == "" {
		if *sign = name; name == "" {
			*sign = "-"
		}
	}
}

// sound takes in the jumps that a sound element tells. It reports whether there
// are any.
func (s *score) sound(e *element) bool {
	b := &s.bars[s.measure]
	found := false
	for _, a := range e.attrs {
		v := strings.TrimSpace(a.Value)
		switch a.Name.Local {
		case "segno":
			b.setSign(&b.Segno, v)
		case "coda":
			b.setSign(&b.Coda, v)
		case "tocoda":
			b.setSign(&b.ToCoda, v)
		case "dalsegno":
			b.setSign(&b.DalSegno, v)
		case "dacapo":
			b.DaCapo = b.DaCapo || v == "yes"
		case "fine":
			b.Fine = b.Fine || v != "no"
		case "forward-repeat":
			b.Implied = b.Implied || v == "yes"
		default:
			continue
		}
		found = true
	}
	return found
}

// direction takes in sections and signs. What words and signs say of jumps
// counts where no sound says it.
func (s *score) direction(e *element) {
	b := &s.bars[s.measure]
	sounds := false
	if c := e.child("sound"); c != nil {
		sounds = s.sound(c)
	}
	words := ""
	coda := false
	for i := range e.children {
		if e.children[i].name() != "direction-type" {
			continue
		}
		for k := range e.children[i].children {
			switch c := &e.children[i].children[k]; c.name() {
			case "rehearsal":
				if b.Section == "" {
					b.Section = sectionName(c.text())
				}
			case "words", "symbol":
				words += " " + c.text()
			case "segno":
				if !sounds {
					b.setSign(&b.Segno, "")
				}
			case "coda":
				coda = true
			}
		}
	}
	if silent.MatchString(words) {
		s.silence(e)
	}
	if !sounds {
		b.jumpWords(words, coda)
	}
}

// silent are the words for no chord (common practice, no source).
var silent = regexp.MustCompile(`(?i)^\s*(n ?\.? ?c ?\.?|no chords?)\s*$`)

// silence takes in words that say that no chord sounds, from their place on.
func (s *score) silence(e *element) {
	if p := s.part; len(p.silences) < maxHarmonies {
		p.silences = append(p.silences, s.placed(e, harmony{symbol: chord.Chord{}.String()}))
	}
}

// sectionName is the text of a rehearsal mark on one line. Square brackets,
// which a mark may stand in, are left out; within a name they become round.
func sectionName(text string) string {
	name := oneLine(strings.Trim(text, " \t\r\n[]"))
	return strings.NewReplacer("[", "(", "]", ")").Replace(name)
}

// Words for jumps, without their dots and in lower case (common practice, no
// source).
var (
	daCapo   = regexp.MustCompile(`\bd ?c\b|\bda capo\b`)
	dalSegno = regexp.MustCompile(`\bd ?s\b|\bdal segno\b`)
	toCoda   = regexp.MustCompile(`\b(to|da) (the )?coda\b`)
	coda     = regexp.MustCompile(`^coda( [0-9ivx]+)?$`)
	fine     = regexp.MustCompile(`^fine$`)
	times    = regexp.MustCompile(`^(?:play )?([0-9]{1,2}) ?(?:x|times)$`)
	signs    = strings.NewReplacer(".", " ", "(", " ", ")", " ", "𝄋", " segno ", "𝄌", " ")
)

// jumpWords reads the words of a direction, and the coda sign that may stand
// with them or among them.
func (b *bar) jumpWords(words string, sign bool) {
	sign = sign || strings.Contains(words, "𝄌")
	w := strings.Join(strings.Fields(signs.Replace(strings.ToLower(words))), " ")
	switch {
	case daCapo.MatchString(w):
		b.DaCapo = true
	case dalSegno.MatchString(w):
		b.setSign(&b.DalSegno, "")
	case toCoda.MatchString(w):
		b.setSign(&b.ToCoda, "")
	case w == "segno":
		b.setSign(&b.Segno, "")
	case fine.MatchString(w):
		b.Fine = true
	case coda.MatchString(w):
		b.setSign(&b.Coda, "")
	case times.MatchString(w):
		b.times, _ = strconv.Atoi(times.FindStringSubmatch(w)[1])
	case sign:
		b.codaSign = true
	}
}

// placeCodaSigns decides what coda signs mean that stand without words or
// sound: the last is the coda, if none is named, and others lead to it.
func (s *score) placeCodaSigns() {
	named := false
	for i := range s.bars {
		named = named || s.bars[i].Coda != ""
	}
	for i := len(s.bars) - 1; i >= 0; i-- {
		b := &s.bars[i]
		switch {
		case !b.codaSign || b.Coda != "" || b.ToCoda != "":
		case !named:
			b.setSign(&b.Coda, "")
			named = true
		default:
			b.setSign(&b.ToCoda, "")
		}
	}
}
