package server

import (
	"net/http"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/labstack/echo/v4"

	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

// demoCode lets anybody into a demo household.
const demoCode = "demo"

type joinRequest struct {
	Code   string `json:"code"`  // from a link or QR code,
	Short  string `json:"short"` // or as typed
	Key    string `json:"key"`
	Device string `json:"device"` // name of the phone
}

type joinAnswer struct {
	Join      string      `json:"join"` // secret to ask with
	Match     string      `json:"match"`
	State     string      `json:"state"`
	Household string      `json:"household"`
	Dev       string      `json:"dev"`
	Member    string      `json:"member"`
	Role      roster.Role `json:"role"`
	Roster    []string    `json:"roster"` // once granted
}

func (s *Server) join(c echo.Context) error {
	var req joinRequest
	if err := readJSON(c, &req); err != nil {
		return err
	}
	raw, err := p256.ParseKey(req.Key)
	if err != nil {
		return problem("bad-request", "key: want base64url of the 65 bytes of an uncompressed P-256 public key.")
	}
	name := strings.TrimSpace(req.Device)
	if name == "" || len(name) > 100 || !utf8.ValidString(name) {
		return problem("bad-request", "device: give the phone a name of 1 to 100 bytes.")
	}
	dev := roster.DeviceID(raw)
	return s.alone(c, func(h *household) (int, any, error) {
		if d, known := h.set.State().Device(dev); known && !d.In() && d.Why != roster.Adrift {
			return 0, nil, problem("device-revoked", "This phone's key was taken out of the household (%s); join with a new key.", d.Why)
		}
		if req.Code == demoCode && s.cfg.Demo != nil {
			a, err := s.joinDemo(req.Key, dev, name)
			return http.StatusAccepted, a, err
		}
		v, err := s.lookUp(req)
		if err != nil {
			return 0, nil, err
		}
		if v, err = h.redeem(s.cfg.Now(), v, req.Key, dev, name); err != nil {
			return 0, nil, err
		}
		return http.StatusAccepted, h.joined(v), nil
	})
}

// alone runs f while nobody else changes the household, and answers afterwards:
// a phone that reads slowly keeps nobody waiting. A nil body is answered by 204.
func (s *Server) alone(c echo.Context, f func(*household) (status int, body any, err error)) error {
	status, body, err := func() (int, any, error) {
		s.home.mu.Lock()
		defer s.home.mu.Unlock()
		return f(s.home)
	}()
	switch {
	case err != nil:
		return err
	case body == nil:
		return c.NoContent(http.StatusNoContent)
	}
	return answer(c, status, body)
}

// lookUp finds the invite of a code. Wrong codes are counted, and after a few
// of them nothing that could be a guess is looked up for a while.
func (s *Server) lookUp(req joinRequest) (*invite, error) {
	if (req.Code == "") == (req.Short == "") {
		return nil, problem("bad-request", "Send code or short, one of the two.")
	}
	if req.Code == "" {
		if err := s.limits.mayGuess(); err != nil {
			return nil, err
		}
	}
	v, err := s.home.find(s.cfg.Now().UnixMilli(), req.Code, req.Short)
	if v != nil || err != nil {
		return v, err
	}
	if err := s.limits.mayGuess(); err != nil {
		return nil, err
	}
	s.limits.guessed()
	s.cfg.Log.Warn("join refused", "why", "unknown code")
	return nil, problem("invite-unknown", "No invite has this code. Check it with whoever invited you, or ask for a new invite.")
}

// joinDemo lets a phone into the demo household at once, as the next of its members.
func (s *Server) joinDemo(key, dev, name string) (joinAnswer, error) {
	h := s.home
	d, known := h.set.State().Device(dev)
	if !known {
		member := newMember()
		if list := s.cfg.Demo.Members; len(list) > 0 {
			member = list[(len(h.set.State().Devices())-1)%len(list)] // the console is a device too
		}
		if err := h.grantByConsole(s.cfg.Now().UnixMilli(), &joiner{Key: key, Dev: dev, Device: name}, roster.Keeper, member); err != nil {
			return joinAnswer{}, err
		}
		d, _ = h.set.State().Device(dev)
	}
	return joinAnswer{
		Join: demoCode, State: joinGranted, Household: h.id.String(),
		Dev: dev, Member: d.Member, Role: d.Role, Roster: h.set.Texts(),
	}, nil
}

func (s *Server) joinState(c echo.Context) error {
	return s.alone(c, func(h *household) (int, any, error) {
		v := h.byJoin(c.Param("join"))
		if v == nil {
			return 0, nil, problem("invite-unknown", "Nobody waits under this address; ask for a new invite.")
		}
		if err := v.Join.refusal(s.cfg.Now().UnixMilli()); err != nil {
			return 0, nil, err
		}
		return http.StatusOK, h.joined(v), nil
	})
}

// joined tells a phone how its join stands.
func (h *household) joined(v *invite) joinAnswer {
	a := joinAnswer{
		Join: v.Join.ID, Match: v.Join.Match, State: v.Join.State, Household: h.id.String(),
		Dev: v.Join.Dev, Member: v.Member, Role: v.Role,
	}
	if a.State == joinGranted {
		a.Roster = h.set.Texts()
	}
	return a
}

type inviteRequest struct {
	Role   roster.Role `json:"role"`
	Member string      `json:"member"` // empty: somebody new
}

func (s *Server) invite(c echo.Context) error {
	var req inviteRequest
	if err := readJSON(c, &req); err != nil {
		return err
	}
	v, err := s.home.invite(s.cfg.Now(), callerOf(c).ID, req.Role, req.Member)
	if err != nil {
		return err
	}
	v.Link = s.base(c) + "/join#" + v.Code
	v.QR = qrRows(v.Link)
	return answer(c, http.StatusCreated, v)
}

// InviteByConsole makes an invite whose phone is let in at once, with the
// console's signature: for the first keeper, and when the last keeper's phone
// is lost. The link begins with base.
func (s *Server) InviteByConsole(role roster.Role, base string) (Invite, error) {
	v, err := s.home.invite(s.cfg.Now(), s.home.state().Founder(), role, "")
	v.Link = base + "/join#" + v.Code
	return v, err
}

// base is the address that links name.
func (s *Server) base(c echo.Context) string {
	if s.cfg.Base != "" {
		return s.cfg.Base
	}
	return c.Scheme() + "://" + c.Request().Host
}

type waitingAnswer struct {
	Waiting []waitingPhone `json:"waiting"`
}

// waitingPhone is what a keeper compares and signs.
type waitingPhone struct {
	ID     string      `json:"id"` // of the invite
	Device string      `json:"device"`
	Match  string      `json:"match"`
	Key    string      `json:"key"`
	Dev    string      `json:"dev"`
	Member string      `json:"member"`
	Role   roster.Role `json:"role"`
	Until  int64       `json:"until"` // ms
}

func (s *Server) waiting(c echo.Context) error {
	return s.alone(c, func(h *household) (int, any, error) {
		now := s.cfg.Now().UnixMilli()
		list := []waitingPhone{}
		for id, v := range h.invites {
			if j := v.Join; j != nil && j.State == joinWaiting && now < j.Until {
				list = append(list, waitingPhone{id.String(), j.Device, j.Match, j.Key, j.Dev, v.Member, v.Role, j.Until})
			}
		}
		slices.SortFunc(list, func(a, b waitingPhone) int { return strings.Compare(a.ID, b.ID) })
		return http.StatusOK, waitingAnswer{list}, nil
	})
}

type grantRequest struct {
	Roster string `json:"roster"` // the grant, signed by the keeper's phone
}

func (s *Server) grant(c echo.Context) error {
	var req grantRequest
	if err := readJSON(c, &req); err != nil {
		return err
	}
	op, err := roster.Open(req.Roster, p256.Verify)
	if err != nil {
		return problem("bad-grant", "The grant cannot be verified: %v.", err)
	}
	who := callerOf(c).ID
	return s.alone(c, func(h *household) (int, any, error) {
		v, err := h.waitingFor(c.Param("id"), s.cfg.Now().UnixMilli())
		if err != nil {
			return 0, nil, err
		}
		switch g := op.Op; {
		case g.Kind != roster.Grant || g.Home != h.id.String():
			return 0, nil, problem("bad-grant", "This is no grant for this household.")
		case g.Dev != who:
			return 0, nil, problem("bad-grant", "The grant must be signed by the phone that sends it.")
		case g.Key != v.Join.Key || g.Role != v.Role || g.Member != v.Member:
			return 0, nil, problem("bad-grant", "The grant names another key, role or member than the invite.")
		}
		if err := h.add([]string{op.Text}); err != nil {
			return 0, nil, err
		}
		return 0, nil, s.finish(*v, joinGranted, who)
	})
}

func (s *Server) decline(c echo.Context) error {
	return s.alone(c, func(h *household) (int, any, error) {
		id, err := oplog.ParseID(c.Param("id"))
		v := h.invites[id]
		switch {
		case err != nil || v == nil:
			return 0, nil, unknownInvite()
		case v.Join == nil:
			next := *v
			next.Expires = 0 // nobody has used it yet: nobody will
			return 0, nil, h.keep(next)
		case v.Join.State == joinGranted:
			return 0, nil, problem("not-waiting", "This phone was let in already; remove the device instead.")
		}
		return 0, nil, s.finish(*v, joinDeclined, callerOf(c).ID)
	})
}

func unknownInvite() error { return problem("invite-unknown", "There is no such invite.") }

func (h *household) waitingFor(text string, now int64) (*invite, error) {
	id, err := oplog.ParseID(text)
	v := h.invites[id]
	if err != nil || v == nil {
		return nil, unknownInvite()
	}
	if v.Join == nil || v.Join.State == joinGranted {
		return nil, problem("not-waiting", "No phone waits for this invite.")
	}
	return v, v.Join.refusal(now)
}

// finish ends a join one way or the other and tells the other phones.
func (s *Server) finish(v invite, state, by string) error {
	j := *v.Join
	j.State = state
	v.Join = &j
	if err := s.home.keep(v); err != nil {
		return err
	}
	s.hub.ripple(by)
	return nil
}
