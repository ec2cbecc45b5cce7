package wire

// Problem says why a request was refused, as RFC 9457 lays down.
type Problem struct {
	// The kind of problem; about:blank means that the status says it all.
	Type string `json:"type" example:"about:blank"`
	// The status in words.
	Title string `json:"title" example:"Unprocessable Content"`
	// The HTTP status.
	Status int `json:"status" example:"422"`
	// What is wrong.
	Detail string `json:"detail" example:"1 fault in the request"`
	// The faults one by one, at most 20; only where the request's content is at fault.
	Errors []Fault `json:"errors,omitempty"`
}

// Error is the detail.
func (p *Problem) Error() string { return p.Detail }

// Fault is one thing that is wrong with a request.
type Fault struct {
	// Where it is, as a JSON Pointer (RFC 6901) into the body; empty where the body is no JSON; a slash and the name for a part of the path or the query.
	Pointer string `json:"pointer" example:"/bars/3/chords/0/symbol"`
	// What is wrong.
	Detail string `json:"detail" example:"expected a root A to G in upper case"`
	// What would be right.
	Hint string `json:"hint,omitempty" example:"write B7 or Bm7"`
	// The number of the bar it lies in.
	Bar *int `json:"bar,omitempty" example:"4"`
	// The chord or mark it lies in, as written.
	Symbol string `json:"symbol,omitempty" example:"b7"`
	// Where it begins, in bytes: in the text for a fault under /changes or in a body that is text, else in the symbol.
	Offset *int `json:"offset,omitempty" example:"0"`
	// The line of the text, from 1.
	Line int `json:"line,omitzero,omitempty" example:"1"`
	// The column in that line, in code points from 1.
	Column int `json:"column,omitzero,omitempty" example:"17"`
}

// LineProblem stands in the answer to a stream in the place of a line that was refused.
type LineProblem struct {
	// The number of the line, from 1.
	Line int `json:"line" example:"3"`
	// Why it was refused.
	Problem Problem `json:"problem"`
}
