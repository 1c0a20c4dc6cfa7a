package advice_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
	"trayside/internal/units"
)

func adviceOn(h *record.Household, d record.Day) *advice.Advice {
	return advice.New(h, d, advice.Phone{Device: phoneA, Member: ana})
}

// evening adds a feeding of the kitchen's upper tray today.
func evening(h *record.Household, id, device, hour string, grams int64, knew ...string) {
	h.Feedings = append(h.Feedings, record.Feeding{
		ID: id, Bin: kitchen, Tray: upper, Spot: "middle", How: record.ByScale, Day: today, At: clock(today, hour), Device: device,
		Who: record.Who{Member: ana}, Logger: ana, Knew: knew, Items: []record.Item{{Scrap: "kale", Grams: units.Grams(grams)}},
	})
}

func TestALabelOpensItsTrayHoweverItIsTyped(t *testing.T) {
	a := adviceOn(household(), today)
	for _, row := range []struct{ typed, found, why, id string }{
		{"3DX5S4YH7", advice.FoundTray, "", lower},
		{"3dx-5s4-yh7", advice.FoundTray, "", lower},
		{"https://bins.example.org/T/3DX5S4YH7", advice.FoundTray, "", lower},
		{upper, advice.FoundTray, "", upper},
		{cellar, advice.FoundRemoved, "", cellar},
		{"tray/of-somebody-else", advice.FoundUnclaimed, "", ""},
		{"3DX5S4YH8", advice.FoundMalformed, "check", ""},
		{"3DX5S4", advice.FoundMalformed, "short", ""},
		{"", advice.FoundMalformed, "empty", ""},
		{"3DX5S4YU7", advice.FoundMalformed, "symbol", ""},
	} {
		if v := a.Tray(row.typed); v.Found != row.found || v.Why != row.why || v.ID != row.id {
			t.Errorf("%q: found %q (%s) %q, want %q (%s) %q", row.typed, v.Found, v.Why, v.ID, row.found, row.why, row.id)
		}
	}
}

func TestAWellFormedCodeOfNobodyIsUnclaimed(t *testing.T) {
	h := household()
	h.Trays[0].Code, h.Claims = "", nil
	if v := adviceOn(h, today).Tray(lowerCode); v.Found != advice.FoundUnclaimed || v.Code != lowerCode {
		t.Errorf("found %q, code %q, want unclaimed and the code", v.Found, v.Code)
	}
}

func TestWhatIsNoCodeComesBackAsItWasTyped(t *testing.T) {
	a := adviceOn(household(), today)
	for _, row := range []struct{ name, typed, code string }{
		{"to be mended", " 3dx-5s4 ", "3dx-5s4"},
		{"in whole letters", "Wörmchen\xff", "Wörmchen"},
		{"no longer than its field", strings.Repeat("ä", 200), strings.Repeat("ä", 40)},
	} {
		t.Run(row.name, func(t *testing.T) {
			if v := a.Tray(row.typed); v.Found != advice.FoundMalformed || v.Code != row.code {
				t.Errorf("found %q, code %q, want malformed and %q", v.Found, v.Code, row.code)
			}
		})
	}
}

func TestTwoFeedingsOutOfSightAreBothShown(t *testing.T) {
	for _, row := range []struct {
		name   string
		second func(*record.Household)
		double bool
	}{
		{"another phone that had not heard of it", func(h *record.Household) { evening(h, "feeding/y", phoneB, "19:00", 200) }, true},
		{"another phone that showed it", func(h *record.Household) { evening(h, "feeding/y", phoneB, "19:00", 200, "feeding/x") }, false},
		{"the same phone", func(h *record.Household) { evening(h, "feeding/y", phoneA, "19:00", 200) }, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			h := household()
			evening(h, "feeding/x", phoneA, "18:00", 150)
			row.second(h)
			v := adviceOn(h, today).Tray(upper)
			if (v.Double != nil) != row.double {
				t.Fatalf("double is %+v, want one: %v", v.Double, row.double)
			}
			if row.double && (v.Double.Grams != 350 || len(v.Double.Feedings) != 2) {
				t.Errorf("double says %+v, want both feedings and 350 g", v.Double)
			}
			day := adviceOn(h, today).Timeline(advice.TimelineAsk{}, 1).Days[0]
			if got := slices.Contains(day.Double, kitchen); got != row.double {
				t.Errorf("the timeline says double %v, want %v", got, row.double)
			}
		})
	}
}

