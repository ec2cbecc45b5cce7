package api

import (
	"github.com/gin-gonic/gin"
	"github.com/go-json-experiment/json"
)

// posted answers a body of JSON by what is made of it. All of that, and the
// JSON of the answer, is done behind the gate.
func (s *Server) posted(work func(body []byte) (any, error)) gin.HandlerFunc {
	return s.answer(func(c *gin.Context) (any, error) {
		if _, err := mediaOf(c.Request, mediaJSON); err != nil {
			return nil, err
		}
		body, err := s.read(c, maxBody)
		if err != nil {
			return nil, err
		}
		if err := s.gate.enter(c.Request.Context()); err != nil {
			return nil, err
		}
		defer s.gate.leave()
		answer, err := work(body)
		if err != nil {
			return nil, err
		}
		written, err := json.Marshal(answer)
		return encoded(written), err
	})
}
