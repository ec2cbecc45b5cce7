package api

import (
	"crypto/sha256"
	"embed"
	"fmt"
	"io/fs"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"
	ui "github.com/swaggo/files/v2"

	"fifthwise/openapi"
)

// document sends the API's description.
//
//	@Summary		The description of this API
//	@Description	This document, in OpenAPI 3. The path /docs shows it as a page that needs no network.
//	@ID				getDocument
//	@Tags			service
//	@Produce		json
//	@Success		200	{object}	object			"An OpenAPI document."
//	@Failure		406	{object}	wire.Problem	"The answer is JSON."
//	@Router			/openapi.json [get]
func (s *Server) document() gin.HandlerFunc { return s.file(mediaJSON, openapi.Document) }

// The page that shows the document: ours, around the script and the style of
// Swagger UI.
//
//go:embed docs
var page embed.FS

// docsPolicy lets the page load what this service has and nothing else: no
// script or style in the page itself, no other host. Images may stand in the
// style sheet.
const docsPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// docsFile is a file of the page.
type docsFile struct {
	path  string
	media string
	from  fs.FS
	name  string
}

var docsFiles = []docsFile{
	{"/docs", "text/html; charset=utf-8", page, "docs/index.html"},
	{"/docs/start.js", "text/javascript; charset=utf-8", page, "docs/start.js"},
	{"/docs/page.css", "text/css; charset=utf-8", page, "docs/page.css"},
	{"/docs/swagger-ui.css", "text/css; charset=utf-8", ui.FS, "swagger-ui.css"},
	{"/docs/swagger-ui-bundle.js", "text/javascript; charset=utf-8", ui.FS, "swagger-ui-bundle.js"},
	{"/docs/favicon.png", "image/png", ui.FS, "favicon-32x32.png"},
}

// docs sends a file of the page.
func (s *Server) docs(f docsFile) gin.HandlerFunc {
	content, err := fs.ReadFile(f.from, f.name)
	if err != nil {
		panic(err) // it is embedded
	}
	send := s.file(f.media, content)
	return func(c *gin.Context) {
		c.Header("Content-Security-Policy", docsPolicy)
		send(c)
	}
}

// file sends what does not change while the service runs. Clients are to ask
// each time whether it is still the same.
func (s *Server) file(media string, content []byte) gin.HandlerFunc {
	bare, _, _ := strings.Cut(media, ";")
	tag := fmt.Sprintf(`"%x"`, sha256.Sum256(content))
	return func(c *gin.Context) {
		if !accepts(c.Request, bare) {
			s.refuse(c, refuse(http.StatusNotAcceptable, "the answer is %s", bare))
			return
		}
		c.Header("Cache-Control", "no-cache")
		c.Header("ETag", tag)
		if isKnown(c.Request, tag) {
			c.Status(http.StatusNotModified)
			c.Writer.WriteHeaderNow()
			return
		}
		send(c, http.StatusOK, media, content)
	}
}

// isKnown reports whether the client has what the tag names (RFC 9110, section
// 13.1.2).
func isKnown(r *http.Request, tag string) bool {
	for known := range strings.SplitSeq(strings.Join(r.Header.Values("If-None-Match"), ","), ",") {
		known = strings.TrimSpace(known)
		if known == "*" || strings.TrimPrefix(known, "W/") == tag {
			return true
		}
	}
	return false
}