func TestDoubleFeedingIsForgottenAfterThreeDays(t *testing.T) {
	h := household()
	evening(h, "feeding/x", phoneA, "18:00", 150)
	evening(h, "feeding/y", phoneB, "19:00", 200)
	if v := adviceOn(h, today+2).Tray(upper); v.Double == nil {
		t.Error("two days later nothing is said of it")
	}
	if v := adviceOn(h, today+3).Tray(upper); v.Double != nil {
		t.Error("three days later it is still said")
	}
}

func TestAFeedingLowersTheRationAndMovesTheSpot(t *testing.T) {
	h := household()
	before := adviceOn(h, today).Tray(upper)
	evening(h, "feeding/x", phoneA, "18:00", 150)
	after := adviceOn(h, today).Tray(upper)
	if after.Ration.Grams >= before.Ration.Grams || after.Ration.Feeds != 150 {
		t.Errorf("ration %d g before and %d g after 150 g (%d g said to be fed), want it lower", before.Ration.Grams, after.Ration.Grams, after.Ration.Feeds)
	}
	if before.Ration.Spot != "middle" || after.Ration.Spot != "right" {
		t.Errorf("next spot %q, then %q, want middle, then right: never fed comes first, in order", before.Ration.Spot, after.Ration.Spot)
	}
	if f := after.Feeds[0]; f.ID != "feeding/x" || !f.Mine {
		t.Errorf("the newest feeding is %+v, want this phone's", f)
	}
}

func TestWhoFedIsKnownApartFromWhosePhone(t *testing.T) {
	feeds := adviceOn(household(), today).Tray(upper).Feeds
	var kim, guest bool
	for _, f := range feeds {
		kim = kim || f.Who == "Kim" && f.Logger == "Ben" && !f.Guest && !f.Mine
		guest = guest || f.Who == "Neighbour" && f.Guest && f.Logger == "Ana"
	}
	if !kim || !guest {
		t.Errorf("a child's feeding on Ben's phone (%v) and a guest's on Ana's (%v) should both be told apart", kim, guest)
	}
}

func TestABowlIsSharedOutToTheGram(t *testing.T) {
	h := household()
	for where, bowls := range map[string][]advice.Bowl{
		"today": adviceOn(h, today).Today().Bowls, "tray": adviceOn(h, today).Tray(upper).Bowls, "weigh": adviceOn(h, today).Weigh().Bowls,
	} {
		if len(bowls) != 1 {
			t.Fatalf("%s: %d bowls wait, want one", where, len(bowls))
		}
		var sum int64
		for _, s := range bowls[0].Split {
			sum += s.Grams
			if s.Grams <= 0 || s.To == "tray" && (s.Name == "" || s.Bin == "") {
				t.Errorf("%s: a share is %+v", where, s)
			}
		}
		if sum != bowls[0].Grams {
			t.Errorf("%s: the shares of %d g come to %d g", where, bowls[0].Grams, sum)
		}
	}
	if first := adviceOn(h, today).Tray(upper).Bowls[0].Split[0]; first.Tray != upper {
		t.Errorf("at the upper tray the bowl goes first to %q", first.Tray)
	}
}

func TestWhatWasTakenFromABowlIsNoLongerInIt(t *testing.T) {
	h := household()
	evening(h, "feeding/x", phoneA, "18:00", 150)
	h.Feedings[len(h.Feedings)-1].Bowl = lunch
	h.Feedings[len(h.Feedings)-1].Items[0].Scrap = "carrot"
	if b := adviceOn(h, today).Today().Bowls; len(b) != 1 || b[0].Grams != 250 {
		t.Errorf("the bowl of 400 g holds %+v after 150 g, want 250", b)
	}
}

