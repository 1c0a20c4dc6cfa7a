package main

import (
	"fmt"
	"strings"

	"trayside/internal/advice"
	"trayside/internal/units"
)

// What advise says. Codes and numbers come from internal/advice; a test holds
// the codes and their words together.

// printer writes amounts as the household reads them.
type printer struct {
	mass, temp string
	had        map[string]bool // bins that ever held worms, by id
}

func (p printer) grams(g int64) string { return p.milli(g * 1000) }

// milli shows thousandths of a gram.
func (p printer) milli(mg int64) string {
	g := units.Grams(units.Round(mg, 1000))
	unit := units.Gram
	if p.mass == "oz" {
		unit = units.Ounce
	}
	return g.Weight().Show(unit)
}

var answerWords = map[string]string{
	"all": "All of it here", "part": "Part of it here", "elsewhere": "Into another tray", "freeze": "Freeze what there is",
	"cover": "Cover and wait", "waste": "Out with the household waste",
}

var sureWords = map[string]string{
	"guess":   "a first guess, from published figures and not from this bin",
	"learned": "learned from looks at this bin", "trial": "a step up as a trial, after clean looks", "weighed": "the worms were weighed lately",
}

var bindWords = map[string]string{
	"worms": "Set by how many worms can reach it.", "surface": "Set by the surface of the tray.",
	"warmth":    "Held down by the bed's temperature.",
	"moisture":  "Held down by how wet, dry or sour the bed is.",
	"kitchen":   "Set by what the kitchen makes; the worms could take more.",
	"leftovers": "Held down by what still lies there.", "settling": "Small at first: the worms are settling in.",
	"resting": "This tray rests; it takes no food.", "days": "Held to a few days of appetite at a time.",
	"trouble": "Held down by the trouble that a look found.",
}

var moveWords = map[string]string{
	"look":          "A look at the leftovers would sharpen this most.",
	"bed-next-tray": "Bedding the next tray on top gives them more surface.",
	"moisten":       "Moistening the bed until a squeezed handful gives a drop helps most.",
	"add-eggshell":  "Crushed eggshell and fresh bedding, mixed in, take the acid down.",
	"log-worms":     "Write down the worms that are in it.",
	"look-first":    "Nobody has looked in yet, and the temperature is only the season's: look first.",
	"warmer-place":  "In a warmer place they would eat more.", "cooler-place": "A cooler place comes first.",
	"save-scraps": "Scraps saved from other days would be eaten too.", "leave-alone": "Leave them alone for now; it grows by itself.",
	"feed-open-tray": "Feed the open tray instead.", "feed-oftener": "Smaller meals, more often, would come to more.",
	"let-grow": "It rises as the colony grows.", "add-dry-bedding": "Dry bedding on top helps most.",
	"lift-out-food": "Lifting out what smells helps most.",
}

var rowWords = map[string]string{
	"worms": "worms that reach this food, on the cautious side", "appetite": "of their weight eaten a day", "days": "until the next meal",
	"could-finish": "what they could finish", "days-of-appetite": "at most so many days of appetite in one meal",
	"settling": "while they settle in", "warm-bed": "for a warm bed", "cold-bed": "for a cold bed",
	"goal-hold": "to hold the colony as it is", "goal-slow-down": "to slow the colony down",
	"resting": "the tray rests", "trouble": "for the trouble that a look found", "trial": "a step up as a trial, after clean looks",
	"lure": "a little more, to draw worms up", "surface": "at most what the surface takes in one meal", "lying": "still lying there",
	"hot-week": "small meals in a hot week", "pocket": "at most what one place holds, 5 cm deep", "layer": "at most a thin layer, 2.5 cm deep",
	"seen-left": "nothing new until what was seen is eaten", "not-below-nothing": "never less than nothing", "fed-today": "fed already today",
	"rule_of_thumb": "beside it the rule of thumb, a quarter to a third of their weight a day for four days at most",
	"rule-cap":      "at most half as much again as the rule of thumb, until two clean looks", "last-ration": "at most a fifth above the last ration",
	"last-meal": "at most as much as last time, when much was left", "handful": "a handful more, to see whether it is eaten",
	"after-smell": "half, until somebody has smelled it again",
	"hold":        "on hold: nothing goes in", "rounding": "rounded for people", "ration": "may go in today",
}

