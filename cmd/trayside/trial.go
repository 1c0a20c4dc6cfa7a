package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
	"trayside/internal/plan"
	"trayside/internal/record"
)

// Limits of a trial: what no dish and no patience exceeds.
const (
	trialDays  = 36500
	trialHeads = 1e7
	trialGrams = 1e7
)

// trialFile is a trial as it stands in a file. Pointers tell what is missing.
type trialFile struct {
	Species *string         `json:"species"`
	Area    *float64        `json:"area_cm2"`
	Temp    json.RawMessage `json:"temp_c"`
	Moist   *float64        `json:"moisture_pct"`
	Start   *struct {
		Adults     float64  `json:"adults"`
		AdultMG    *float64 `json:"adult_mg"`
		Juveniles  float64  `json:"juveniles"`
		JuvenileMG *float64 `json:"juvenile_mg"`
		Cocoons    float64  `json:"cocoons"`
	} `json:"start"`
	Feed []struct {
		Day   *wholeDays `json:"day"`
		Grams *float64   `json:"g"`
		Food  *string    `json:"food"`
	} `json:"feed"`
	Remove []struct {
		Day   *wholeDays      `json:"day"`
		Grams json.RawMessage `json:"g"`
	} `json:"remove"`
	TakeCocoons *wholeDays `json:"remove_cocoons_every_days"`
	Days        *wholeDays `json:"days"`
	Every       *wholeDays `json:"report_every_days"`
}

// readTrial reads a trial and checks it; an error names the field.
func readTrial(text []byte) (*colony.Trial, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // some editors begin a file with it
	if err := checkShape(text); err != nil {
		return nil, err
	}
	var in trialFile
	if err := json.Unmarshal(text, &in); err != nil {
		return nil, err
	}
	t := &colony.Trial{}
	for _, read := range []func(*colony.Trial) error{in.setting, in.stock, in.doses, in.takes} {
		if err := read(t); err != nil {
			return nil, err
		}
	}
	return t, nil
}

// setting reads species, dish, weather and how long the trial runs.
func (in *trialFile) setting(t *colony.Trial) error {
	if in.Species == nil {
		return errors.New("species: missing; for example eisenia-fetida")
	}
	t.Species = record.Species(*in.Species)
	switch t.Species {
	case record.Eisenia, record.Dendrobaena, record.Eudrilus, record.Perionyx, record.NotSure:
	default:
		if plan.Jumping(t.Species) {
			return fmt.Errorf("species: there are no numbers for jumping worms. %s", planCodeWords[plan.JumpingCaution])
		}
		return fmt.Errorf("species: %q has no numbers here; take eisenia-fetida, dendrobaena-hortensis, eudrilus-eugeniae, perionyx-excavatus or not-sure", *in.Species)
	}
	if err := within("area_cm2", in.Area, 0.1, 1e8, "cm²"); err != nil {
		return err
	}
	t.AreaM2 = *in.Area / 10000
	if err := within("moisture_pct", in.Moist, 0, 100, "%"); err != nil {
		return err
	}
	t.Moist = *in.Moist
	if in.Days == nil || *in.Days < 1 || *in.Days > trialDays {
		return fmt.Errorf("days: %s; it takes a whole number of 1 to %d", told(in.Days), trialDays)
	}
	t.Days = int(*in.Days)
	t.Every = t.Days
	if in.Every != nil {
		if t.Every = int(*in.Every); t.Every < 1 {
			return fmt.Errorf("report_every_days: %d; it takes a whole number of at least 1", t.Every)
		}
	}
	if in.TakeCocoons != nil {
		if t.TakeCocoons = int(*in.TakeCocoons); t.TakeCocoons < 0 {
			return fmt.Errorf("remove_cocoons_every_days: %d; it takes a whole number, 0 for never", t.TakeCocoons)
		}
	}
	return in.temps(t)
}

// temps reads one temperature or a list of [day, °C].
func (in *trialFile) temps(t *colony.Trial) error {
	if len(in.Temp) == 0 || string(in.Temp) == "null" {
		return errors.New("temp_c: missing; a number, or a list of [day, °C] such as [[0, 20], [30, 25]]")
	}
	var one float64
	if json.Unmarshal(in.Temp, &one) == nil {
		t.Temps = []colony.Setting{{C: one}}
		return within("temp_c", &one, -40, 60, "°C")
	}
	var pairs [][]*float64
	if err := json.Unmarshal(in.Temp, &pairs); err != nil || len(pairs) == 0 {
		return fmt.Errorf("temp_c: %s is neither a number nor a list of [day, °C] such as [[0, 20], [30, 25]]", clip(in.Temp))
	}
	for i, p := range pairs {
		field := fmt.Sprintf("temp_c[%d]", i)
		if len(p) != 2 || p[0] == nil || *p[0] != math.Trunc(*p[0]) || *p[0] < 0 || *p[0] > trialDays {
			return fmt.Errorf("%s: is no pair of a whole day from 0 on and °C, such as [30, 25]", field)
		}
		if err := within(field, p[1], -40, 60, "°C"); err != nil {
			return err
		}
		day := int(*p[0])
		if i > 0 && day <= t.Temps[i-1].Day {
			return fmt.Errorf("%s: day %d does not come after day %d; give the days in order", field, day, t.Temps[i-1].Day)
		}
		t.Temps = append(t.Temps, colony.Setting{Day: day, C: *p[1]})
	}
	return nil
}