func TestTheFreezerHoldsWhatWentInLessWhatCameOut(t *testing.T) {
	if g := adviceOn(household(), today).Today().Freezer; g != 600 {
		t.Errorf("the freezer holds %d g, want 600", g)
	}
}

// Rows of the ledger run to the number on the dial.
func TestTheLedgerEndsInTheRation(t *testing.T) {
	h := household()
	for d := start + 3; d <= today; d += 5 {
		for _, b := range adviceOn(h, d).Today().Bins {
			if b.Tray == "" {
				continue
			}
			last := b.Ration.Reasons[len(b.Ration.Reasons)-1]
			if !last.Sum || last.Milli != b.Ration.Grams*1000 {
				t.Errorf("%s on %s: the ledger ends in %+v, the ration is %d g", b.Name, d, last, b.Ration.Grams)
			}
			if p := b.Ration.Promise; b.Ration.Grams > 0 && (p == nil || p.Day <= d.String() || p.First > p.Day || p.Day > p.Last || p.Kept > p.Of) {
				t.Errorf("%s on %s: promise %+v for %d g", b.Name, d, p, b.Ration.Grams)
			}
		}
	}
}

func TestAQuestionIsAskedOnceAVisitAndOnlyIfItMatters(t *testing.T) {
	h := household()
	if ask := adviceOn(h, today).Tray(upper).Ask; ask == nil || ask.Day != (today-2).String() {
		t.Errorf("asked %+v, want after the last meal, which nobody has looked at", ask)
	}
	h.Looks = append(h.Looks, record.Look{ID: "look/now", Bin: kitchen, Tray: upper, Leftovers: record.LeftNone, Day: today, At: clock(today, "07:00")})
	if ask := adviceOn(h, today).Tray(upper).Ask; ask != nil {
		t.Errorf("asked %+v although somebody looked this morning", ask)
	}
}

// oddly is the household with meals that were always eaten in the shed, and a look
// today at the last of them that found most of it left, which nothing explains.
func oddly(look record.Look) *record.Household {
	h := household()
	var meals []record.Look
	for _, f := range h.Feedings {
		if f.Bin == shed && f.Day < today-5 {
			meals = append(meals, record.Look{ID: "look/" + f.ID, Bin: shed, Tray: alone, Leftovers: record.LeftNone, Day: f.Day + 4, At: clock(f.Day+4, "08:00")})
		}
	}
	look.ID, look.Bin, look.Tray, look.Leftovers, look.Day, look.At = "look/odd", shed, alone, record.LeftMost, today, clock(today, "08:00")
	h.Looks = append(h.Looks, append(meals, look)...)
	sortRecord(h)
	return h
}

func TestAnOddLookAsksWhetherSomebodyFedBeforeTheWormsAreWrittenDown(t *testing.T) {
	whole := record.Look{Squeeze: "few-drops"}
	h := oddly(whole)
	before := *h
	before.Looks = slices.DeleteFunc(slices.Clone(h.Looks), func(l record.Look) bool { return l.ID == "look/odd" })
	was, is := adviceOn(&before, today).Tray(alone), adviceOn(h, today).Tray(alone)
	if is.Ask == nil || is.Ask.Kind != "unlogged" || is.Ask.Tray != alone {
		t.Fatalf("after an odd look it asks %+v, want whether somebody fed without logging it", is.Ask)
	}
	if was.Ask != nil && was.Ask.Kind == "unlogged" {
		t.Errorf("it asks %+v before the look", was.Ask)
	}
	if is.Tier.Worms.Mid < was.Tier.Worms.Mid*85/100 {
		t.Errorf("worms are written down from %d to %d g before anybody answered", was.Tier.Worms.Mid, is.Tier.Worms.Mid)
	}
	answer := func(says string) advice.TrayView {
		told := *h
		told.Looks = append(slices.Clone(h.Looks), record.Look{ID: "look/told", Bin: shed, Tray: alone, Unlogged: says, Day: today, At: clock(today, "08:01")})
		return adviceOn(&told, today).Tray(alone)
	}
	for _, says := range []string{"yes", "no"} {
		if v := answer(says); v.Ask != nil {
			t.Errorf("answered %q, and it asks %+v", says, v.Ask)
		}
	}
	if no := answer("no").Tier.Worms.Mid; no >= is.Tier.Worms.Mid*85/100 {
		t.Errorf("nobody fed, and the worms are still %d g, %d g before the answer", no, is.Tier.Worms.Mid)
	}
}

