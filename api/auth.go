package api

import (
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"
)

// errToken is the refusal of a request without a token that is known.
var errToken = refuse(http.StatusUnauthorized, "a bearer token is asked for; send Authorization: Bearer and a token that the service knows")

// admit refuses a request that does not bring a token that is known (RFC 6750,
// section 3). A browser asks by OPTIONS what it may send before it sends a token.
func (s *Server) admit(admits func(token string) bool) gin.HandlerFunc {
	if admits == nil {
		return func(*gin.Context) {}
	}
	return func(c *gin.Context) {
		if c.Request.Method == http.MethodOptions {
			return
		}
		token, given := bearer(c.Request)
		if given && admits(token) {
			return
		}
		challenge := `Bearer realm="fifthwise"`
		if given {
			challenge += `, error="invalid_token"`
		}
		c.Header("WWW-Authenticate", challenge)
		s.refuse(c, errToken)
	}
}

// bearer is the token of a request, if it has exactly one.
func bearer(r *http.Request) (token string, ok bool) {
	given := r.Header.Values("Authorization")
	if len(given) != 1 {
		return "", false
	}
	scheme, token, _ := strings.Cut(given[0], " ")
	return strings.TrimLeft(token, " "), strings.EqualFold(scheme, "Bearer")
}