// stock reads what the trial begins with.
func (in *trialFile) stock(t *colony.Trial) error {
	s := in.Start
	if s == nil {
		return errors.New(`start: missing; for example {"adults": 10, "adult_mg": 400}`)
	}
	for _, n := range []struct {
		field string
		heads float64
		mg    *float64
		mean  *float64
	}{
		{"adult", s.Adults, s.AdultMG, &t.Start.AdultMG},
		{"juvenile", s.Juveniles, s.JuvenileMG, &t.Start.JuvenileMG},
	} {
		if err := within("start."+n.field+"s", &n.heads, 0, trialHeads, "worms"); err != nil {
			return err
		}
		if n.heads == 0 {
			continue
		}
		if err := within("start."+n.field+"_mg", n.mg, 0.1, 50000, "mg"); err != nil {
			return err
		}
		*n.mean = *n.mg
	}
	if err := within("start.cocoons", &s.Cocoons, 0, trialHeads, "cocoons"); err != nil {
		return err
	}
	t.Start.Adults, t.Start.Juveniles, t.Start.Cocoons = s.Adults, s.Juveniles, s.Cocoons
	if s.Adults+s.Juveniles+s.Cocoons == 0 {
		return errors.New("start: there are no adults, juveniles or cocoons; a trial begins with some")
	}
	return nil
}

// doses reads the food.
func (in *trialFile) doses(t *colony.Trial) error {
	for i, f := range in.Feed {
		field := fmt.Sprintf("feed[%d]", i)
		if err := inDays(field+".day", f.Day, t.Days); err != nil {
			return err
		}
		if err := within(field+".g", f.Grams, 0, trialGrams, "g"); err != nil {
			return err
		}
		if f.Food == nil {
			return fmt.Errorf("%s.food: missing; take %s", field, foods())
		}
		fare, ok := fareOf(*f.Food)
		if !ok {
			return fmt.Errorf("%s.food: %q is not known; take %s", field, *f.Food, foods())
		}
		t.Feed = append(t.Feed, colony.Dose{Day: int(*f.Day), Grams: *f.Grams, Fare: fare})
	}
	return nil
}

// fareOf is a laboratory's food, or one of the catalogue.
func fareOf(name string) (colony.Fare, bool) {
	if fare, ok := colony.FareOf(name); ok {
		return fare, true
	}
	entry, ok := feedstock.Standard().Lookup(name)
	if !ok {
		return colony.Fare{}, false
	}
	f := feedstock.FactorsOf(entry.Class, false, false)
	return colony.Fare{Appeal: f.Appeal, Soft: f.Soft, Rot: f.Rot, Kitchen: true}, true
}

// takes reads the food that is taken out.
func (in *trialFile) takes(t *colony.Trial) error {
	for i, r := range in.Remove {
		field := fmt.Sprintf("remove[%d]", i)
		if err := inDays(field+".day", r.Day, t.Days); err != nil {
			return err
		}
		take := colony.Take{Day: int(*r.Day)}
		switch {
		case string(r.Grams) == `"all"`:
			take.All = true
		case json.Unmarshal(r.Grams, &take.Grams) != nil || len(r.Grams) == 0 || take.Grams < 0 || string(r.Grams) == "null":
			return fmt.Errorf("%s.g: %s; it takes grams, or \"all\"", field, clip(r.Grams))
		}
		t.Remove = append(t.Remove, take)
	}
	return nil
}

// within checks a number that has to be there.
func within(field string, v *float64, low, high float64, unit string) error {
	switch {
	case v == nil:
		return fmt.Errorf("%s: missing; it takes %g to %g %s", field, low, high, unit)
	case math.IsNaN(*v) || *v < low || *v > high:
		return fmt.Errorf("%s: %g; it takes %g to %g %s", field, *v, low, high, unit)
	}
	return nil
}

// inDays checks a day of the trial.
func inDays(field string, day *wholeDays, days int) error {
	if day == nil || *day < 0 || int(*day) > days {
		return fmt.Errorf("%s: %s; it takes a day of the trial, 0 to %d", field, told(day), days)
	}
	return nil
}

func told(n *wholeDays) string {
	if n == nil {
		return "missing"
	}
	return fmt.Sprint(*n)
}

// clip shortens what an error repeats.
func clip(raw json.RawMessage) string {
	if len(raw) == 0 {
		return "missing"
	}
	if len(raw) > 40 {
		return string(raw[:40]) + "…"
	}
	return string(raw)
}