func TestOneVisitHasOneQuestion(t *testing.T) {
	answered := oddly(record.Look{}) // says what is left and nothing else, as the answer to a question does
	if v := adviceOn(answered, today).Tray(alone); v.Ask != nil {
		t.Errorf("on the visit that told what is left it asks %+v besides", v.Ask)
	}
	if v := adviceOn(answered, today+1).Tray(alone); v.Ask == nil || v.Ask.Kind != "unlogged" {
		t.Errorf("on the next day it asks %+v, want whether somebody fed without logging it", v.Ask)
	}
}

func TestAQuestionIsNotAskedWhereItsAnswerChangesNothing(t *testing.T) {
	h := oddly(record.Look{Squeeze: "few-drops"})
	h.Bins[1].Stack = []string{alone, "tray/next"}
	h.Trays = append(h.Trays, record.Tray{ID: "tray/next", Bin: shed, Name: "Next", Width: 400, Depth: 300, Height: 180})
	h.Batches[2].Resting = on(today)
	h.Batches = append(h.Batches, record.Batch{ID: "batch/4", Tray: "tray/next", Bedded: today - 1, Feeding: on(today)})
	sortRecord(h)
	v := adviceOn(h, today).Tray(alone)
	if v.Ration == nil || v.Ration.Grams != 0 || v.Ask != nil {
		t.Errorf("a resting tray takes %+v whatever is answered, and it asks %+v", v.Ration, v.Ask)
	}
}

func TestALookIsDueAWeekAfterTheLast(t *testing.T) {
	due := func(d record.Day) []advice.Job {
		return slices.DeleteFunc(adviceOn(household(), d).Today().Jobs, func(j advice.Job) bool { return j.Bin != kitchen || j.Kind != advice.JobLook })
	}
	h := household()
	last := h.Looks[len(h.Looks)-1].Day
	if jobs := due(last + 6); len(jobs) != 0 {
		t.Errorf("six days after the last look there is %+v", jobs)
	}
	if jobs := due(last + 7); len(jobs) != 1 || jobs[0].Days != 7 || jobs[0].Tray != upper {
		t.Errorf("a week after the last look there is %+v, want one job for the upper tray", jobs)
	}
}

func TestAFullTrayAsksForTheNext(t *testing.T) {
	h := household()
	h.Trays[2].Height = 30 // the shed's tray, so low that three weeks fill it
	h.Batches[2].Bedding, h.Batches[2].Bedded = []record.Item{{Scrap: "cardboard", Grams: 900}}, today-200
	var kinds []string
	for _, j := range adviceOn(h, today).Today().Jobs {
		if j.Bin == shed {
			kinds = append(kinds, j.Kind)
		}
	}
	if !slices.Contains(kinds, advice.JobBedNext) {
		t.Errorf("jobs of the full shed are %v, want one to bed the next tray", kinds)
	}
}

func TestALookSaysOnTheTimelineAllThatItFound(t *testing.T) {
	h := household()
	room := units.DeciCelsius(123)
	h.Looks = append(h.Looks, record.Look{ID: "look/room", Bin: kitchen, Tray: upper, Temp: &room, TempOf: "room", Squeeze: "runs", Smell: "sour", Day: today, At: clock(today, "23:00")})
	e := adviceOn(h, today).Timeline(advice.TimelineAsk{}, 1).Days[0].Entries[0]
	want := advice.LookLine{Squeeze: "runs", Smell: "sour", TempOf: "room"}
	if e.Entity != "look/room" || e.Look == nil || e.Look.Temp == nil || *e.Look.Temp != 123 {
		t.Fatalf("the newest entry is %+v, want the look with 12.3 °C", e)
	}
	got := *e.Look
	got.Temp = nil
	if !reflect.DeepEqual(got, want) {
		t.Errorf("the look found %+v, want %+v", got, want)
	}
}

