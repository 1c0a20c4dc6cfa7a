package journal

import (
	"encoding/hex"
	"slices"
	"strings"

	"trayside/internal/record"
)

// sample writes the worms counted in a few scoops.
func (w *writer) sample(in Intent) *Refusal {
	tray, r := w.checkTray("tray", in.Tray, in.InBin)
	if r != nil {
		return r
	}
	set := fields{
		"bin": tray.Bin, "tray": in.Tray, "scoops": in.Scoops, "ml": in.ML,
		"adults": in.Adults, "young": in.Young, "cocoons": in.Cocoons,
	}
	if tray.Bin == "" {
		set["bin"] = in.Bin
	}
	if r := bounded(KindSample, set); r != nil {
		return r
	}
	for _, need := range []string{"scoops", "ml"} {
		if set[need] == int64(0) {
			return refuse(CodeMissing, need, "say how many scoops were counted and how much one holds")
		}
	}
	return w.dated(KindSample, in, set)
}

// harvest writes castings taken out. Nothing needs to have been weighed.
func (w *writer) harvest(in Intent) *Refusal {
	tray, r := w.checkTray("tray", in.Tray, in.InBin)
	if r != nil {
		return r
	}
	set := fields{
		"bin": tray.Bin, "tray": in.Tray, "batch": w.openBatch(in), "method": string(in.Method),
		"note": strings.TrimSpace(in.Note),
	}
	if tray.Bin == "" {
		set["bin"] = in.Bin
	}
	for name, n := range map[string]int64{"grams": in.Grams, "ml": in.ML, "buckets": in.Buckets, "worms": in.Worms} {
		if n != 0 {
			set[name] = n
		}
	}
	if r := bounded(KindHarvest, set); r != nil {
		return r
	}
	return w.dated(KindHarvest, in, set)
}

// openBatch is the batch that a harvest comes from: the one named, or the tray's
// own that is not emptied, or the last that was.
func (w *writer) openBatch(in Intent) string {
	if in.Batch != "" || w.Record == nil {
		return in.Batch
	}
	last := ""
	for _, b := range w.Record.Batches {
		if b.Tray == in.Tray && b.Bedded <= w.today {
			last = b.ID
		}
	}
	return last
}

// photo writes where a picture belongs; the picture itself goes another way.
func (w *writer) photo(in Intent) *Refusal {
	if !wellNamed(in.Of) || w.Record != nil && w.Replica.Entity(in.Of) == nil {
		return refuse(CodeEntry, "of", "there is no such entry to put a picture to")
	}
	if sum, err := hex.DecodeString(in.Hash); err != nil || len(in.Hash) != hashLong || hex.EncodeToString(sum) != in.Hash {
		return refuse(CodeField, "hash", "the picture's name is not a SHA-256 of %d hexadecimal digits in lower case", hashLong)
	}
	set := fields{
		"of": in.Of, "hash": in.Hash, "type": in.Type, "width": in.Width, "height": in.Height, "bytes": in.Bytes,
	}
	if r := required(KindPhoto, set, "type"); r != nil {
		return r
	}
	return w.dated(KindPhoto, in, set)
}

// dated writes an entry of the intent's day with who did it.
func (w *writer) dated(kind string, in Intent, set fields) *Refusal {
	if r := w.who(in, set); r != nil {
		return r
	}
	w.happened(w.fresh(kind), set)
	return nil
}

// rule writes the household's own verdict on a scrap, or changes one.
func (w *writer) rule(in Intent) *Refusal {
	set := with(with(in.Set, "scrap", in.Scrap), "verdict", string(in.Verdict))
	return w.home(KindRule, in.Entity, with(set, "note", strings.TrimSpace(in.Note)), "scrap", "verdict")
}

// freeze writes scraps put into the freezer or, below nothing, taken out.
func (w *writer) freeze(in Intent) *Refusal {
	plus := slices.Clone(in.Items)
	for i := range plus {
		plus[i].Grams = max(plus[i].Grams, -plus[i].Grams)
	}
	tidy, r := amount("items", plus, orScale(in.How), in.InBin)
	if r != nil {
		return r
	}
	for i, it := range in.Items {
		tidy[i].Grams = it.Grams
	}
	return w.scraps(KindFreezing, in.Bowl, tidy)
}

// discard writes scraps that went out with the household waste.
func (w *writer) discard(in Intent) *Refusal {
	items, r := amount("items", in.Items, orScale(in.How), in.InBin)
	if r != nil {
		return r
	}
	return w.scraps(KindDiscard, in.Bowl, items)
}

func (w *writer) scraps(kind, bowl string, items []record.Item) *Refusal {
	if bowl != "" && !names(bowl, KindBowl) {
		return refuse(CodeBowl, "bowl", "no bowl was named")
	}
	w.happened(w.fresh(kind), fields{"bowl": bowl, "items": items})
	return nil
}
