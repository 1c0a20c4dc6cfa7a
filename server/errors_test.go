package server_test

import (
	"bytes"
	"errors"
	"log/slog"
	"net/http"
	"strings"
	"testing"

	"trayside/server"
	"trayside/server/store"
	"trayside/sync/oplog"
	"trayside/sync/roster"
)

// clumsy is a store that loses invites when told to.
type clumsy struct {
	*store.Memory
	loses bool
}

func (c *clumsy) PutInvite(home, id oplog.ID, row []byte) error {
	if c.loses {
		return errors.New("sector 4711 is unreadable")
	}
	return c.Memory.PutInvite(home, id, row)
}

func TestAnAccidentIsToldToTheLogAndNotToThePhone(t *testing.T) {
	var log bytes.Buffer
	held := &clumsy{Memory: store.NewMemory()}
	s := newSite(t, func(c *server.Config) { c.Store, c.Log = held, slog.New(slog.NewTextHandler(&log, nil)) })
	keeper := s.member("keeper", roster.Keeper)
	held.loses = true

	s.post("/api/v1/invites", keeper.token, m{"role": "owner"}).refused(t, http.StatusBadRequest, "bad-request")
	if log.Len() > 0 {
		t.Errorf("a phone's mistake stands in the log: %s", &log)
	}
	r := s.post("/api/v1/invites", keeper.token, m{"role": "feeder"})
	r.refused(t, http.StatusInternalServerError, "internal")
	if bytes.Contains(r.body, []byte("4711")) {
		t.Errorf("the phone reads %s", r.body)
	}
	if !strings.Contains(log.String(), "sector 4711") || !strings.Contains(log.String(), "route=/api/v1/invites") {
		t.Errorf("the log reads %q, want the accident and its route", &log)
	}
}
