package advice

import (
	"strings"

	"trayside/internal/label"
	"trayside/internal/ration"
	"trayside/internal/record"
)

// What a scan can find.
const (
	FoundTray      = "tray"
	FoundRemoved   = "removed"   // one of the household's, taken out of use
	FoundUnclaimed = "unclaimed" // a well-formed code that no tray carries: a blank label, or not ours
	FoundMalformed = "malformed" // no code; Why says what is wrong with it
)

// feedLines is how many of the last feedings a tray shows.
const feedLines = 8

// Tray returns what a scan opens. arg is a label's code as a person typed it,
// its address, or a tray's id.
func (a *Advice) Tray(arg string) TrayView {
	v := TrayView{
		Day: a.day.String(), Mass: a.mass(), Temp: a.temp(),
		Stack: []TierView{}, Bowls: []Bowl{}, Feeds: []FeedLine{}, Spots: []SpotView{}, Other: []Share{}, Members: a.people(),
	}
	t := a.trays[arg]
	if t == nil && !strings.HasPrefix(arg, "tray/") {
		code, err := label.FromAddress(arg)
		if err != nil {
			v.Found, v.Why, v.Code = FoundMalformed, string(label.ReasonOf(err)), asTyped(arg)
			return v
		}
		v.Code = string(code)
		t = a.labelled(code)
	}
	if t == nil {
		v.Found = FoundUnclaimed
		return v
	}
	v.Found, v.ID, v.Name, v.Bin, v.BinName = FoundTray, t.ID, t.Name, t.Bin, a.binName(t.Bin)
	if v.Code == "" {
		v.Code = t.Code
	}
	bin := a.bins[t.Bin]
	if t.Gone || bin == nil || bin.Gone {
		v.Found = FoundRemoved
		v.Feeds = a.trayFeeds(t.ID, feedLines)
		return v
	}
	r := a.run(bin)
	tier := a.tier(r, t)
	here := a.rationAt(r, t.ID)
	v.Tier, v.Stack, v.Base, v.Ration = &tier, a.tiers(r), a.base(r), &here
	v.Bowls = a.bowls(a.splitAt(r, t.ID))
	v.Feeds, v.Spots, v.Double = a.trayFeeds(t.ID, feedLines), a.spots(r, t.ID), a.double(bin.ID)
	v.Other, v.Ask, v.Gap = a.others(t.ID), a.ask(r, t.ID), a.gap(bin)
	return v
}

// mostTyped is how much of what somebody typed goes back to be mended: a form
// takes 40 characters, and the address of a foreign square may be long.
const mostTyped = 40

// asTyped is the code as it was typed, bounded.
func asTyped(arg string) string {
	typed := []rune(strings.ToValidUTF8(strings.TrimSpace(arg), ""))
	return string(typed[:min(len(typed), mostTyped)])
}

// rationAt returns a tray's ration for a person who stands there, so that an
// answer of nothing here names another place if there is one.
func (a *Advice) rationAt(r *run, tray string) RationView {
	in := a.rationInput(r, tray, a.day, r.est)
	in.FedToday, in.Others = a.fedTray(tray), a.needs(tray)
	return a.rationView(r, tray, ration.Compute(in))
}

// labelled returns the tray that a code stands on: by its newest claim, also
// when that tray has been given another label since.
func (a *Advice) labelled(code label.Code) *record.Tray {
	var found *record.Tray
	for _, c := range a.h.Claims {
		if c.Code == string(code) {
			found = a.trays[c.Tray]
		}
	}
	for i := range a.h.Trays {
		if a.h.Trays[i].Code == string(code) {
			found = &a.h.Trays[i]
		}
	}
	return found
}

// others lists where the rest of a bowl could go: other trays that take food,
// and the freezer, which has no limit here.
func (a *Advice) others(tray string) []Share {
	shares := []Share{}
	for _, n := range a.needs(tray) {
		if n.Grams > 0 {
			shares = append(shares, Share{To: "tray", Bin: n.Bin, Tray: n.Tray, Name: a.trayName(n.Tray), Grams: int64(n.Grams)})
		}
	}
	return append(shares, Share{To: "freezer"})
}
