// Package wire holds the shapes of the JSON that the HTTP API reads and writes.
// Their comments and tags are also the source of the API's document: a field's
// comment is its description, the validate tag its bounds, and what has no
// omitempty in its json tag is always there.
package wire
