package wire

// Health tells that the service runs.
type Health struct {
	// Always ok: a service that is not well does not answer.
	Status string `json:"status" enums:"ok" example:"ok"`
}
