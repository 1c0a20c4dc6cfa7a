// Package roster says who belongs to a household: members, their devices' keys,
// roles and revocations, as a small set of signed operations.
//
// The set has the same machinery as the log: an operation never changes, is
// known by the hash of its text, and may be forwarded by anybody, because it
// certifies itself. Open verifies one, Fold says what a set of them means, and
// Set keeps them for an exchange. The meaning depends on the set alone, never on
// the order of arrival or on anybody's clock:
//
//   - The hash of the founding operation names the household. Its key belongs to
//     the server's console, is a keeper for ever and cannot be revoked.
//   - A grant counts when a chain of keepers' grants leads from the founding key
//     to its signer. Grants and revocations only grow.
//   - A revocation counts when such a chain leads to its signer, revoked or not:
//     two keepers who revoke each other are both out, and the console invites
//     anew. Any device may revoke itself.
//   - What a revoked device granted counts for nothing, except the grants that
//     every revocation of it upholds.
//   - A keeper stays one until revoked. Between feeder and viewer the newest
//     grant that stands decides, by (t, id).
//
// The package knows nothing of worms, of networks, or of the log itself. Nor does
// it hold a curve: whoever opens texts brings a Verifier. The server's is package
// p256; a phone's is the browser's own WebCrypto, which checks every text before
// the engine sees it and so spares each phone 300 kB of curve arithmetic.
package roster

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"unicode/utf8"

	"trayside/sync/oplog"
)

// Bounds of an operation. They may be loosened later, never tightened.
const (
	Version  = 1
	MaxBytes = 8 << 10 // bytes of the operation's text
	maxWire  = 2*MaxBytes + 1<<10
	maxName  = 128 // bytes of a name and of a member's id
)

// Kinds of operation. Others are kept and forwarded and mean nothing here.
const (
	Found  = "found"  // names the household and the founding key
	Grant  = "grant"  // gives a device its member and role
	Revoke = "revoke" // takes a device out for ever
)

// Role is what a device may do.
type Role string

// The roles.
const (
	Keeper Role = "keeper" // everything
	Feeder Role = "feeder" // logs entries; no bins, members or labels
	Viewer Role = "viewer" // reads
)

// Valid reports whether the role is one of the three.
func (r Role) Valid() bool { return r == Keeper || r == Feeder || r == Viewer }

// Why a device is out.
const (
	Lost    = "lost"    // in strange hands: it wipes itself when it learns of it
	Removed = "removed" // no longer wanted
	Left    = "left"    // took itself out
	Adrift  = "adrift"  // never revoked, but no grant of it stands any more
)

// Op is what an operation says. Which members are set depends on Kind.
type Op struct {
	V    int    `json:"v"`              // envelope version, 1
	T    int64  `json:"t"`              // stamp, ms since 1970 UTC; decides only between two grants to one device
	Dev  string `json:"dev"`            // signer: DeviceID of its key
	Home string `json:"home,omitempty"` // household; empty for Found, whose hash names it
	Kind string `json:"kind"`

	Key     string   `json:"key,omitempty"`     // Found: the signer's key; Grant: the device's key (KeyText)
	Name    string   `json:"name,omitempty"`    // Found: of the household's server; Grant: of the device
	To      string   `json:"to,omitempty"`      // Grant, Revoke: device concerned
	Member  string   `json:"member,omitempty"`  // Grant: whose device it is
	Role    Role     `json:"role,omitempty"`    // Grant
	Why     string   `json:"why,omitempty"`     // Revoke: Lost, Removed or Left
	Upholds []string `json:"upholds,omitempty"` // Revoke: ids of that device's grants that go on standing
}

// Signed is a verified operation. Text is what travels.
type Signed struct {
	ID   oplog.ID // hash of the operation's text, so two signatures of one text are one operation
	Text string
	Op   Op
}

// wire is the JSON text that travels. Key is the signer's, so that every text
// can be verified alone; Op.Dev is its hash, so nobody can swap it.
type wire struct {
	Op  string `json:"op"`
	Key string `json:"key"`
	Sig string `json:"sig"`
}

// DeviceID is 32 hexadecimal digits: the first 128 bits of the SHA-256 of the
// public key in its uncompressed SEC 1 form (65 bytes).
func DeviceID(key []byte) string {
	sum := sha256.Sum256(key)
	return hex.EncodeToString(sum[:16])
}

// KeyText writes an uncompressed public key as it stands in operations:
// base64url without padding.
func KeyText(key []byte) string { return base64.RawURLEncoding.EncodeToString(key) }

// ParseKey reads KeyText as the 65 bytes of an uncompressed point. Whether the
// point lies on the curve is for the verifier to say. The error says how to mend it.
func ParseKey(text string) ([]byte, error) {
	raw, err := base64.RawURLEncoding.Strict().DecodeString(text)
	if err != nil || len(raw) != 65 || raw[0] != 4 {
		return nil, fmt.Errorf("roster: a key is base64url of the 65 bytes of an uncompressed P-256 point")
	}
	return raw, nil
}

