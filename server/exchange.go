package server

import (
	"net/http"

	"github.com/labstack/echo/v4"

	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
)

func (s *Server) exchange(c echo.Context) error {
	var req exchange.Request
	if err := readJSON(c, &req); err != nil {
		return err
	}
	who := callerOf(c)
	if n := len(req.Ops); n > 0 {
		// More than a message may hold is for Respond to refuse.
		if err := s.limits.ops.take(who.ID, s.cfg.Now(), min(n, exchange.MaxOps)); err != nil {
			return err
		}
	}
	before := s.home.Root()
	a, err := exchange.Respond(s.home.log, s.home, s.door(who.Device), req, s.cfg.Now().UnixMilli())
	if err != nil {
		return err
	}
	if stored(a.Results) || s.home.Root() != before {
		s.hub.ripple(who.ID)
	}
	return answer(c, http.StatusOK, a)
}

func stored(results []exchange.Result) bool {
	for _, r := range results {
		if r.Code == exchange.Stored {
			return true
		}
	}
	return false
}

// door judges by the device that pushes, whoever wrote the operation: phones
// forward what others wrote, and that is how a server is healed.
func (s *Server) door(d roster.Device) exchange.Door {
	return func(op oplog.Op) string {
		switch {
		case d.Role == roster.Keeper:
			return ""
		case d.Role == roster.Feeder && !s.cfg.KeeperOnly(op.Kind()):
			return ""
		}
		return "role"
	}
}

func (s *Server) reconcile(c echo.Context) error {
	var q exchange.Query
	if err := readJSON(c, &q); err != nil {
		return err
	}
	r, err := exchange.Reconcile(s.home.log, q, s.cfg.Now().UnixMilli())
	if err != nil {
		return err
	}
	return answer(c, http.StatusOK, r)
}
