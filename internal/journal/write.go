package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"time"

	"trayside/internal/record"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// Scene is what Write must know besides the intent.
type Scene struct {
	// Replica holds what the phone has read so far, whole or not.
	Replica *replica.Replica
	// Record is the fold, or nil while the phone is still reading: nothing can be
	// checked against it then, and the entry is written all the same.
	Record *record.Household
	Member string // entity of the member whose phone it is
	Device string
	Now    int64  // calibrated, ms
	Floor  int64  // newest household time ever seen, ms
	Random []byte // at least 16 fresh random bytes
}

// Written is what an intent became.
type Written struct {
	Ops      []oplog.Sealed
	Entity   string   // the entry a screen shows or undoes; the first of Entities
	Entities []string // every entity written to
}

// Refusal says why an intent was not written down. Nothing of it is lost: the
// form still holds what was typed.
type Refusal struct {
	Code   string `json:"code"`
	Field  string `json:"field,omitempty"` // member of Intent, "items.2.g" inside a list
	Detail string `json:"detail"`          // one sentence in plain English; the screens have their own words for the codes
}

func (r *Refusal) Error() string { return "journal: " + r.Detail }

// The codes of a Refusal.
const (
	CodeUnknownDo   = "unknown-do"     // no such intent
	CodeRandom      = "no-random"      // fewer than 16 random bytes
	CodeWhen        = "bad-when"       // at or day is none
	CodeEmpty       = "empty"          // nothing to write down
	CodeNegative    = "negative"       // an amount below nothing
	CodeZero        = "zero"           // an amount of nothing that was weighed
	CodeTooMuch     = "too-much"       // an amount nobody can lift
	CodeTooMany     = "too-many"       // more kinds in one amount than fit
	CodeScrap       = "unknown-scrap"  // no scrap named, or "other" without a class
	CodeTray        = "unknown-tray"   // no such tray
	CodeTrayGone    = "tray-removed"   // the tray was removed
	CodeTrayBin     = "tray-elsewhere" // the tray stands in another bin
	CodeBin         = "unknown-bin"
	CodeSpot        = "unknown-spot"
	CodeMember      = "unknown-member"
	CodeBowl        = "unknown-bowl"
	CodeBowlEmpty   = "bowl-empty"     // nothing left in it
	CodeBowlShort   = "more-than-bowl" // the shares exceed what is left
	CodeShare       = "bad-share"      // a share that goes nowhere
	CodeEntry       = "unknown-entry"  // nothing to undo, redo or edit
	CodeField       = "bad-field"      // a field that does not exist or does not fit
	CodeMissing     = "missing"        // a field that the kind must have
	CodeTemperature = "bad-temp"       // no bed or room has it
	CodeBatchOpen   = "batch-open"     // the tray's last batch was not emptied
	CodeTooBig      = "too-big"        // the operation would not fit, which only a long note can do
)

func refuse(code, field, format string, args ...any) *Refusal {
	return &Refusal{Code: code, Field: field, Detail: fmt.Sprintf(format, args...)}
}

// Write turns an intent into operations. It stores nothing and folds nothing:
// the caller keeps the operations and then adds them to the replica. The error
// is always a *Refusal.
//
// Whether an amount may be a slip is not asked here, because that takes the
// ration; the caller asks it first.
func Write(s Scene, in Intent) (Written, error) {
	if len(s.Random) < 16 {
		return Written{}, refuse(CodeRandom, "rand", "an entry needs 16 random bytes for its name, %d were given", len(s.Random))
	}
	w := writer{Scene: s}
	if err := w.when(in); err != nil {
		return Written{}, err
	}
	do := map[string]func(*writer, Intent) *Refusal{
		DoFeed: (*writer).feed, DoBowl: (*writer).bowl, DoPlace: (*writer).place, DoLook: (*writer).look,
		DoUndo: (*writer).undo, DoRedo: (*writer).redo, DoEdit: (*writer).edit,
		DoHousehold: (*writer).household, DoMember: (*writer).member, DoBin: (*writer).bin, DoTray: (*writer).tray,
		DoClaim: (*writer).claim, DoStack: (*writer).stack, DoBatch: (*writer).batch, DoStage: (*writer).stage,
		DoWorms: (*writer).worms, DoVessel: (*writer).vessel,
		DoFreeze: (*writer).freeze, DoDiscard: (*writer).discard, DoSample: (*writer).sample, DoHarvest: (*writer).harvest,
		DoPhoto: (*writer).photo, DoRule: (*writer).rule,
	}[in.Do]
	if do == nil {
		return Written{}, refuse(CodeUnknownDo, "do", "%q is nothing that can be written down", in.Do)
	}
	if err := do(&w, in); err != nil {
		return Written{}, err
	}
	if w.err != nil {
		return Written{}, w.err
	}
	if len(w.out.Entities) > 0 {
		w.out.Entity = w.out.Entities[0]
	} else {
		w.out.Entity = in.Entity
	}
	return w.out, nil
}

