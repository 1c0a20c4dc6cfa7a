package entries

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"trayside/internal/journal"
	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// Scene is what Import must know besides the file.
type Scene struct {
	// Replica is the log that the lines come into; it may be empty.
	Replica *replica.Replica
	Device  string // that writes
	Now     int64  // ms
	// Scrap finds the catalogue id of a scrap by its id or by what people call it;
	// nil takes every scrap as it is written.
	Scrap func(text string) (id string, ok bool)
}

// Bad is a line that does not come in, and why.
type Bad struct {
	Line int    `json:"line"` // counted from 1
	Why  string `json:"why"`
}

// Result is what a file comes to. Nothing has been added to the replica.
type Result struct {
	Ops     []oplog.Sealed `json:"-"`
	Added   map[string]int `json:"added"`   // lines that are new, by kind
	Already int            `json:"already"` // lines whose entity is there: left as it is
	Bad     []Bad          `json:"bad"`
}

// entry is one line, or the rows of one feeding.
type entry struct {
	no     int
	kind   journal.Kind
	id     string // as written; "" if nobody named it
	day    string
	at     string
	gone   bool
	fields map[string]json.RawMessage
	ent    string

	by    string        // of a row: who, a member or a guest
	items []record.Item // of a row and those with its id
}

// Import reads JSON lines or CSV, whichever the file holds, into operations. A bad
// line is reported and the rest comes in. What the log has already, by the line's
// id or its content, is not written again, so that a file may be imported twice.
// The error is for a file of which nothing can be read.
func Import(file []byte, s Scene) (Result, error) {
	file = bytes.TrimPrefix(file, []byte("\xef\xbb\xbf"))
	if !utf8.Valid(file) {
		return Result{}, fmt.Errorf("line %d is not UTF-8 text, so letters would be lost; save the file as UTF-8", firstOdd(file))
	}
	r := Result{Added: map[string]int{}, Bad: []Bad{}}
	var list []entry
	var err error
	if trimmed := bytes.TrimLeft(file, " \t\r\n"); len(trimmed) > 0 && trimmed[0] == '{' {
		list, err = r.lines(file, s.Replica)
	} else {
		list, err = r.rows(file)
	}
	if err != nil {
		return Result{}, err
	}
	in := &importer{Scene: s, named: map[string]map[string][]place{}, file: map[string]bool{}, bins: map[string]string{}, sames: map[string]int{}}
	in.learnReplica()
	// All lines are named before any is resolved: a line may name a later one.
	list = r.good(list, in.name)
	list = r.good(list, func(e *entry) string {
		if in.there(e.ent) {
			return "" // left as it is
		}
		return in.resolve(e)
	})
	in.write(&r, list)
	order.By(r.Bad, func(a, b Bad) int { return a.Line - b.Line })
	return r, nil
}

// firstOdd is the number of the first line that is not UTF-8.
func firstOdd(file []byte) int {
	no := 1
	for line := range bytes.Lines(file) {
		if !utf8.Valid(line) {
			break
		}
		no++
	}
	return no
}

// take notes a line that is bad, and reports whether it is good.
func (r *Result) take(no int, why string) bool {
	if why != "" {
		r.Bad = append(r.Bad, Bad{no, why})
	}
	return why == ""
}

// good keeps the lines that a step has nothing to say against.
func (r *Result) good(list []entry, step func(*entry) string) []entry {
	kept := list[:0]
	for _, e := range list {
		if r.take(e.no, step(&e)) {
			kept = append(kept, e)
		}
	}
	return kept
}

// lines reads JSON lines. A phone's operations among them go into the result as
// they are.
func (r *Result) lines(file []byte, held *replica.Replica) ([]entry, error) {
	var list []entry
	seen := map[oplog.ID]bool{}
	for i, text := range bytes.Split(file, []byte("\n")) {
		if text = bytes.TrimSpace(text); len(text) == 0 {
			continue
		}
		var raw map[string]json.RawMessage
		if err := json.Unmarshal(text, &raw); err != nil || raw == nil {
			r.take(i+1, "is not one JSON object; each line holds one entry")
			continue
		}
		switch {
		case raw["format"] != nil:
			if err := version(text); err != nil {
				return nil, err
			}
			continue
		case raw["op"] != nil && raw["sig"] != nil:
			continue // of a roster: who belongs to a household does not come in by a file
		case raw["ent"] != nil:
			r.operation(i+1, text, held, seen)
			continue
		}
		e, why := entryOf(raw)
		if e.no = i + 1; r.take(e.no, why) {
			list = append(list, e)
		}
	}
	return list, nil
}

// operation takes a line that a phone saved: an operation, byte for byte as the
// log has it, so that it is the same one wherever it comes in.
func (r *Result) operation(no int, text []byte, held *replica.Replica, seen map[oplog.ID]bool) {
	op, err := oplog.Open(text)
	switch {
	case err != nil:
		r.take(no, err.Error())
	case held.Has(op.ID) || seen[op.ID]:
		r.Already++
	default:
		seen[op.ID] = true
		r.Ops = append(r.Ops, op)
		r.Added[op.Op.Kind()]++
	}
}

