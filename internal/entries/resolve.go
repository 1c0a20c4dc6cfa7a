package entries

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"trayside/internal/journal"
	"trayside/internal/record"
)

// importer finds what lines name.
type importer struct {
	Scene
	named map[string]map[string][]place // by kind and what people write
	file  map[string]bool               // entities of the file
	bins  map[string]string             // of trays, as written
	sames map[string]int                // lines that say the same, by what they say
}

// place is an entity that a name may mean; bin is that of a tray.
type place struct{ ent, bin string }

func (in *importer) learn(kind, name string, p place) {
	if kind == journal.KindTray {
		in.bins[p.ent] = p.bin
	}
	name = plainly(name)
	if name == "" {
		return
	}
	if in.named[kind] == nil {
		in.named[kind] = map[string][]place{}
	}
	if list := in.named[kind][name]; !slices.Contains(list, p) {
		in.named[kind][name] = append(list, p)
	}
}

// plainly is a name as two people would write it alike.
func plainly(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }

// alike are the kinds of which a line without an id means the household's own of
// that name; two bowls of one name are two.
var alike = []string{journal.KindMember, journal.KindBin, journal.KindTray, journal.KindVessel}

// callable are the kinds that lines may name by what people call them.
var callable = append(slices.Clone(alike), journal.KindBowl)

func (in *importer) learnReplica() {
	for _, kind := range callable {
		for e := range in.Replica.Entities(kind) {
			if !e.IsGone() {
				name, _ := e.Field("name")
				bin, _ := e.Field("bin")
				in.learn(kind, str(name.Value), place{e.Ent, str(bin.Value)})
			}
		}
	}
}

func str(raw json.RawMessage) string {
	var s string
	if json.Unmarshal(raw, &s) != nil {
		return ""
	}
	return s
}

// name gives a line its entity and makes it known by its name and id. Without an
// id, one that the household calls the same is meant.
func (in *importer) name(e *entry) string {
	if why := e.when(); why != "" {
		return why
	}
	called := str(e.fields["name"])
	if e.id == "" && slices.Contains(alike, e.kind.Name) && called != "" {
		p, why := in.find(e.kind.Name, called, str(e.fields["bin"]))
		if why == "" && in.there(p.ent) {
			e.ent = p.ent
			return ""
		}
	}
	if e.ent = in.entity(e); e.ent == "" {
		return "cannot be written down"
	}
	in.file[e.ent] = true
	if slices.Contains(callable, e.kind.Name) && !e.gone {
		in.learn(e.kind.Name, called, place{e.ent, str(e.fields["bin"])})
	}
	if e.id != "" {
		in.learn(e.kind.Name, e.id, place{e.ent, str(e.fields["bin"])})
	}
	return ""
}

// find returns the one entity of a kind that a word means: its name in the log,
// the id of a line, or what people call it. A tray may be told by its bin.
func (in *importer) find(kind, word, bin string) (place, string) {
	if kindOf(word) == kind {
		return place{ent: word}, ""
	}
	list := in.named[kind][plainly(word)]
	if len(list) > 1 && bin != "" {
		list = slices.DeleteFunc(slices.Clone(list), func(p place) bool { return p.bin != bin && !in.calls(journal.KindBin, p.bin, bin) })
	}
	switch len(list) {
	case 0:
		return place{}, fmt.Sprintf("there is no %s %q, in this file or in the household", kind, word)
	case 1:
		return list[0], ""
	}
	return place{}, fmt.Sprintf("%d of the %ss are called %q; give its id, or the bin of a tray", len(list), kind, word)
}

// calls reports whether two words mean the same entity.
func (in *importer) calls(kind, a, b string) bool {
	x, why1 := in.find(kind, a, "")
	y, why2 := in.find(kind, b, "")
	return why1 == "" && why2 == "" && x.ent == y.ent
}

// needs are the fields that a line cannot do without.
var needs = map[string][]string{
	journal.KindMember: {"name"}, journal.KindBin: {"name"}, journal.KindTray: {"bin", "name"}, journal.KindVessel: {"name"},
	journal.KindLabel: {"code", "tray"}, journal.KindStack: {"bin", "trays"}, journal.KindBatch: {"tray"},
	journal.KindRule: {"scrap", "verdict"}, journal.KindWorms: {"bin", "move"}, journal.KindFeeding: {"tray"}, journal.KindLook: {"tray"},
	journal.KindSample: {"tray"}, journal.KindHarvest: {"tray"}, journal.KindPhoto: {"of", "hash"},
	journal.KindBowl: {"items"}, journal.KindFreezing: {"items"}, journal.KindDiscard: {"items"},
}