func TestHouseRulesStandOnTheTimelineAndTakenBackOnesToo(t *testing.T) {
	h := household()
	rule := record.HouseRule{ID: "rule/a", Scrap: "bread", Verdict: record.RuleNever, Note: "mice", Logger: ana, Day: today, At: clock(today, "10:00")}
	gone := rule
	gone.ID, gone.At = "rule/b", clock(today, "09:00")
	h.Rules, h.Undone.Rules = append(h.Rules, rule), append(h.Undone.Rules, gone)
	days := adviceOn(h, today).Timeline(advice.TimelineAsk{Kind: "rule", Who: ana}, 10).Days
	if len(days) != 1 || len(days[0].Entries) != 2 {
		t.Fatalf("rules of the day: %+v, want two", days)
	}
	e, back := days[0].Entries[0], days[0].Entries[1]
	if e.Code != "never" || e.Note != "mice" || e.Member != ana || len(e.Items) != 1 || e.Items[0].Scrap != "bread" || e.Gone || !back.Gone {
		t.Errorf("entries %+v and %+v, want bread never by Ana, then one that was taken back", e, back)
	}
}

func TestTheTimelineReadsOnWhereItStopped(t *testing.T) {
	h := household()
	h.Undone.Feedings = []record.Feeding{{ID: "feeding/wrong", Bin: kitchen, Tray: upper, Day: today - 5, At: clock(today-5, "12:00"), Items: []record.Item{{Scrap: "kale", Grams: 5000}}}}
	a := adviceOn(h, today)
	all := a.Timeline(advice.TimelineAsk{}, 10000)
	var pages, entries []string
	undone := false
	for before := ""; ; {
		v := a.Timeline(advice.TimelineAsk{Before: before}, 7)
		for _, d := range v.Days {
			pages = append(pages, d.Day)
			for _, e := range d.Entries {
				entries = append(entries, e.Entity)
				undone = undone || e.Entity == "feeding/wrong" && e.Gone
			}
		}
		if v.Next == "" {
			break
		}
		before = v.Next
	}
	if len(pages) != len(all.Days) || !slices.IsSortedFunc(pages, func(x, y string) int { return strings.Compare(y, x) }) {
		t.Errorf("pages hold %d days, the whole %d, newest first", len(pages), len(all.Days))
	}
	want := len(h.Feedings) + len(h.Looks) + len(h.Bowls) + len(h.Worms) + len(h.Freezer) + 1 + 7 // 7 stages of three batches
	if len(entries) != want {
		t.Errorf("%d entries, want %d", len(entries), want)
	}
	if !undone {
		t.Error("an undone feeding should be on the timeline, marked as gone")
	}
}

func TestWhatIsInTheBinIsNeverRefused(t *testing.T) {
	a := adviceOn(household(), today)
	for _, row := range []struct {
		grams int64
		inBin bool
		kind  string
	}{{150, false, ""}, {2500, false, "ask"}, {2500, true, ""}, {250_000, false, "refuse"}, {250_000, true, ""}, {-5, false, "refuse"}} {
		if s := a.Slip(upper, row.grams, row.inBin); s.Kind != row.kind || s.Grams != row.grams {
			t.Errorf("%d g (in the bin: %v): %+v, want %q", row.grams, row.inBin, s, row.kind)
		}
	}
}

func TestAKeyAsksFromTheSameAmountsOnAsTheEntryWould(t *testing.T) {
	a := adviceOn(household(), today)
	limits := a.Weigh().Limits
	if len(limits) < 2 || limits[0].Tray != "" {
		t.Fatalf("limits %+v, want those of a bowl for no tray first, then the trays'", limits)
	}
	for _, l := range limits {
		for grams, want := range map[int64]string{l.Ask: "", l.Ask + 1: "ask", l.Refuse: "ask", l.Refuse + 1: "refuse"} {
			if got := a.Slip(l.Tray, grams, false).Kind; got != want {
				t.Errorf("tray %q, %d g: %q, want %q by %+v", l.Tray, grams, got, want, l)
			}
		}
	}
}