// Verifier tells whether sig is key's signature over text: key an uncompressed
// P-256 point, sig base64url of the 64 bytes r ‖ s of ECDSA over SHA-256, as
// WebCrypto makes it.
type Verifier func(key []byte, text, sig string) bool

// Vouched is the verifier of texts whose signatures the caller has checked
// already, such as a phone's, which asks WebCrypto before it stores or passes on
// any of them.
func Vouched([]byte, string, string) bool { return true }

// Open verifies a signed text and reads its operation. Whether the operation
// counts is for Fold to say.
func Open(text string, verify Verifier) (Signed, error) {
	if len(text) > maxWire {
		return Signed{}, fmt.Errorf("roster: the text has %d bytes; at most %d are kept", len(text), maxWire)
	}
	w, err := unwrap(text)
	if err != nil {
		return Signed{}, err
	}
	key, err := ParseKey(w.Key)
	if err != nil {
		return Signed{}, err
	}
	op, err := read(w.Op)
	if err != nil {
		return Signed{}, err
	}
	if op.Dev != DeviceID(key) {
		return Signed{}, fmt.Errorf("roster: dev is not the hash of the signer's key")
	}
	if op.Kind == Found && op.Key != w.Key {
		return Signed{}, fmt.Errorf("roster: a founding operation is signed by the key it names")
	}
	if !verify(key, w.Op, w.Sig) {
		return Signed{}, fmt.Errorf("roster: the signature does not fit the operation")
	}
	return Signed{ID: oplog.Hash([]byte(w.Op)), Text: text, Op: op}, nil
}

// unwrap reads what travels, with names taken to the letter. Read into a struct,
// "Op" would stand for op, too, and replace the operation that a browser, which
// reads to the letter, has verified.
func unwrap(text string) (w wire, err error) {
	var members map[string]json.RawMessage
	if err := json.Unmarshal([]byte(text), &members); err != nil {
		return w, fmt.Errorf("roster: the text is not JSON with op, key and sig: %w", err)
	}
	for name, into := range map[string]*string{"op": &w.Op, "key": &w.Key, "sig": &w.Sig} {
		if err := json.Unmarshal(members[name], into); err != nil {
			return w, fmt.Errorf("roster: the text has no %s that is a string: %w", name, err)
		}
	}
	return w, nil
}

// read reads and checks an operation's text.
func read(text string) (Op, error) {
	if len(text) > MaxBytes {
		return Op{}, fmt.Errorf("roster: the operation has %d bytes; at most %d are kept", len(text), MaxBytes)
	}
	var op Op
	if err := json.Unmarshal([]byte(text), &op); err != nil {
		return Op{}, fmt.Errorf("roster: the operation is not JSON of the right form: %w", err)
	}
	return op, op.check()
}

func (op Op) check() error {
	switch {
	case op.V < 1:
		return fmt.Errorf("roster: v must be %d or more", Version)
	case op.T < 0 || op.T > oplog.MaxStamp:
		return fmt.Errorf("roster: t must be from 0 to %d", int64(oplog.MaxStamp))
	case !isID(op.Dev):
		return fmt.Errorf("roster: dev must be 32 hexadecimal digits")
	case len(op.Name) > maxName || len(op.Member) > maxName || !utf8.ValidString(op.Name):
		return fmt.Errorf("roster: name and member have at most %d bytes", maxName)
	case op.Kind == "":
		return fmt.Errorf("roster: kind is missing")
	case op.Kind == Found:
		if op.Home != "" {
			return fmt.Errorf("roster: a founding operation names no household; its hash does")
		}
		return nil
	case !isID(op.Home):
		return fmt.Errorf("roster: home must be the household's 32 hexadecimal digits")
	case op.Kind == Grant:
		return op.checkGrant()
	case op.Kind == Revoke:
		return op.checkRevoke()
	}
	return nil
}

func (op Op) checkGrant() error {
	key, err := ParseKey(op.Key)
	switch {
	case err != nil:
		return err
	case op.To != DeviceID(key):
		return fmt.Errorf("roster: to is not the hash of the key that is granted a role")
	case !op.Role.Valid():
		return fmt.Errorf("roster: role %.20q: want keeper, feeder or viewer", op.Role)
	case op.Member == "":
		return fmt.Errorf("roster: a grant names the member whose device it is")
	}
	return nil
}

func (op Op) checkRevoke() error {
	if !isID(op.To) {
		return fmt.Errorf("roster: to must be a device's 32 hexadecimal digits")
	}
	if op.Why != Lost && op.Why != Removed && op.Why != Left {
		return fmt.Errorf("roster: why %.20q: want lost, removed or left", op.Why)
	}
	for _, id := range op.Upholds {
		if !isID(id) {
			return fmt.Errorf("roster: upholds lists ids of 32 hexadecimal digits, not %.40q", id)
		}
	}
	return nil
}

// isID tells whether s is an id as this package writes it: lower case, so that
// one id has one text.
func isID(s string) bool {
	id, err := oplog.ParseID(s)
	return err == nil && id.String() == s
}