// resolve turns what a line names into entities and checks its fields.
func (in *importer) resolve(e *entry) string {
	in.person(e)
	for _, f := range e.kind.Fields {
		raw, ok := e.fields[f.Name]
		if !ok {
			continue
		}
		var why string
		switch f.Type {
		case journal.Ref:
			raw, why = in.ref(e, f, raw)
		case journal.Refs:
			raw, why = in.refs(e, f, raw)
		case journal.Amounts, journal.Moves:
			raw, why = in.items(raw)
		}
		if why == "" {
			if why = f.Why(raw); why != "" {
				why = fmt.Sprintf("its %s %s%s", f.Name, why, caution(e.kind.Name, f.Name, raw))
			}
		}
		if why == "" {
			why = journal.TooFar(e.kind.Name, f.Name, raw)
		}
		if why != "" {
			return why
		}
		e.fields[f.Name] = raw
	}
	return in.complete(e)
}

// caution is what must be said of a bin of jumping worms, for which there is no
// species to choose (Minnesota Department of Natural Resources: prohibited since
// July 2024; Texas Invasive Species Institute: field marks).
func caution(kind, field string, raw json.RawMessage) string {
	if kind != journal.KindBin || field != "species" || !record.Jumping(record.Species(str(raw))) {
		return ""
	}
	return ". There are no numbers for jumping worms (Amynthas, Metaphire): they harm woodland soils, and in places, Minnesota among them, " +
		"nobody may keep, buy or move them. They thrash, shed their tails and have a smooth milky ring flush with the body. " +
		"Let none out, and ask the local authority what to do with them; local rules decide"
}

// person settles who fed by a row of CSV: a member of that name, or else a guest.
func (in *importer) person(e *entry) {
	if e.by == "" {
		return
	}
	if p, why := in.find(journal.KindMember, e.by, ""); why == "" {
		e.fields["member"] = quoted(p.ent)
	} else {
		e.fields["guest"] = quoted(e.by)
	}
}

// complete fills in the bin of a tray, and says what is missing.
func (in *importer) complete(e *entry) string {
	if _, has := e.kind.Field("bin"); has && e.fields["bin"] == nil && e.fields["tray"] != nil {
		if bin := in.binOf(str(e.fields["tray"])); bin != "" {
			e.fields["bin"] = quoted(bin)
		}
	}
	for _, name := range needs[e.kind.Name] {
		if e.fields[name] == nil {
			return fmt.Sprintf("a %s needs its %s", e.kind.Name, name)
		}
	}
	if len(e.fields) == 0 {
		return "says nothing"
	}
	return ""
}

// binOf returns the bin of a tray of the file or of the household.
func (in *importer) binOf(tray string) string {
	p, why := in.find(journal.KindBin, in.bins[tray], "")
	if why != "" {
		return ""
	}
	return p.ent
}

// mustExist are the kinds that a line may only name if they are there: scraps in
// a tray of nobody would be seen nowhere.
var mustExist = []string{journal.KindBin, journal.KindTray}

func (in *importer) ref(e *entry, f journal.Field, raw json.RawMessage) (json.RawMessage, string) {
	var word string
	if json.Unmarshal(raw, &word) != nil {
		return raw, fmt.Sprintf("its %s is not a name", f.Name)
	}
	p, why := in.find(f.Of, word, str(e.fields["bin"]))
	if why != "" {
		return raw, why
	}
	if slices.Contains(mustExist, f.Of) && !in.file[p.ent] && !in.there(p.ent) {
		return raw, fmt.Sprintf("there is no %s %q, in this file or in the household", f.Of, word)
	}
	if p.ent == word {
		return raw, ""
	}
	return quoted(p.ent), ""
}

func (in *importer) refs(e *entry, f journal.Field, raw json.RawMessage) (json.RawMessage, string) {
	var words []string
	if json.Unmarshal(raw, &words) != nil {
		return raw, fmt.Sprintf("its %s is not a list of names", f.Name)
	}
	out := make([]string, len(words))
	for i, word := range words {
		p, why := in.find(f.Of, word, str(e.fields["bin"]))
		if why != "" {
			return raw, why
		}
		out[i] = p.ent
	}
	if slices.Equal(words, out) {
		return raw, ""
	}
	list, err := json.Marshal(out)
	if err != nil {
		return raw, err.Error()
	}
	return list, ""
}

// items finds the scraps of an amount in the catalogue.
func (in *importer) items(raw json.RawMessage) (json.RawMessage, string) {
	var list []record.Item
	if json.Unmarshal(raw, &list) != nil {
		return raw, "its items are not amounts such as [{\"scrap\":\"carrot\",\"g\":120}]"
	}
	changed := false
	for i := range list {
		it := &list[i]
		if in.Scrap == nil || it.Scrap == journal.OtherScrap && it.Class != "" {
			continue
		}
		id, ok := in.Scrap(it.Scrap)
		if !ok {
			return raw, fmt.Sprintf("the catalogue has no scrap %q; write \"other\" with a class, or kitchen-mixed", it.Scrap)
		}
		changed = changed || id != it.Scrap
		it.Scrap = id
	}
	if !changed {
		return raw, ""
	}
	text, err := json.Marshal(list)
	if err != nil {
		return raw, err.Error()
	}
	return text, ""
}
