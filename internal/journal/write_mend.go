package journal

import (
	"encoding/json"
	"maps"
	"slices"

	"trayside/internal/record"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// undo takes an entry back. Entity names the entry, which is then gone and can
// be brought back, or one operation by its 32 hexadecimal digits, which is then
// reverted as far as nobody wrote over it.
func (w *writer) undo(in Intent) *Refusal {
	if id, err := oplog.ParseID(in.Entity); err == nil {
		return w.revert(id)
	}
	return w.setGone(in.Entity, true)
}

// redo brings an entry back that was taken back, or reverts the operation that
// reverted another one.
func (w *writer) redo(in Intent) *Refusal {
	if id, err := oplog.ParseID(in.Entity); err == nil {
		return w.revert(id)
	}
	if oplog.KindOf(in.Entity) == KindPhoto {
		return refuse(CodeEntry, "entity", "a picture that was removed is gone for good; take it again")
	}
	return w.setGone(in.Entity, false)
}

func (w *writer) setGone(ent string, gone bool) *Refusal {
	e := w.Replica.Entity(ent)
	if e == nil && (w.Record != nil || !wellNamed(ent)) {
		return refuse(CodeEntry, "entity", "there is no such entry")
	}
	if e != nil && e.IsGone() == gone {
		return nil // somebody was faster; what is asked for is so
	}
	w.put(ent, nil, false, &gone)
	return nil
}

func wellNamed(ent string) bool {
	_, known := KindNamed(oplog.KindOf(ent))
	return known && names(ent, oplog.KindOf(ent))
}

func (w *writer) revert(id oplog.ID) *Refusal {
	v, ok := w.Replica.Undo(id)
	if !ok {
		return refuse(CodeEntry, "entity", "there is no such change any more")
	}
	if v.Any() {
		w.putRevert(v)
	}
	return nil
}

func (w *writer) putRevert(v replica.Revert) {
	set := make(fields, len(v.Set))
	for name, value := range v.Set {
		set[name] = value
	}
	dated := v.At != "" || v.Day != ""
	at, day := w.at, w.day
	if dated {
		w.at, w.day = v.At, v.Day
	}
	w.put(v.Ent, set, dated, v.Gone)
	w.at, w.day = at, day
}

// edit changes fields of an entry: those of Set, and At and Day if given. Fields
// that hold the value already are left alone, so that an edit never writes over
// what somebody else changed meanwhile in another field.
func (w *writer) edit(in Intent) *Refusal {
	e := w.Replica.Entity(in.Entity)
	if e == nil && (w.Record != nil || !wellNamed(in.Entity)) {
		return refuse(CodeEntry, "entity", "there is no such entry to change")
	}
	set, r := w.fromSet(oplog.KindOf(in.Entity), in.Set, in.InBin)
	if r != nil {
		return r
	}
	if e != nil {
		w.leaveEqual(e, set)
	}
	dated := in.At != "" || in.Day != ""
	if e != nil && dated && (in.At == "" || in.At == e.At()) && (in.Day == "" || in.Day == e.Day()) {
		dated = false
	}
	if len(set) == 0 && !dated {
		if len(in.Set) == 0 && in.At == "" && in.Day == "" {
			return refuse(CodeEmpty, "set", "nothing was changed")
		}
		return nil
	}
	at, day := w.at, w.day
	w.at, w.day = in.At, in.Day // only what was given moves
	w.put(in.Entity, set, dated, nil)
	w.at, w.day = at, day
	return nil
}

func (w *writer) leaveEqual(e *replica.Entity, set fields) {
	maps.DeleteFunc(set, func(name string, value any) bool {
		reg, there := e.Field(name)
		raw := value.(json.RawMessage)
		if !there {
			return string(raw) == "null"
		}
		return string(reg.Value) == string(raw)
	})
}

// fromSet reads the free fields of an intent and checks them against the kind:
// shapes here and, for what people type, the same bounds as in the forms.
func (w *writer) fromSet(kind string, given map[string]any, inBin bool) (fields, *Refusal) {
	k, ok := KindNamed(kind)
	if !ok {
		return nil, refuse(CodeEntry, "entity", "%q is no kind of entry", kind)
	}
	set := make(fields, len(given))
	for _, name := range slices.Sorted(maps.Keys(given)) {
		f, ok := k.Field(name)
		if !ok {
			return nil, refuse(CodeField, "set."+name, "a %s has no %s", kind, name)
		}
		raw, err := json.Marshal(given[name])
		if err != nil {
			return nil, refuse(CodeField, "set."+name, "%s cannot be written down: %v", name, err)
		}
		if string(raw) != "null" {
			if r := w.checkField(kind, f, raw, inBin); r != nil {
				return nil, r
			}
		}
		set[name] = json.RawMessage(raw)
	}
	return set, nil
}

func (w *writer) checkField(kind string, f Field, raw json.RawMessage, inBin bool) *Refusal {
	at := "set." + f.Name
	if n, ok := integer(raw); ok && f.Type == Natural && n < 0 {
		return refuse(CodeNegative, at, "%d is less than nothing", n)
	}
	if f.Type == Amounts {
		list, ok := amounts(raw, nil)
		if !ok {
			return refuse(CodeField, at, "the %s of this %s is not a list of amounts", f.Name, kind)
		}
		if _, r := amount(at, list, record.Unweighed, inBin); r != nil {
			return r
		}
	}
	if why := f.Why(raw); why != "" {
		return refuse(CodeField, at, "the %s of this %s %s", f.Name, kind, why)
	}
	if n, ok := integer(raw); ok {
		if r := inBounds(kind, f.Name, at, n); r != nil {
			return r
		}
	}
	if s, _ := text(raw); f.Name == "tray" && s != "" {
		_, r := w.checkTray(at, s, inBin)
		return r
	}
	return nil
}
