package main

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"trayside/internal/colony"
	"trayside/internal/plan"
	"trayside/internal/record"
	"trayside/internal/units"
)

// planAnswer is what plan prints for scripts.
type planAnswer struct {
	plan.Plan
	Absence plan.Absence `json:"absence"`
}

// planCaution is what it prints of worms that it has no numbers for.
type planCaution struct {
	Species  record.Species `json:"species"`
	Cautions []plan.Code    `json:"cautions"`
}

func runPlan(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("plan", "trayside plan --scraps-week G | --people N  --coolest C --warmest C [--species S] [--json]\n"+
		"trayside plan --entries FILE | --data DIR      with what is not said taken from the record\n\n"+
		"Sizes a new bin: worms, surface, trays, bedding, what to buy when, and when the\n"+
		"colony will eat everything that the kitchen makes.", stderr)
	week := f.String("scraps-week", "", "scraps that the kitchen makes a week, such as 1800, 1.8kg or 4lb")
	people := f.Int("people", 0, "how many people the kitchen feeds, if nobody has weighed the scraps")
	coolest := f.String("coolest", "", "mean of the room's coldest month, such as 14 or 57F")
	warmest := f.String("warmest", "", "mean of the room's warmest month")
	species := f.String("species", "", "worms wanted: "+speciesNames()+" or jumping-worms; by default what suits the room best")
	south := f.Bool("south", false, "the room is in the southern hemisphere")
	start := f.String("start", "", "day on which the buying may begin, such as 2027-03-01; by default today")
	size := f.String("tray", "", "inner width and depth of a tray in mm, such as 400x400")
	away := f.Int("away", 14, "days of an absence to advise on")
	asJSON := f.Bool("json", false, "print one JSON object")
	var from source
	from.define(f)
	if err := parse(f, args); err != nil {
		return err
	}
	if from.given() {
		k, err := from.kitchen(ctx, "plan", stderr)
		if err != nil {
			return err
		}
		if made := record.Total(k.Week); *week == "" && *people == 0 && made > 0 {
			*week = strconv.FormatInt(int64(made), 10)
		}
		if k.Room && *coolest == "" && *warmest == "" {
			*coolest, *warmest = celsius(k.Coolest), celsius(k.Warmest)
		}
		*south = *south || k.South
	}
	if s := record.Species(*species); plan.Jumping(s) {
		p, err := plan.Make(plan.Ask{Species: s})
		if err != nil {
			return err
		}
		if *asJSON {
			return json.NewEncoder(stdout).Encode(planCaution{p.Species, p.Cautions})
		}
		_, err = io.WriteString(stdout, "There are no numbers for jumping worms.\n"+cautionWords(p.Cautions))
		return err
	}
	ask, err := readAsk(*week, *people, *coolest, *warmest, *species, *start, *size)
	if err != nil {
		return err
	}
	ask.Room.South = *south
	p, err := plan.Make(ask)
	if err != nil {
		return usage("plan: %v", err)
	}
	absence, err := plan.Away(p.Species, ask.Room, ask.Start, *away)
	if err != nil {
		return usage("plan: --away: %v", err)
	}
	if *asJSON {
		return json.NewEncoder(stdout).Encode(planAnswer{p, absence})
	}
	_, err = io.WriteString(stdout, planWords(p, absence, ask.People))
	return err
}

// celsius writes a temperature as the flags take it.
func celsius(t units.DeciCelsius) string { return strconv.FormatFloat(float64(t)/10, 'f', 1, 64) }

func speciesNames() string {
	var names []string
	for _, s := range plan.Species() {
		names = append(names, string(s))
	}
	return strings.Join(names, ", ")
}

// readAsk reads the flags; each error names its flag.
func readAsk(week string, people int, coolest, warmest, species, start, size string) (plan.Ask, error) {
	ask := plan.Ask{People: people, Species: record.Species(strings.ToLower(species))}
	switch {
	case week != "" && people != 0:
		return ask, usage("plan: give --scraps-week or --people, not both")
	case week != "":
		w, err := units.ParseMass(week, units.Gram)
		if err != nil {
			return ask, usage("plan: --scraps-week: %v", err)
		}
		if ask.ScrapsWeek = w.Grams(); ask.ScrapsWeek == 0 {
			return ask, usage("plan: --scraps-week: %s is nothing; weigh a week's scraps, or give --people", week)
		}
	case people <= 0:
		return ask, usage("plan: say what the kitchen makes: --scraps-week 1800 (g), or --people 2")
	}
	if ask.Species != "" && !slices.Contains(plan.Species(), ask.Species) {
		return ask, usage("plan: --species: there are no numbers for %q; there are for %s", species, speciesNames())
	}
	var err error
	if ask.Room, err = readRoom(coolest, warmest); err != nil {
		return ask, err
	}
	if start == "" {
		start = time.Now().Format(time.DateOnly)
	}
	if ask.Start, err = record.DayOf(start); err != nil {
		return ask, usage("plan: --start: %v", err)
	}
	if size != "" {
		w, d, _ := strings.Cut(strings.ToLower(size), "x")
		width, err1 := strconv.Atoi(strings.TrimSpace(w))
		depth, err2 := strconv.Atoi(strings.TrimSpace(d))
		if errors.Join(err1, err2) != nil || min(width, depth) < 100 || max(width, depth) > 3000 {
			return ask, usage("plan: --tray: %q is not a width and a depth of 100 to 3000 mm, such as 400x400", size)
		}
		ask.Width, ask.Depth = units.Millimetres(width), units.Millimetres(depth)
	}
	return ask, nil
}

func readRoom(coolest, warmest string) (colony.Room, error) {
	var room colony.Room
	for _, t := range []struct {
		flag, text string
		to         *units.DeciCelsius
	}{{"coolest", coolest, &room.Coolest}, {"warmest", warmest, &room.Warmest}} {
		if t.text == "" {
			return room, usage("plan: say how warm the room is through the year: --coolest 14 --warmest 23 (°C, means of the coldest and the warmest month; write 57F for °F)")
		}
		c, err := units.ParseTemp(t.text, units.Celsius)
		if err != nil {
			return room, usage("plan: --%s: %v", t.flag, err)
		}
		*t.to = c
	}
	if room.Warmest < room.Coolest {
		return room, usage("plan: --warmest %s is colder than --coolest %s: swap the two", warmest, coolest)
	}
	if room.Coolest == 0 && room.Warmest == 0 {
		room.Warmest = 1 // two zeros would stand for a room that nobody described
	}
	return room, nil
}
