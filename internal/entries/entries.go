// Package entries writes a household's log down as plain lines that people and
// scripts can read and write, and reads such lines into a log.
//
// Export and Import are the doors for JSON lines, ExportFeedings and Import for
// CSV; Import also takes the file that a phone exports of its log. FORMAT.md beside
// this file is the description. The package works on a
// replica and on operations: it stores nothing, and knows no worms.
package entries

import (
	"bytes"
	"cmp"
	"encoding/json"
	"slices"

	"trayside/internal/journal"
	"trayside/internal/order"
	"trayside/sync/replica"
)

// Version is that of the lines that Export writes. Import reads no later one.
const Version = 1

// Format is what the first line of a file says it is.
const Format = "trayside-entries"

// header is the first line.
type header struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
}

// The members of a line that are no field of its kind.
const (
	memberKind = "kind"
	memberID   = "id"
	memberDay  = "day"
	memberAt   = "at"
	memberGone = "gone"
)

// founding are the kinds that a household is made of, in the order of the file;
// each kind stands in the order in which it was written, which decides between
// claims. The other kinds follow together, by day.
var founding = []string{
	journal.KindHousehold, journal.KindMember, journal.KindBin, journal.KindTray, journal.KindVessel, journal.KindRule,
	journal.KindLabel, journal.KindStack, journal.KindBatch,
}

// kept are the kinds whose removed entities other lines still name, and the
// household, which nobody can remove.
var kept = []string{journal.KindHousehold, journal.KindMember, journal.KindBin, journal.KindTray}

// undated are the kinds of which the day says nothing.
var undated = []string{
	journal.KindHousehold, journal.KindMember, journal.KindTray, journal.KindVessel, journal.KindStack,
}

// Export writes everything that a household's log says and that was not taken
// back, one JSON object a line. The same replica gives the same bytes.
func Export(rep *replica.Replica) []byte {
	var out bytes.Buffer
	line(&out, header{Format, Version})
	for _, name := range founding {
		for _, e := range written(rep, name, func(a, b *replica.Entity) int { return a.First().Compare(b.First()) }) {
			object(&out, e, name)
		}
	}
	var dated []*replica.Entity
	for _, k := range journal.Kinds {
		if !slices.Contains(founding, k.Name) {
			dated = append(dated, written(rep, k.Name, byDay)...)
		}
	}
	order.By(dated, byDay)
	for _, e := range dated {
		object(&out, e, kindOf(e.Ent))
	}
	return out.Bytes()
}

func byDay(a, b *replica.Entity) int {
	return cmp.Or(cmp.Compare(dayOf(a), dayOf(b)), cmp.Compare(a.At(), b.At()), cmp.Compare(a.Ent, b.Ent))
}

// dayOf is the household's day of an entry; when nobody said, the UTC day of its
// stamp.
func dayOf(e *replica.Entity) string {
	return cmp.Or(e.Day(), dayAt(e.First().T))
}

// written lists the entities of a kind that say something and are to be exported.
func written(rep *replica.Replica, kind string, first func(a, b *replica.Entity) int) []*replica.Entity {
	var list []*replica.Entity
	for e := range rep.Entities(kind) {
		said := false
		for range e.Fields() {
			said = true
			break
		}
		if said && (!e.IsGone() || slices.Contains(kept, kind)) {
			list = append(list, e)
		}
	}
	order.By(list, first)
	return list
}

// object writes one entity: what it is and when it happened, then its fields in
// the order of its kind.
func object(out *bytes.Buffer, e *replica.Entity, kind string) {
	k, _ := journal.KindNamed(kind)
	out.WriteByte('{')
	member(out, memberKind, quoted(kind))
	member(out, memberID, quoted(e.Ent))
	if e.Day() != "" || !slices.Contains(undated, kind) {
		member(out, memberDay, quoted(dayOf(e)))
	}
	if at := e.At(); at != "" {
		member(out, memberAt, quoted(at))
	}
	if e.IsGone() {
		member(out, memberGone, json.RawMessage("true"))
	}
	for _, f := range k.Fields {
		if reg, ok := e.Field(f.Name); ok && !blank(reg.Value) {
			member(out, f.Name, reg.Value)
		}
	}
	out.WriteString("}\n")
}

func member(out *bytes.Buffer, name string, value json.RawMessage) {
	if b := out.Bytes(); b[len(b)-1] != '{' {
		out.WriteByte(',')
	}
	out.Write(quoted(name))
	out.WriteByte(':')
	if json.Compact(out, value) != nil {
		out.WriteString("null") // the fold lets no such value through
	}
}

// blank reports whether a value says as much as none does.
func blank(value json.RawMessage) bool {
	switch string(bytes.TrimSpace(value)) {
	case `""`, "null", "[]":
		return true
	}
	return false
}

func quoted(s string) json.RawMessage {
	var b bytes.Buffer
	line(&b, s)
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}

// line encodes a value without escaping < > &, and ends the line.
func line(out *bytes.Buffer, v any) {
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		panic("entries: " + err.Error()) // strings and the header always encode
	}
}
