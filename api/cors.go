package api

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/gin-gonic/gin"
)

// anyOrigin lets every page call the service.
const anyOrigin = "*"

// ParseOrigins reads a list of origins, divided by commas, for
// [Options.AllowOrigins]: each is *, or a scheme, a host and perhaps a port, as
// browsers send them.
func ParseOrigins(list string) ([]string, error) {
	var origins []string
	for item := range strings.SplitSeq(list, ",") {
		origin := strings.TrimSpace(item)
		if origin == "" {
			continue
		}
		if u, err := url.Parse(origin); origin != anyOrigin && (err != nil || !isOrigin(u, origin)) {
			return nil, fmt.Errorf("%q is no origin: expected such as https://charts.example or http://localhost:3000, in lower case and with nothing behind it", origin)
		}
		origins = append(origins, origin)
	}
	return origins, nil
}

// isOrigin reports whether a URL is all scheme and host, in the form of RFC
// 6454, section 6.2. No pattern of hosts is one.
func isOrigin(u *url.URL, written string) bool {
	return (u.Scheme == "http" || u.Scheme == "https") && u.Hostname() != "" && !strings.Contains(u.Host, "*") &&
		written == strings.ToLower(u.Scheme+"://"+u.Host)
}

// cors lets pages of these origins call the service from a browser. Whether a
// preflight is answered is the router's business, as for any OPTIONS.
func cors(origins []string) gin.HandlerFunc {
	if len(origins) == 0 {
		return func(*gin.Context) {}
	}
	anyone := slices.Contains(origins, anyOrigin)
	return func(c *gin.Context) {
		allowed := anyOrigin
		if !anyone {
			c.Writer.Header().Add("Vary", "Origin")
			allowed = c.GetHeader("Origin")
			if !slices.Contains(origins, allowed) {
				return
			}
		}
		c.Header("Access-Control-Allow-Origin", allowed)
		if c.Request.Method == http.MethodOptions && c.GetHeader("Access-Control-Request-Method") != "" {
			c.Header("Access-Control-Allow-Methods", "GET, HEAD, POST")
			c.Header("Access-Control-Allow-Headers", "Authorization, Content-Type, X-Request-ID")
			c.Header("Access-Control-Max-Age", "600")
			return
		}
		c.Header("Access-Control-Expose-Headers", "Retry-After, X-Request-ID")
	}
}
