// Package api serves the reading of charts over HTTP. A handler decodes,
// validates, calls one package below pkg/ and encodes; nothing musical is
// decided here. Whatever is refused is told as a problem detail (RFC 9457), in
// one place, [problemOf]. The shapes of the JSON are those of package wire.
//
// The comments below and at the handlers are the source of the API's document,
// which package openapi holds.
//
//	@title						Fifthwise
//	@version					1
//	@description				Reads a tune's chord changes as a practised player does: where the key centres are, what each chord does in them, what repeats, what is left to remember. Every answer has a header X-Request-ID, which names the request in the log of the service; a request may bring a name of its own, of at most 64 letters, digits and ._-
//	@license.name				MIT
//	@accept						json
//	@produce					json
//	@tag.name					reading
//	@tag.description			Charts and what they mean.
//	@tag.name					practice
//	@tag.description			Charts in other keys, and chords from numerals.
//	@tag.name					reference
//	@tag.description			Chords and keys by name.
//	@tag.name					service
//	@tag.description			The service itself.
package api