// writer gathers the operations of one intent.
type writer struct {
	Scene
	at    string
	day   string
	today record.Day
	drawn int
	out   Written
	err   *Refusal
}

// when settles the instant and the day of the entry.
func (w *writer) when(in Intent) *Refusal {
	w.at, w.day = in.At, in.Day
	if w.at == "" {
		w.at = time.UnixMilli(w.Now).UTC().Format(time.RFC3339)
	}
	if _, err := time.Parse(time.RFC3339, w.at); err != nil {
		return refuse(CodeWhen, "at", "%q is no time like 2026-11-25T08:30:00+01:00", in.At)
	}
	if w.day == "" {
		w.day = w.at[:len("2006-01-02")]
	}
	today, ok := parseDay(w.day)
	if !ok {
		return refuse(CodeWhen, "day", "%q is no day like 2026-11-25", in.Day)
	}
	w.today = today
	return nil
}

// fresh draws the name of a new entity: the intent's random bytes, hashed with
// a running number, because one tap may write several entries.
func (w *writer) fresh(kind string) string {
	sum := sha256.Sum256(append(append([]byte(nil), w.Random...), byte(w.drawn)))
	w.drawn++
	return kind + "/" + hex.EncodeToString(sum[:16])
}

// fields are an operation's values before they are encoded. Empty strings, nil
// and empty lists are left out by happened; an edit writes them as they are.
type fields map[string]any

// happened writes an entry that happened at the intent's instant and day.
func (w *writer) happened(ent string, set fields) {
	w.put(ent, set, true, nil)
}

// put seals one operation. A value that no shape allows is a refusal.
func (w *writer) put(ent string, set fields, dated bool, gone *bool) {
	if w.err != nil {
		return
	}
	op := oplog.Op{
		V: oplog.Version, T: w.Replica.Stamp(ent, w.Now, w.Floor),
		By: w.Member, Dev: w.Device, Ent: ent, Gone: gone,
	}
	if dated {
		op.At, op.Day = w.at, w.day
	}
	kind, _ := KindNamed(op.Kind())
	for name, value := range set {
		raw, ok := value.(json.RawMessage)
		if !ok {
			if blank(value) && dated {
				continue
			}
			var err error
			if raw, err = json.Marshal(value); err != nil {
				w.err = refuse(CodeField, name, "%s cannot be written down: %v", name, err)
				return
			}
		}
		field, known := kind.Field(name)
		if !known {
			w.err = refuse(CodeField, name, "a %s has no %s", kind.Name, name)
			return
		}
		if why := field.Why(raw); why != "" && string(raw) != "null" {
			w.err = refuse(CodeField, name, "the %s of this %s %s", name, kind.Name, why)
			return
		}
		if op.Set == nil {
			op.Set = make(map[string]json.RawMessage, len(set))
		}
		op.Set[name] = raw
	}
	sealed, err := oplog.Seal(op)
	if err != nil {
		w.err = refuse(CodeTooBig, "note", "this entry does not fit: %v", err)
		return
	}
	w.out.Ops = append(w.out.Ops, sealed)
	w.out.Entities = append(w.out.Entities, ent)
}

func blank(value any) bool {
	switch v := value.(type) {
	case nil:
		return true
	case string:
		return v == ""
	case []record.Item:
		return len(v) == 0
	case []string:
		return len(v) == 0
	case bool:
		return !v
	}
	return false
}