var holdWords = map[string]string{
	"hot-bed": "the bed is at 30 °C or more", "ammonia": "it smells of ammonia", "sour": "it smells sour", "rot": "it smells of rot",
}

var releaseWords = map[string]string{"bed-below-28": "the bed is below 28 °C", "smells-earthy": "it smells of earth again"}

var squeezeWords = map[string]string{
	"crumbles": "crumbles, no drop", "holds": "holds together, no drop", "one-drop": "a drop or two", "few-drops": "a few drops", "runs": "water runs",
}

// say finds words, or shows the code itself with its hyphens as spaces, so that a
// newer code never leaves a line empty.
func say(words map[string]string, code string) string {
	if text := words[code]; text != "" {
		return text
	}
	return strings.ReplaceAll(code, "-", " ")
}

func (p printer) bin(b *strings.Builder, v advice.BinView) {
	name, worms := "", false
	for _, t := range v.Stack {
		if t.ID == v.Tray {
			name = t.Name
		}
		worms = worms || t.Worms.High > 1 // a gram may hatch yet
	}
	b.WriteString(v.Name + "\n")
	r := v.Ration
	switch {
	case v.Tray == "":
		b.WriteString("  No tray is bedded, so nothing may go in.\n")
		return
	case !worms && p.had[v.ID]:
		b.WriteString("  By the log hardly a worm is left in this bin, so nothing may go in. If some are, weigh them and write that down.\n")
		return
	case !worms:
		fmt.Fprintf(b, "  Nobody has written down worms in this bin, and without any nothing may go in: weigh or guess them, and import a line such as\n"+
			`  {"kind":"worms","day":"2026-09-01","bin":%q,"move":"added","mass":500,"wide":true}`+"\n", v.Name)
		return
	case r.Hold != nil:
		fmt.Fprintf(b, "  Nothing goes into %s: %s. Wait until %s; look again by %s.\n", name, say(holdWords, r.Hold.Cause), say(releaseWords, r.Hold.Until), shortDay(r.Hold.End))
	default:
		fmt.Fprintf(b, "  Into %s today: %s, likely between %s and %s (%s).\n", name, p.grams(r.Grams), p.grams(r.Likely.Low), p.grams(r.Likely.High), say(sureWords, r.Sure))
	}
	for _, row := range r.Reasons {
		p.row(b, row)
	}
	if r.Hold == nil && r.Binds != "" {
		fmt.Fprintf(b, "  %s\n", say(bindWords, r.Binds))
	}
	if r.Move != "" {
		fmt.Fprintf(b, "  %s\n", say(moveWords, r.Move))
	}
	if r.Promise != nil && r.Grams > 0 {
		fmt.Fprintf(b, "  Should be gone by %s%s", shortDay(r.Promise.Day), spanSays(r.Promise.First, r.Promise.Last))
		if r.Promise.Of > 0 {
			fmt.Fprintf(b, "; %d of the last %d such promises came true", r.Promise.Kept, r.Promise.Of)
		}
		b.WriteString(".\n")
	}
	if r.BeddingG > 0 {
		fmt.Fprintf(b, "  With it %s of dry bedding", p.grams(r.BeddingG))
		if r.Spot != "" {
			fmt.Fprintf(b, "; the place fed longest ago is %s", strings.ReplaceAll(r.Spot, "-", " "))
		}
		b.WriteString(".\n")
	}
	if v.Double != nil {
		fmt.Fprintf(b, "  Fed twice, out of each other's sight: %s in all.\n", p.grams(v.Double.Grams))
	}
}

