package server

import (
	"crypto/rand"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math/big"
	"strings"
	"time"

	"github.com/skip2/go-qrcode"

	"trayside/sync/oplog"
	"trayside/sync/roster"
)

const (
	inviteTime = 10 * time.Minute // to redeem a code, and again to be let in
	shortTries = 5
	// symbols of the typed form: digits and letters without I, L, O and U, which
	// look like others or make words (alphabet of D. Crockford, "Base 32", 2002).
	symbols   = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
	shortSize = 8 // 40 bits: enough only because tries and time are few
)

// invite is a row of the store. Codes are kept as hashes: the long one is 128
// random bits, the short one is salted with the invite's id.
type invite struct {
	ID      oplog.ID    `json:"id"` // hash of the code
	Short   oplog.ID    `json:"short"`
	Role    roster.Role `json:"role"`
	Member  string      `json:"member"`
	By      string      `json:"by"` // device that invited
	Expires int64       `json:"expires"`
	Tries   int         `json:"tries,omitempty"` // wrong short codes while it was open
	Join    *joiner     `json:"join,omitempty"`  // who redeemed it
}

// States of a joiner.
const (
	joinWaiting  = "waiting"
	joinGranted  = "granted"
	joinDeclined = "declined"
)

// joiner is the phone that redeemed an invite.
type joiner struct {
	ID     string `json:"id"`    // secret that the phone asks with
	Match  string `json:"match"` // shown on both screens
	Key    string `json:"key"`
	Dev    string `json:"dev"`
	Device string `json:"device"` // its name
	State  string `json:"state"`
	Until  int64  `json:"until"` // it is let in by then or not at all
}

// Invite is a new invite, told once.
type Invite struct {
	ID      string `json:"id"`
	Code    string `json:"code"`
	Short   string `json:"short"`
	Link    string `json:"link"`
	Expires int64  `json:"expires"` // ms
	// QR is the link as rows of a square code, 1 for dark, with its quiet zone:
	// the phone draws it and needs no encoder of its own.
	QR []string `json:"qr,omitempty"`
}

// qrRows draws a link as a square code. A link too long for one gives nothing:
// it can still be typed.
func qrRows(link string) []string {
	code, err := qrcode.New(link, qrcode.Medium)
	if err != nil {
		return nil
	}
	var rows []string
	for _, bits := range code.Bitmap() {
		row := make([]byte, len(bits))
		for i, dark := range bits {
			row[i] = '0'
			if dark {
				row[i] = '1'
			}
		}
		rows = append(rows, string(row))
	}
	return rows
}

func codeID(code string) oplog.ID { return oplog.Hash([]byte("trayside-invite:" + code)) }
func shortID(id oplog.ID, s string) oplog.ID {
	return oplog.Hash([]byte("trayside-short:" + id.String() + ":" + s))
}

func random(n int) []byte {
	b := make([]byte, n)
	rand.Read(b)
	return b
}

func newShort() string {
	b := random(shortSize)
	for i := range b {
		b[i] = symbols[int(b[i])%len(symbols)] // 256 is a multiple of 32: no symbol is likelier
	}
	return string(b)
}

// readShort reads a short code as people type it.
func readShort(s string) string {
	s = strings.ToUpper(s)
	return strings.NewReplacer("-", "", " ", "", "I", "1", "L", "1", "O", "0").Replace(s)
}

// readInvites reads the rows of the store. One that cannot be read is left
// out: its code is then unknown, and a new one is made in a moment.
func (h *household) readInvites() error {
	rows, err := h.store.Invites(h.id)
	if err != nil {
		return fmt.Errorf("server: read the invites: %w", err)
	}
	for id, row := range rows {
		var v invite
		if json.Unmarshal(row, &v) == nil && v.ID == id {
			h.invites[id] = &v
		}
	}
	return nil
}

