package api

import (
	"net/http"
	"slices"

	"github.com/gin-gonic/gin"
)

// cors lets pages of these origins call the service from a browser. Whether a
// preflight is answered is the router's business, as for any OPTIONS.
func cors(origins []string) gin.HandlerFunc {
	if len(origins) == 0 {
		return func(*gin.Context) {}
	}
	anyone := slices.Contains(origins, "*")
	return func(c *gin.Context) {
		origin := c.GetHeader("Origin")
		switch {
		case anyone:
			c.Header("Access-Control-Allow-Origin", "*")
		default:
			c.Writer.Header().Add("Vary", "Origin")
			if !slices.Contains(origins, origin) {
				return
			}
			c.Header("Access-Control-Allow-Origin", origin)
		}
		if c.Request.Method == http.MethodOptions && c.GetHeader("Access-Control-Request-Method") != "" {
			c.Header("Access-Control-Allow-Methods", "GET, HEAD, POST")
			c.Header("Access-Control-Allow-Headers", "Content-Type")
			c.Header("Access-Control-Max-Age", "600")
			return
		}
		c.Header("Access-Control-Expose-Headers", "Retry-After")
	}
}