// row writes one line of the arithmetic.
func (p printer) row(b *strings.Builder, r advice.Reason) {
	var value string
	switch r.Unit {
	case "g":
		value = p.milli(r.Milli)
	case "d":
		value = plainMilli(r.Milli) + " d"
	default:
		value = plainMilli(r.Milli)
	}
	op := r.Op
	switch {
	case r.Sum:
		op = "="
	case op == "≈":
		op = "+"
		if r.Milli < 0 {
			op, value = "−", strings.TrimLeft(value, "-<")
		}
	}
	words := say(rowWords, r.Code)
	if r.Op == "compare" { // no part of the sum: without a figure in its column
		fmt.Fprintf(b, "    %1s %12s  %s: %s to %s\n", "", "", words, p.grams(r.From), p.grams(r.To))
		return
	}
	if r.Day != "" {
		words += ", " + shortDay(r.Day)
	}
	if r.To > 0 {
		words += fmt.Sprintf(" of %s to %s", p.grams(r.From), p.grams(r.To))
	}
	fmt.Fprintf(b, "    %1s %12s  %s\n", op, strings.TrimSpace(value), words)
}

// plainMilli shows thousandths without needless zeros.
func plainMilli(milli int64) string {
	text := fmt.Sprintf("%d.%03d", milli/1000, milli%1000)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// fillSays is how full a tray is.
func fillSays(fill, height int64) string {
	switch {
	case height <= 0:
		return fmt.Sprintf("%d mm full", fill)
	case fill > height:
		return fmt.Sprintf("more than its %d mm", height)
	}
	return fmt.Sprintf("%d of %d mm full", fill, height)
}

// spanSays writes from when to when, nothing where that is one day.
func spanSays(first, last string) string {
	if first == last {
		return ""
	}
	return fmt.Sprintf(" (%s to %s)", shortDay(first), shortDay(last))
}

// batch writes how a tray gets on.
func (p printer) batch(b *strings.Builder, v advice.BatchView) {
	fmt.Fprintf(b, "  %s, %s for %d d: %s; a squeeze should give: %s", v.Name, v.Stage, v.StageDay, fillSays(v.FillMM, v.HeightMM), say(squeezeWords, v.Squeeze))
	switch {
	case v.MoistenML > 0:
		fmt.Fprintf(b, " (%d ml of water bring it right)", v.MoistenML)
	case v.SoakG > 0:
		fmt.Fprintf(b, " (%s of dry paper bring it right)", p.grams(v.SoakG))
	}
	for _, w := range []struct {
		when  *advice.WhenView
		words string
	}{{v.NextTray, "bed the next tray about"}, {v.Full, "full about"}, {v.Ready, "ready about"}} {
		if w.when != nil {
			fmt.Fprintf(b, "; %s %s%s", w.words, shortDay(w.when.Day), spanSays(w.when.First, w.when.Last))
		}
	}
	fmt.Fprintf(b, "; castings %s to %s.\n", p.grams(v.Castings.Low), p.grams(v.Castings.High))
}

// jobWords name the jobs; %s is the tray.
var jobWords = map[string]string{
	advice.JobLook: "look at %s", advice.JobBedNext: "bed the next tray over %s", advice.JobRest: "let %s rest: it is full",
	advice.JobHarvest: "harvest %s: its castings are ready", advice.JobAgain: "look again at %s, where there was trouble",
}

func jobSays(j advice.Job) string {
	words := jobWords[j.Kind]
	if words == "" {
		words = strings.ReplaceAll(j.Kind, "-", " ") + " %s"
	}
	return fmt.Sprintf(words, j.Name)
}

func shareSays(s advice.Share) string {
	switch s.To {
	case "tray":
		return "into " + s.Name
	case "freezer":
		return "into the freezer"
	}
	return "out with the household waste"
}

// askSays puts the one question about a tray, and says how to answer it.
func askSays(ask advice.Ask, tray string) string {
	if ask.Kind == "unlogged" {
		return fmt.Sprintf(`Did somebody feed %s without writing it down? More lies there than the log explains. Answer with a look that says "unlogged": "yes" or "no".`, tray)
	}
	return fmt.Sprintf(`What is left in %s of the meal of %s? Answer with a look that says "leftovers": "none", "hard", "some", "half" or "most".`, tray, shortDay(ask.Day))
}