func version(text []byte) error {
	var h header
	switch err := json.Unmarshal(text, &h); {
	case err != nil || h.Format != Format:
		return fmt.Errorf("the first line says that this is no %s file: %.60s", Format, text)
	case h.Version < 1 || h.Version > Version:
		return fmt.Errorf("the file is of version %d; this program reads up to version %d: use a newer one", h.Version, Version)
	}
	return nil
}

// entryOf sorts the members of a line.
func entryOf(raw map[string]json.RawMessage) (e entry, why string) {
	var kind string
	for _, m := range []struct {
		name string
		to   any
	}{{memberKind, &kind}, {memberID, &e.id}, {memberDay, &e.day}, {memberAt, &e.at}, {memberGone, &e.gone}} {
		if v := raw[m.name]; v != nil && json.Unmarshal(v, m.to) != nil {
			return e, fmt.Sprintf("its %s is not what it must be", m.name)
		}
		delete(raw, m.name)
	}
	k, ok := journal.KindNamed(kind)
	if !ok {
		return e, fmt.Sprintf("%q is no kind of entry; there are %s", kind, kindNames())
	}
	e.kind, e.fields = k, raw
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		if _, ok := k.Field(name); !ok {
			return e, fmt.Sprintf("there is no %q in %s; there are %s", name, kind, fieldNames(k))
		}
		if blank(raw[name]) {
			delete(raw, name)
		}
	}
	return e, ""
}

func fieldNames(k journal.Kind) string {
	var list []string
	for _, f := range k.Fields {
		list = append(list, f.Name)
	}
	return strings.Join(list, ", ")
}

func kindNames() string {
	var list []string
	for _, k := range journal.Kinds {
		list = append(list, k.Name)
	}
	return strings.Join(list, ", ")
}

// when checks day and instant, and takes the day from the instant.
func (e *entry) when() string {
	if e.at != "" {
		if _, err := time.Parse(time.RFC3339, e.at); err != nil {
			return fmt.Sprintf("%q is no time like 2026-11-25T08:30:00+01:00", e.at)
		}
		if e.day == "" {
			e.day = e.at[:len(time.DateOnly)]
		}
	}
	if e.day == "" && !slices.Contains(founding, e.kind.Name) {
		return "has no day, such as 2026-11-25"
	}
	if e.day == "" {
		return ""
	}
	d, err := record.DayOf(e.day)
	if err != nil {
		return err.Error()
	}
	return journal.TooEarly(d)
}

// entity is the name of a line's entity: its own where the line gives it, else
// one drawn from its id or, without one, from what it says and how often the file
// has said the same before.
func (in *importer) entity(e *entry) string {
	switch {
	case e.kind.Name == journal.KindHousehold:
		return journal.Home
	case kindOf(e.id) == e.kind.Name && len(e.id) > len(e.kind.Name)+1 && len(e.id) <= 96:
		return e.id
	case e.id != "":
		return drawn(e.kind.Name, "id", e.id)
	}
	said, err := json.Marshal([]any{e.fields, e.by}) // sorted by name
	if err != nil {
		return ""
	}
	same := strings.Join([]string{e.kind.Name, e.day, e.at, string(said)}, "\n")
	in.sames[same]++
	return drawn(e.kind.Name, "says", fmt.Sprint(in.sames[same]), same)
}

func drawn(kind string, from ...string) string {
	sum := sha256.Sum256([]byte("entries\n" + strings.Join(from, "\n")))
	return kind + "/" + hex.EncodeToString(sum[:16])
}

func kindOf(ent string) string { return oplog.KindOf(ent) }

func dayAt(ms int64) string { return time.UnixMilli(ms).UTC().Format(time.DateOnly) }

// write turns lines into operations. Stamps end with now and rise with the lines,
// so that of two claims the later line's holds.
func (in *importer) write(r *Result, list []entry) {
	stamp := max(0, in.Now-int64(2*len(list)))
	done := map[string]bool{}
	for _, e := range list {
		if done[e.ent] || in.there(e.ent) {
			r.Already++
			continue
		}
		ops, err := in.seal(e, stamp)
		if err != nil {
			r.take(e.no, "does not fit: "+err.Error())
			continue
		}
		done[e.ent] = true
		stamp += 2
		r.Ops = append(r.Ops, ops...)
		r.Added[e.kind.Name]++
	}
}

// seal makes the creation of a line's entity and, if it is gone, its removal.
func (in *importer) seal(e entry, stamp int64) ([]oplog.Sealed, error) {
	made, err := oplog.Seal(oplog.Op{V: oplog.Version, T: stamp, Dev: in.Device, Ent: e.ent, At: e.at, Day: e.day, Set: e.fields})
	if err != nil || !e.gone {
		return []oplog.Sealed{made}, err
	}
	gone := true
	left, err := oplog.Seal(oplog.Op{V: oplog.Version, T: stamp + 1, Dev: in.Device, Ent: e.ent, Gone: &gone})
	return []oplog.Sealed{made, left}, err
}

func (in *importer) there(ent string) bool { return in.Replica.Entity(ent) != nil }
