package phone

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/sync/roster"
)

// HouseholdView is who belongs to the household, with which phones, and which
// entries need attention.
type HouseholdView struct {
	ID      string       `json:"id"`
	Home    string       `json:"home"` // its name, "" until somebody named it
	Zone    string       `json:"zone"`
	Mass    string       `json:"mass"`
	Temp    string       `json:"temp"`
	Me      string       `json:"me"`   // member whose phone this is
	Role    string       `json:"role"` // of this phone, "" before joining
	Members []MemberView `json:"members"`
	Devices []DeviceView `json:"devices"`
	Asides  []AsideView  `json:"asides"` // entries with a field that was set aside
	Unread  int          `json:"unread"` // entries that need a newer app
}

// MemberView is one person.
type MemberView struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Child  bool   `json:"child"`
	Role   string `json:"role"`   // strongest of the phones that are in, "" without one
	Phones int    `json:"phones"` // that are in
}

// DeviceView is one phone, or the server's console (which has no member).
type DeviceView struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Member string `json:"member"`
	Who    string `json:"who"` // member's name
	Role   string `json:"role"`
	Mine   bool   `json:"mine"`
	Gone   string `json:"gone"` // "", "lost", "left", "removed" or "adrift"
}

// AsideView is one field that was set aside.
type AsideView struct {
	Entity string `json:"entity"`
	Field  string `json:"field"`
	Why    string `json:"why"`
}

// SignView is a roster operation's text for the phone's key to sign.
type SignView struct {
	Text string `json:"text"`
}

func (p *Phone) householdView() HouseholdView {
	h, state := p.read(), p.roster.State()
	me, role := p.me()
	v := HouseholdView{
		ID: p.household, Home: h.Name, Zone: h.Zone, Mass: string(h.Mass), Temp: string(h.Temp),
		Me: me, Role: string(role), Unread: h.Unread,
		Members: []MemberView{}, Devices: []DeviceView{}, Asides: []AsideView{},
	}
	for _, m := range h.Members {
		if m.Gone {
			continue
		}
		mv := MemberView{ID: m.ID, Name: m.Name, Child: m.Child}
		for _, d := range state.Devices() {
			if d.Member == m.ID && d.In() {
				mv.Phones++
				mv.Role = stronger(mv.Role, string(d.Role))
			}
		}
		v.Members = append(v.Members, mv)
	}
	for _, d := range state.Devices() {
		v.Devices = append(v.Devices, DeviceView{
			ID: d.ID, Name: d.Name, Member: d.Member, Who: memberName(h, d.Member),
			Role: string(d.Role), Mine: d.ID == p.device, Gone: d.Why,
		})
	}
	order.By(v.Devices, func(a, b DeviceView) int {
		if c := strings.Compare(a.Who, b.Who); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	for _, a := range h.Aside {
		v.Asides = append(v.Asides, AsideView{a.Entity, a.Field, a.Why})
	}
	return v
}

func memberName(h *record.Household, id string) string {
	for _, m := range h.Members {
		if m.ID == id {
			return m.Name
		}
	}
	return ""
}

func stronger(a, b string) string {
	order := []string{"", string(roster.Viewer), string(roster.Feeder), string(roster.Keeper)}
	if slices.Index(order, b) > slices.Index(order, a) {
		return b
	}
	return a
}

// signArg asks for the text of a roster operation.
type signArg struct {
	Kind    string      `json:"kind"` // roster.Grant or roster.Revoke
	To      string      `json:"to"`
	Key     string      `json:"key"`
	Member  string      `json:"member"`
	Role    roster.Role `json:"role"`
	Name    string      `json:"name"`
	Why     string      `json:"why"`
	Upholds *[]string   `json:"upholds"` // grants of a revoked phone that stand; all when it is left out
}

// sign writes the text of a grant or a revocation by this phone.
func (p *Phone) sign(arg string, now int64) (SignView, error) {
	a, err := parse[signArg](arg)
	if err != nil {
		return SignView{}, err
	}
	state := p.roster.State()
	op := roster.Op{
		V: roster.Version, T: state.Stamp(now), Dev: p.device, Home: p.household,
		Kind: a.Kind, To: a.To,
	}
	switch a.Kind {
	case roster.Grant:
		op.Key, op.Member, op.Role, op.Name = a.Key, a.Member, a.Role, a.Name
	case roster.Revoke:
		op.Why = a.Why
		if op.Upholds = state.GrantsOf(a.To); a.Upholds != nil {
			op.Upholds = *a.Upholds
		}
	default:
		return SignView{}, fmt.Errorf("a phone signs a grant or a revocation, not %q", a.Kind)
	}
	text, err := roster.Text(op)
	return SignView{text}, err
}

// parse reads an argument that is JSON.
func parse[T any](arg string) (v T, err error) {
	if err := json.Unmarshal([]byte(arg), &v); err != nil {
		return v, fmt.Errorf("arg is not the JSON that this view takes: %w", err)
	}
	return v, nil
}
