package api

import (
	"maps"
	"net/http"

	"github.com/gin-gonic/gin"
)

// answerPolicy is for answers that a browser shows as pages, such as a drawing:
// they may load nothing and run nothing. A drawing states how it looks itself.
const answerPolicy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox"

// safeHeaders are those of every answer. The page of the document has a policy
// of its own, and its files may be kept.
var safeHeaders = http.Header{
	"Cache-Control":           {"no-store"},
	"Content-Security-Policy": {answerPolicy},
	"Referrer-Policy":         {"no-referrer"},
	"X-Content-Type-Options":  {"nosniff"},
	"X-Frame-Options":         {"DENY"},
}

// headers keeps browsers from taking an answer for what it is not.
func headers(c *gin.Context) { maps.Copy(c.Writer.Header(), safeHeaders) }
