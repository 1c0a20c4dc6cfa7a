package journal

import (
	"encoding/json"
	"slices"

	"trayside/internal/record"
)

// home writes a household-level entity. Without a name it is a new one; with one
// it is changed, or made under that name, as for a member whom an invite named
// before. A new one needs the fields listed.
func (w *writer) home(kind, ent string, given map[string]any, need ...string) *Refusal {
	set, r := w.fromSet(kind, given, false)
	if r != nil {
		return r
	}
	e := w.Replica.Entity(ent)
	isNew := e == nil && (ent == "" || w.Record != nil)
	switch {
	case ent == "":
		ent = w.fresh(kind)
	case !names(ent, kind):
		return refuse(CodeEntry, "entity", "there is no such %s", kind)
	}
	if isNew {
		if r := required(kind, texty(set), need...); r != nil {
			return r
		}
	} else if e != nil {
		w.leaveEqual(e, set)
	}
	if len(set) == 0 {
		if len(given) == 0 {
			return refuse(CodeEmpty, "set", "nothing was changed")
		}
		return nil
	}
	w.put(ent, set, isNew, nil)
	return nil
}

// texty shows raw values as blank or not.
func texty(set fields) fields {
	out := make(fields, len(set))
	for name, value := range set {
		if raw, ok := value.(json.RawMessage); ok {
			switch string(raw) {
			case `""`, "null", "[]", "0":
				continue
			}
		}
		out[name] = value
	}
	return out
}

func (w *writer) household(in Intent) *Refusal { return w.home(KindHousehold, Home, in.Set) }

func (w *writer) member(in Intent) *Refusal {
	return w.home(KindMember, in.Entity, in.Set, "name")
}

func (w *writer) bin(in Intent) *Refusal {
	return w.home(KindBin, in.Entity, in.Set, "name", "species")
}

func (w *writer) vessel(in Intent) *Refusal {
	return w.home(KindVessel, in.Entity, in.Set, "name", "grams")
}

func (w *writer) tray(in Intent) *Refusal {
	set := with(in.Set, "bin", in.Bin)
	if in.Entity == "" || in.Bin != "" {
		bin, _ := set["bin"].(string)
		if r := w.checkBin("bin", bin); r != nil {
			return r
		}
	}
	return w.home(KindTray, in.Entity, set, "bin", "name", "width", "depth", "height")
}

// with returns given with one more field, unless value is empty.
func with(given map[string]any, name, value string) map[string]any {
	set := make(map[string]any, len(given)+1)
	for k, v := range given {
		set[k] = v
	}
	if value != "" {
		set[name] = value
	}
	return set
}

// claim says that a label is on a tray. The caller has brought the code into
// its canonical form. The claim names those of the same code that it replaces.
func (w *writer) claim(in Intent) *Refusal {
	tray, r := w.checkTray("tray", in.Tray, false)
	if r != nil {
		return r
	}
	code, _ := in.Set["code"].(string)
	if code == "" {
		return refuse(CodeMissing, "set.code", "scan the label or type the code below its square")
	}
	over := w.live(KindLabel, "code", code)
	w.happened(w.fresh(KindLabel), fields{"code": code, "tray": tray.ID, "over": over})
	return nil
}

// stack says in which order the trays of a bin stand, from the bottom up.
func (w *writer) stack(in Intent) *Refusal {
	if r := w.checkBin("bin", in.Bin); r != nil {
		return r
	}
	raw, err := json.Marshal(in.Set["trays"])
	if err != nil {
		return refuse(CodeField, "set.trays", "the order is not a list of trays")
	}
	trays, ok := texts(raw)
	if !ok || len(trays) == 0 {
		return refuse(CodeMissing, "set.trays", "name the trays from the bottom up")
	}
	for i, ent := range trays {
		t, r := w.checkTray("set.trays", ent, false)
		if r != nil {
			return r
		}
		if t.Bin != "" && t.Bin != in.Bin {
			return refuse(CodeTrayBin, "set.trays", "the tray %s stands in another bin", t.Name)
		}
		if slices.Contains(trays[:i], ent) {
			return refuse(CodeField, "set.trays", "the tray %s stands there twice", t.Name)
		}
	}
	w.happened(w.fresh(KindStack), fields{"bin": in.Bin, "trays": trays, "over": w.live(KindStack, "bin", in.Bin)})
	return nil
}

// live lists what a new claim replaces: the entities of a kind, not gone, whose
// field has that text and that no other claim says it replaces.
func (w *writer) live(kind, field, value string) []string {
	var list []string
	seen := map[string]bool{}
	for e := range w.Replica.Entities(kind) {
		over, _ := e.Field("over")
		replaced, _ := texts(over.Value)
		for _, ent := range replaced {
			seen[ent] = true
		}
		reg, _ := e.Field(field)
		if s, _ := text(reg.Value); s == value && !e.IsGone() {
			list = append(list, e.Ent)
		}
	}
	list = slices.DeleteFunc(list, func(ent string) bool { return seen[ent] })
	return list[:min(len(list), maxOver)]
}

// batch beds a tray. A batch that is still open there is emptied in the same go
// when the person is sure; otherwise it is a refusal, because castings would
// vanish from the record.
func (w *writer) batch(in Intent) *Refusal {
	tray, r := w.checkTray("tray", in.Tray, false)
	if r != nil {
		return r
	}
	var bedding []record.Item
	if len(in.Items) > 0 {
		if bedding, r = amount("items", in.Items, orScale(in.How), false); r != nil {
			return r
		}
	}
	ent := w.fresh(KindBatch)
	w.happened(ent, fields{"tray": tray.ID, "bedding": bedding, "bedded": w.day})
	if w.Record == nil {
		return nil
	}
	for _, b := range w.Record.Batches {
		if b.Tray == tray.ID && b.Emptied == nil {
			if !in.Sure {
				return refuse(CodeBatchOpen, "tray", "the tray %s still holds a batch; empty it first, or say that it is empty", tray.Name)
			}
			w.put(b.ID, fields{"emptied": w.day}, false, nil)
		}
	}
	return nil
}

// stage says that a batch reached a stage on the intent's day.
func (w *writer) stage(in Intent) *Refusal {
	stage, _ := in.Set["stage"].(string)
	if !slices.Contains([]string{string(record.Bedded), string(record.InUse), string(record.Resting), string(record.Ready), string(record.Emptied)}, stage) {
		return refuse(CodeField, "set.stage", "a batch has no stage %q", stage)
	}
	if w.Record != nil && w.Replica.Entity(in.Entity) == nil || !names(in.Entity, KindBatch) {
		return refuse(CodeEntry, "entity", "there is no such batch")
	}
	w.put(in.Entity, fields{stage: w.day}, false, nil)
	return nil
}

// worms records worms put in, taken out, weighed or lost.
func (w *writer) worms(in Intent) *Refusal {
	if r := w.checkBin("bin", in.Bin); r != nil {
		return r
	}
	if in.Tray != "" {
		if _, r := w.checkTray("tray", in.Tray, in.InBin); r != nil {
			return r
		}
	}
	set, r := w.fromSet(KindWorms, with(with(in.Set, "bin", in.Bin), "tray", in.Tray), in.InBin)
	if r != nil {
		return r
	}
	move, _ := set["move"].(json.RawMessage)
	need := "mass"
	if string(move) == `"`+string(record.WormsLost)+`"` {
		need = "share"
	}
	if r := required(KindWorms, texty(set), "move", need); r != nil {
		return r
	}
	w.happened(w.fresh(KindWorms), set)
	return nil
}
