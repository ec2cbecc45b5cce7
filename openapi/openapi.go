// Package openapi holds the document of the HTTP API. Its source is the comments
// at the handlers in package api and at the shapes in package api/wire; both
// files here are generated from them and never edited.
package openapi

import _ "embed"

//go:generate go run ./generate

// Document is the API's description in OpenAPI 3, as JSON.
//
//go:embed openapi.json
var Document []byte
