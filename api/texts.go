package api

import "strings"

// texts makes strings that stand side by side on a page, and lists of them: an
// answer has hundreds of short ones, which would each cost as much to make and to
// throw away as a page.
type texts struct {
	page  strings.Builder
	lists []string
}

// What is taken at once, in bytes and in strings.
const (
	pageSize = 4096
	listSize = 128
)

// text is s as a string.
func (t *texts) text(s []byte) string {
	if t.page.Cap()-t.page.Len() < len(s) {
		t.page = strings.Builder{}
		t.page.Grow(max(pageSize, len(s)))
	}
	from := t.page.Len()
	t.page.Write(s)
	return t.page.String()[from:]
}

// list is room for n strings.
func (t *texts) list(n int) []string {
	if len(t.lists) < n {
		t.lists = make([]string, max(listSize, n))
	}
	list := t.lists[:n:n]
	t.lists = t.lists[n:]
	return list
}
