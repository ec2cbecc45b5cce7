package api

import (
	"github.com/gin-gonic/gin"
	"github.com/go-json-experiment/json"
)

// posted answers a body of JSON by what is made of it.
func (s *Server) posted(work func(body []byte) (any, error)) gin.HandlerFunc {
	return s.answer(func(c *gin.Context) (any, error) {
		if _, err := mediaOf(c.Request, mediaJSON); err != nil {
			return nil, err
		}
		answer, err := s.worked(c, maxBody, func(body []byte) ([]byte, error) {
			answer, err := work(body)
			if err != nil {
				return nil, err
			}
			return json.Marshal(answer)
		})
		return encoded(answer), err
	})
}

// worked is what is made of a body. All of it is done behind the gate: what is made
// of a long chart, and its text, take megabytes.
func (s *Server) worked(c *gin.Context, limit int, work func(body []byte) ([]byte, error)) ([]byte, error) {
	body, err := s.read(c, limit)
	if err != nil {
		return nil, err
	}
	if err := s.gate.enter(c.Request.Context()); err != nil {
		return nil, err
	}
	defer s.gate.leave()
	return work(body)
}
