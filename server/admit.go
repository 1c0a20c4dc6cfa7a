package server

import (
	"strings"
	"time"

	"github.com/labstack/echo/v4"

	"trayside/sync/roster"
)

func unknownDevice() error {
	return problem("unknown-device", "This device is not known to the household; ask a keeper for an invite. What it holds stays on it.")
}

// standing refuses a device that is out. The roster goes with the refusal: a
// phone acts on a revocation only if it can verify it.
func (s *Server) standing(d roster.Device) error {
	switch d.Why {
	case "":
		return nil
	case roster.Adrift:
		p := problem("device-revoked", "The device that let this one in was removed; ask a keeper for a new invite.")
		p.Why, p.Roster = d.Why, s.home.Texts()
		return p
	}
	p := problem("device-revoked", "This device was taken out of the household (%s). A keeper can invite it anew.", d.Why)
	p.Why, p.Roster = d.Why, s.home.Texts()
	return p
}

// caller is the device that asks, as the roster sees it at this moment.
type caller struct {
	roster.Device
	expires time.Time
}

const callerKey = "caller"

func callerOf(c echo.Context) caller {
	who, _ := c.Get(callerKey).(caller)
	return who
}

// admit lets in whom a route is for, at a pace.
func (s *Server) admit(who access) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			var err error
			switch who {
			case probe:
			case public:
				err = s.limits.strangers.take(strangerKey(c), s.cfg.Now(), 1)
			default:
				err = s.identify(c, who)
			}
			if err != nil {
				return err
			}
			return next(c)
		}
	}
}

func (s *Server) identify(c echo.Context, who access) error {
	scheme, token, _ := strings.Cut(c.Request().Header.Get(echo.HeaderAuthorization), " ")
	if !strings.EqualFold(scheme, "Bearer") || token == "" {
		if err := s.limits.strangers.take(strangerKey(c), s.cfg.Now(), 1); err != nil {
			return err
		}
		return problem("no-token", "This needs a token: sign a nonce to get one.")
	}
	dev, expires, err := s.tokens.device(token)
	if err != nil {
		if slow := s.limits.strangers.take(strangerKey(c), s.cfg.Now(), 1); slow != nil {
			return slow
		}
		return err
	}
	if err := s.limits.devices.take(dev, s.cfg.Now(), 1); err != nil {
		return err
	}
	d, known := s.home.state().Device(dev)
	if !known {
		return unknownDevice()
	}
	if err := s.standing(d); err != nil {
		return err
	}
	if who == keeper && d.Role != roster.Keeper {
		return problem("role", "Only a keeper's phone can do this; ask a keeper of the household.")
	}
	if who == writer && d.Role != roster.Keeper && d.Role != roster.Feeder {
		return problem("role", "This phone may look but not write; a keeper can change that.")
	}
	c.Set(callerKey, caller{d, expires})
	return nil
}
