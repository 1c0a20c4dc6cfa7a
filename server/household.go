package server

import (
	"crypto/ecdsa"
	"crypto/rand"
	"encoding/hex"
	"fmt"
	"sync"

	"trayside/sync/digest"
	"trayside/sync/exchange"
	"trayside/sync/oplog"
	"trayside/sync/roster"
	"trayside/sync/roster/p256"
)

// household is the one household a server answers for: its roster, its invites
// and its log. Every change is kept by the store before it counts.
type household struct {
	id      oplog.ID
	store   Store
	log     exchange.Log
	console *ecdsa.PrivateKey

	mu      sync.Mutex
	set     *roster.Set
	invites map[oplog.ID]*invite
}

func openHousehold(cfg Config) (*household, error) {
	homes, err := cfg.Store.Homes()
	if err != nil {
		return nil, err
	}
	h := &household{store: cfg.Store, console: cfg.Console, invites: map[oplog.ID]*invite{}}
	switch len(homes) {
	case 0:
		found, err := p256.Sign(cfg.Console, roster.Op{T: cfg.Now().UnixMilli(), Kind: roster.Found, Name: cfg.Name})
		if err != nil {
			return nil, err
		}
		if err := cfg.Store.PutRoster(found.ID, map[oplog.ID]string{found.ID: found.Text}); err != nil {
			return nil, fmt.Errorf("server: found a household: %w", err)
		}
		h.id = found.ID
	case 1:
		h.id = homes[0]
	default:
		return nil, fmt.Errorf("server: the data folder holds %d households; this version serves one", len(homes))
	}
	texts, err := cfg.Store.Roster(h.id)
	if err != nil {
		return nil, err
	}
	h.set = roster.NewSet(h.id, "", p256.Verify)
	h.set.Take(texts)
	key, err := p256.PublicKey(cfg.Console)
	if err != nil {
		return nil, err
	}
	if d, there := h.set.State().Device(roster.DeviceID(key)); !there || !d.In() || d.Role != roster.Keeper {
		return nil, fmt.Errorf("server: the console's key is no keeper of household %v; put the key file that belongs to this data folder back", h.id)
	}
	h.log = cfg.Store.Log(h.id)
	return h, h.readInvites()
}

// state is what the roster means now.
func (h *household) state() *roster.State {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.set.State()
}

func (h *household) fresh() bool {
	s := h.state()
	for _, d := range s.Devices() {
		if d.ID != s.Founder() && d.In() && d.Role == roster.Keeper {
			return false
		}
	}
	return true
}

// Root, Texts and Add are the roster as an exchange needs it.
func (h *household) Root() digest.Sum { return h.state().Root() }

// Texts: see Root.
func (h *household) Texts() []string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.set.Texts()
}

// Add takes in what a keeper's chain vouches for and keeps it on disk.
func (h *household) Add(texts []string) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.add(texts)
}

func (h *household) add(texts []string) error {
	next := h.set.Clone()
	keep := map[oplog.ID]string{}
	for _, op := range next.Take(texts) {
		keep[op.ID] = op.Text
	}
	if len(keep) > 0 {
		if err := h.store.PutRoster(h.id, keep); err != nil {
			return fmt.Errorf("server: keep the roster: %w", err)
		}
	}
	h.set = next
	return nil
}

// grantByConsole lets a device in with the console's signature.
func (h *household) grantByConsole(now int64, j *joiner, role roster.Role, member string) error {
	op, err := p256.Sign(h.console, roster.Op{
		T: h.set.State().Stamp(now), Home: h.id.String(), Kind: roster.Grant,
		To: j.Dev, Key: j.Key, Name: j.Device, Member: member, Role: role,
	})
	if err != nil {
		return err
	}
	return h.add([]string{op.Text})
}

// isConsole tells whether a device is the console itself.
func (h *household) isConsole(dev string) bool { return dev == h.set.State().Founder() }

// newMember makes the id of a member who is not in the log yet.
func newMember() string {
	b := make([]byte, 16)
	rand.Read(b)
	return "member/" + hex.EncodeToString(b)
}
