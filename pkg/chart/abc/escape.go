package abc

import (
	"html"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// accents are the letters that a backslash and a mark make, by the mark, in
// pairs of what is written and what is meant (The abc music standard 2.1,
// section 8.2, from memory).
var accents = map[byte]string{
	'`':  "AÀEÈIÌOÒUÙaàeèiìoòuù",
	'\'': "AÁEÉIÍOÓUÚYÝaáeéiíoóuúyýCĆcćLĹlĺNŃnńRŔrŕSŚsśZŹzź",
	'^':  "AÂEÊIÎOÔUÛaâeêiîoôuûCĈcĉGĜgĝHĤhĥJĴjĵSŜsŝWŴwŵYŶyŷ",
	'~':  "AÃNÑOÕaãnñoõIĨiĩUŨuũ",
	'"':  "AÄEËIÏOÖUÜaäeëiïoöuüyÿYŸ",
	'c':  "CÇcçKĶkķGĢLĻlļNŅnņRŖrŗSŞsşTŢtţ",
	'/':  "OØoøDĐdđLŁlłTŦtŧ",
	'u':  "AĂaăEĔeĕGĞgğIĬiĭOŎoŏUŬuŭ",
	'v':  "CČcčDĎdďEĚeěNŇnňRŘrřSŠsšTŤtťZŽzž",
	'H':  "OŐoőUŰuű",
	'.':  "CĊcċEĖeėGĠgġIİZŻzż",
	'=':  "AĀaāEĒeēIĪiīOŌoōUŪuū",
	';':  "AĄaąEĘeęIĮiįUŲuų",
}

// ligatures are written as two letters behind a backslash.
var ligatures = map[string]string{
	"AA": "Å", "aa": "å", "AE": "Æ", "ae": "æ", "OE": "Œ", "oe": "œ",
	"ss": "ß", "DH": "Ð", "dh": "ð", "TH": "Þ", "th": "þ",
}

// unescape is the text that a text string stands for.
func unescape(s string) string {
	if !strings.ContainsAny(s, `\&`) {
		return s
	}
	var b strings.Builder
	for s != "" {
		i := strings.IndexAny(s, `\&`)
		if i < 0 {
			break
		}
		b.WriteString(s[:i])
		meant, size := escape(s[i:])
		b.WriteString(meant)
		s = s[i+size:]
	}
	return b.String() + s
}

// escape reads the escape at the front of s; what is none stands for itself.
func escape(s string) (meant string, size int) {
	if s[0] == '&' {
		const longest = 32
		if end := strings.IndexByte(s[:min(len(s), longest)], ';'); end > 0 {
			if meant = html.UnescapeString(s[:end+1]); meant != s[:end+1] {
				return meant, end + 1
			}
		}
		return "&", 1
	}
	if len(s) < 2 {
		return `\`, 1
	}
	switch s[1] {
	case '\\', '%', '&':
		return s[1:2], 2
	case 'U':
		if r, ok := hex(s[2:], 8); ok {
			return r, 10
		}
	}
	if r, ok := hex(s[2:], 4); ok && s[1] == 'u' {
		return r, 6
	}
	if len(s) < 3 {
		return `\`, 1
	}
	if l, ok := ligatures[s[1:3]]; ok {
		return l, 3
	}
	pairs := accents[s[1]]
	for i := 0; i < len(pairs); {
		r, n := utf8.DecodeRuneInString(pairs[i+1:])
		if pairs[i] == s[2] {
			return string(r), 3
		}
		i += 1 + n
	}
	return `\`, 1
}

// hex reads n hexadecimal digits as a character.
func hex(s string, n int) (string, bool) {
	if len(s) < n {
		return "", false
	}
	v, err := strconv.ParseUint(s[:n], 16, 32)
	if err != nil || !utf8.ValidRune(rune(v)) {
		return "", false
	}
	return string(rune(v)), true
}

// name is a title or the name of a part as a field gives it.
func name(field string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\t' {
			return ' '
		}
		return r
	}, unescape(field)))
}

var escapes = strings.NewReplacer(`\`, `\\`, "%", `\%`, "&", `\&`, "\n", " ", "\r", " ")

// escaped is the text string that stands for s.
func escaped(s string) string { return escapes.Replace(strings.TrimSpace(s)) }
