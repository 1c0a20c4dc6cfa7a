package journal

import (
	"cmp"
	"slices"

	"trayside/internal/order"
	"trayside/internal/record"
	"trayside/internal/units"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// readHome decodes the household's own entities: few, and read anew every time.
// Members, bins and trays stand in the order in which they were written.
func (r *Reader) readHome(h *record.Household) {
	if e := r.rep.Entity(Home); e != nil {
		h.Name, h.Zone = r.text(e, "name"), r.text(e, "zone")
		h.Mass = cmp.Or(record.MassUnit(r.text(e, "mass")), record.MassGrams)
		h.Temp = cmp.Or(record.TempUnit(r.text(e, "temp")), record.TempCelsius)
		h.Measures = record.Measures{
			Handful: units.Grams(r.integer(e, "handful")), HandfulOf: r.text(e, "handfulOf"), Bucket: r.integer(e, "bucket"),
		}
	}
	for _, e := range r.written(KindMember) {
		h.Members = append(h.Members, record.Member{ID: e.Ent, Name: r.text(e, "name"), Child: r.truth(e, "child"), Gone: e.IsGone()})
	}
	for _, e := range r.written(KindBin) {
		b := record.Bin{
			ID: e.Ent, Name: r.text(e, "name"), Gone: e.IsGone(),
			Species:     cmp.Or(record.Species(r.text(e, "species")), record.NotSure),
			Goal:        cmp.Or(record.Goal(r.text(e, "goal")), record.Grow),
			FeedEvery:   int(r.integer(e, "feedEvery")),
			RoomCoolest: units.DeciCelsius(r.integer(e, "coolest")), RoomWarmest: units.DeciCelsius(r.integer(e, "warmest")),
			Started: day(e), Placing: cmp.Or(record.Placing(r.text(e, "placing")), record.Pocket), HotUntil: r.date(e, "hotUntil"),
		}
		if d := r.date(e, "started"); d != nil {
			b.Started = *d
		}
		h.Bins = append(h.Bins, b)
	}
	for _, e := range r.written(KindTray) {
		h.Trays = append(h.Trays, record.Tray{
			ID: e.Ent, Bin: r.text(e, "bin"), Name: r.text(e, "name"), Gone: e.IsGone(),
			Width: units.Millimetres(r.integer(e, "width")), Depth: units.Millimetres(r.integer(e, "depth")),
			Height: units.Millimetres(r.integer(e, "height")), Empty: units.Grams(r.integer(e, "empty")),
		})
	}
	for _, e := range r.written(KindVessel) {
		if !e.IsGone() {
			h.Vessels = append(h.Vessels, record.Vessel{ID: e.Ent, Name: r.text(e, "name"), Grams: units.Grams(r.integer(e, "grams"))})
		}
	}
	for _, e := range r.written(KindRule) {
		rule := record.HouseRule{
			ID: e.Ent, Scrap: r.text(e, "scrap"), Verdict: record.RuleVerdict(r.text(e, "verdict")), Note: r.text(e, "note"),
			Logger: e.First().By, At: e.At(), Day: day(e), Edited: edited(e),
		}
		if e.IsGone() {
			h.Undone.Rules = append(h.Undone.Rules, rule)
		} else {
			h.Rules = append(h.Rules, rule)
		}
	}
}

// written lists the entities of a kind by their creation.
func (r *Reader) written(kind string) []*replica.Entity {
	var list []*replica.Entity
	for e := range r.rep.Entities(kind) {
		if written(e) {
			list = append(list, e)
		}
	}
	order.By(list, func(a, b *replica.Entity) int { return a.First().Compare(b.First()) })
	return list
}

// derive settles what can be only once: a label's tray, a bin's order, a tray's
// open batch. Of several claims on one thing the newest by (stamp, id) holds. A
// claim that lost becomes a question, unless a later one says that its writer
// saw it, or it agrees with the one that holds.
func (r *Reader) derive(h *record.Household) {
	r.labels(h)
	r.stacks(h)
	r.batches(h)
	fillBins(h)
}

// fillBins gives entries their tray's bin where the phone that wrote them had
// not read of the tray yet.
func fillBins(h *record.Household) {
	fill := func(bin *string, tray string) {
		for i := range h.Trays {
			if *bin == "" && h.Trays[i].ID == tray {
				*bin = h.Trays[i].Bin
			}
		}
	}
	for i := range h.Feedings {
		if f := &h.Feedings[i]; f.Bin == "" {
			fill(&f.Bin, f.Tray)
		}
	}
	for i := range h.Looks {
		if l := &h.Looks[i]; l.Bin == "" {
			fill(&l.Bin, l.Tray)
		}
	}
	for i := range h.Samples {
		if s := &h.Samples[i]; s.Bin == "" {
			fill(&s.Bin, s.Tray)
		}
	}
	for i := range h.Harvests {
		if x := &h.Harvests[i]; x.Bin == "" {
			fill(&x.Bin, x.Tray)
		}
	}
}

// claim is one entity that claims a thing.
type claim struct {
	e    *replica.Entity
	says string // what it claims for the thing; equal claims do not quarrel
}

// claims groups the live entities of a kind by the thing they claim, each group
// with the newest first, and the things in order. seen names those that the
// writer of another claim saw and replaced, even if that one is gone again.
func (r *Reader) claims(kind string, thing, says func(*replica.Entity) string) (things []string, byThing map[string][]claim, seen map[string]bool) {
	byThing, seen = map[string][]claim{}, map[string]bool{}
	for e := range r.rep.Entities(kind) {
		for _, ent := range r.list(e, "over") {
			seen[ent] = true
		}
		if t := thing(e); t != "" && !e.IsGone() {
			if len(byThing[t]) == 0 {
				things = append(things, t)
			}
			byThing[t] = append(byThing[t], claim{e, says(e)})
		}
	}
	slices.Sort(things)
	for _, list := range byThing {
		order.By(list, func(a, b claim) int { return b.e.First().Compare(a.e.First()) })
	}
	return things, byThing, seen
}

// ask turns claims that lost without being seen into a question.
func ask(h *record.Household, kind string, list []claim, seen map[string]bool) {
	q := record.Question{Kind: kind, Holds: list[0].e.Ent}
	for _, c := range list[1:] {
		if !seen[c.e.Ent] && c.says != list[0].says {
			q.Ents = append(q.Ents, c.e.Ent)
		}
	}
	if len(q.Ents) > 0 {
		h.Asks = append(h.Asks, q)
	}
}

// labels finds the tray of every label and the label of every tray.
func (r *Reader) labels(h *record.Household) {
	codes, byCode, seen := r.claims(KindLabel,
		func(e *replica.Entity) string { return r.text(e, "code") },
		func(e *replica.Entity) string { return r.text(e, "tray") })
	newest := map[string]oplog.ID{} // by tray, of the claim that gave its code
	stamp := map[string]int64{}
	for _, code := range codes {
		holds := byCode[code][0]
		ask(h, "label", byCode[code], seen)
		h.Claims = append(h.Claims, record.LabelClaim{Code: code, Tray: holds.says, Day: day(holds.e)})
		for i := range h.Trays {
			t, first := &h.Trays[i], holds.e.First()
			if t.ID == holds.says && (t.Code == "" || first.T > stamp[t.ID] || first.T == stamp[t.ID] && first.ID.Compare(newest[t.ID]) > 0) {
				t.Code, stamp[t.ID], newest[t.ID] = code, first.T, first.ID
			}
		}
	}
}

// stacks finds the order of every bin's trays. Trays that the ordering does not
// name stand on top, in the order in which they were written.
func (r *Reader) stacks(h *record.Household) {
	_, byBin, seen := r.claims(KindStack,
		func(e *replica.Entity) string { return r.text(e, "bin") },
		func(e *replica.Entity) string { reg, _ := e.Field("trays"); return string(reg.Value) })
	for i := range h.Bins {
		b := &h.Bins[i]
		var order []string
		if list := byBin[b.ID]; len(list) > 0 {
			ask(h, "stack-order", list, seen)
			order = r.list(list[0].e, "trays")
		}
		here := func(ent string) bool {
			return slices.ContainsFunc(h.Trays, func(t record.Tray) bool { return t.ID == ent && t.Bin == b.ID && !t.Gone })
		}
		for _, ent := range order {
			if here(ent) && !slices.Contains(b.Stack, ent) {
				b.Stack = append(b.Stack, ent)
			}
		}
		for _, t := range h.Trays {
			if here(t.ID) && !slices.Contains(b.Stack, t.ID) {
				b.Stack = append(b.Stack, t.ID)
			}
		}
	}
}

// batches reads every batch; of several open ones in a tray only the newest
// stays in the record, the others are a question.
func (r *Reader) batches(h *record.Household) {
	open := map[string][]claim{}
	for e := range r.rep.Entities(KindBatch) {
		if !written(e) || e.IsGone() {
			continue
		}
		b := record.Batch{
			ID: e.Ent, Tray: r.text(e, "tray"), Bedding: r.items(e, "bedding"), Bedded: day(e),
			Feeding: r.date(e, "feeding"), Resting: r.date(e, "resting"), Ready: r.date(e, "ready"), Emptied: r.date(e, "emptied"),
		}
		if d := r.date(e, "bedded"); d != nil {
			b.Bedded = *d
		}
		if b.Emptied == nil {
			open[b.Tray] = append(open[b.Tray], claim{e, e.Ent})
		}
		h.Batches = append(h.Batches, b)
	}
	lost := map[string]bool{}
	for _, t := range h.Trays {
		list := open[t.ID]
		if len(list) < 2 {
			continue
		}
		order.By(list, func(a, b claim) int { return b.e.First().Compare(a.e.First()) })
		ask(h, "open-batch", list, nil)
		for _, c := range list[1:] {
			lost[c.e.Ent] = true
		}
	}
	h.Batches = slices.DeleteFunc(h.Batches, func(b record.Batch) bool { return lost[b.ID] })
	order.By(h.Batches, func(a, b record.Batch) int { return place{a.Bedded, "", a.ID}.compare(place{b.Bedded, "", b.ID}) })
}
