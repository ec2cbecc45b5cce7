package api

import (
	"net/http"

	"github.com/gin-gonic/gin"

	"fifthwise/api/wire"
)

// health tells that the service answers.
//
//	@Summary	Tells that the service answers
//	@ID			getHealth
//	@Tags		service
//	@Produce	json
//	@Success	200	{object}	wire.Health
//	@Failure	406	{object}	wire.Problem	"The answer is JSON."
//	@Router		/healthz [get]
func health(*gin.Context) (any, error) { return wire.Health{Status: "ok"}, nil }

var errStopping = refuse(http.StatusServiceUnavailable, "the service stops")

// ready tells whether the service is to be sent requests.
//
//	@Summary		Tells whether to send requests
//	@Description	From the moment that the service is told to stop it asks to be sent nothing more; what is sent all the same it still answers for a while.
//	@ID				getReady
//	@Tags			service
//	@Produce		json
//	@Success		200	{object}	wire.Health
//	@Failure		406	{object}	wire.Problem	"The answer is JSON."
//	@Failure		503	{object}	wire.Problem	"The service stops."
//	@Router			/readyz [get]
func (s *Server) ready(*gin.Context) (any, error) {
	if s.stopping.Err() != nil {
		return nil, errStopping
	}
	return wire.Health{Status: "ok"}, nil
}