// keep writes an invite down; only then does the change count.
func (h *household) keep(v invite) error {
	row, err := json.Marshal(v)
	if err != nil {
		return err
	}
	if err := h.store.PutInvite(h.id, v.ID, row); err != nil {
		return fmt.Errorf("server: keep an invite: %w", err)
	}
	h.invites[v.ID] = &v
	return nil
}

// invite makes an invite. An empty member is somebody new.
func (h *household) invite(now time.Time, by string, role roster.Role, member string) (Invite, error) {
	if !role.Valid() {
		return Invite{}, problem("bad-request", "role %q: an invite is for a keeper, feeder or viewer.", role)
	}
	if len(member) > 128 {
		return Invite{}, problem("bad-request", "member has at most 128 bytes.")
	}
	if member == "" {
		member = newMember()
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	code, short := base64.RawURLEncoding.EncodeToString(random(16)), newShort()
	v := invite{ID: codeID(code), Role: role, Member: member, By: by, Expires: now.Add(inviteTime).UnixMilli()}
	v.Short = shortID(v.ID, short)
	if err := h.keep(v); err != nil {
		return Invite{}, err
	}
	return Invite{ID: v.ID.String(), Code: code, Short: short[:4] + "-" + short[4:], Expires: v.Expires}, nil
}

// find looks an invite up by its code, long or short. A wrong short code costs
// every open invite one of its tries.
func (h *household) find(now int64, code, short string) (*invite, error) {
	if code != "" {
		return h.invites[codeID(code)], nil
	}
	short = readShort(short)
	for _, v := range h.invites {
		if v.Short == shortID(v.ID, short) {
			if v.Tries >= shortTries {
				return nil, problem("invite-used", "The typed form of this invite was tried wrongly %d times; scan its code, or ask for a new invite.", shortTries)
			}
			return v, nil
		}
	}
	for _, v := range h.invites {
		if v.Join == nil && now < v.Expires && v.Tries < shortTries {
			wrong := *v
			wrong.Tries++
			if err := h.keep(wrong); err != nil {
				return nil, err
			}
		}
	}
	return nil, nil
}

// redeem hands an invite to a phone. The same phone may ask again, since an
// answer can get lost; another one is too late.
func (h *household) redeem(now time.Time, v *invite, key, dev, name string) (*invite, error) {
	ms := now.UnixMilli()
	if v.Join != nil {
		if v.Join.Key == key {
			return v, v.Join.refusal(ms)
		}
		return nil, problem("invite-used", "Another phone has used this invite; ask for a new one.")
	}
	if ms >= v.Expires {
		return nil, problem("invite-expired", "This invite is over: it is good for 10 minutes. Ask for a new one.")
	}
	match, err := rand.Int(rand.Reader, big.NewInt(10000))
	if err != nil {
		return nil, err
	}
	next := *v
	next.Join = &joiner{
		ID:    base64.RawURLEncoding.EncodeToString(random(16)),
		Match: fmt.Sprintf("%04d", match), Key: key, Dev: dev, Device: name,
		State: joinWaiting, Until: now.Add(inviteTime).UnixMilli(),
	}
	if h.isConsole(v.By) {
		if err := h.grantByConsole(ms, next.Join, v.Role, v.Member); err != nil {
			return nil, err
		}
		next.Join.State = joinGranted
	}
	return &next, h.keep(next)
}

// refusal is why a phone that redeemed an invite is not let in any more.
func (j *joiner) refusal(now int64) error {
	switch {
	case j.State == joinDeclined:
		return problem("join-declined", "A keeper turned this phone away; ask for a new invite.")
	case j.State == joinWaiting && now >= j.Until:
		return problem("invite-expired", "No keeper let this phone in within 10 minutes; ask for a new invite.")
	}
	return nil
}

// byJoin finds the invite that a phone redeemed.
func (h *household) byJoin(join string) *invite {
	for _, v := range h.invites {
		if v.Join != nil && v.Join.ID == join {
			return v
		}
	}
	return nil
}
