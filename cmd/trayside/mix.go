package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"trayside/internal/feedstock"
	"trayside/internal/units"
)

// mixAnswer is what mix prints for scripts. What there is no answer to is null;
// moisture and C:N of a refused mix are those of the scraps as they are.
type mixAnswer struct {
	Feasible bool     `json:"feasible"`
	Reason   string   `json:"reason"`
	Bedding  *float64 `json:"bedding_g"`
	Water    *float64 `json:"water_ml"`
	Moisture *float64 `json:"moisture_pct"`
	CN       *float64 `json:"cn"`
}

func runMix(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	f := newFlags("mix", "trayside mix --scraps ID=GRAMS,… [--bedding ID] [--moisture PCT] [--cn RATIO] [--json]\n"+
		"trayside mix --entries FILE | --data DIR      a mean week of what the kitchen made\n\n"+
		"Tells how much bedding and water bring scraps to a moisture, a C:N or both; with\n"+
		"neither, into the band that worms do well in. In place of an ID, MOISTURE:NITROGEN:CN\n"+
		"gives a material by its water (% of wet mass), nitrogen (% of dry mass) and C:N.", stderr)
	scraps := f.String("scraps", "", "what there is, in g or by volume, such as apple-core-peel=300,coffee-grounds=0.5l or 80:2.7:19=1000")
	bedding := f.String("bedding", feedstock.Cardboard, "what to add, as it lies: a catalogue id such as newsprint or leaves-dry, or MOISTURE:NITROGEN:CN")
	moisture := f.String("moisture", "", "water wanted, % of wet mass")
	cn := f.String("cn", "", "carbon to nitrogen wanted, such as 25")
	asJSON := f.Bool("json", false, "print one JSON object")
	var from source
	from.define(f)
	if err := parse(f, args); err != nil {
		return err
	}
	if *scraps == "" && from.given() {
		kitchen, err := from.kitchen(ctx, "mix", stderr)
		if err != nil {
			return err
		}
		if *scraps = weekOf(kitchen); *scraps == "" {
			return usage("mix: nobody has written down scraps in the last weeks; say what there is with --scraps")
		}
	}
	var to feedstock.Target
	var err error
	if *moisture != "" {
		if to.Water, err = number("moisture", strings.TrimSuffix(*moisture, "%"), 100); err != nil {
			return err
		}
		to.Water /= 100
	}
	if *cn != "" {
		if to.CN, err = number("cn", *cn, math.MaxFloat64); err != nil {
			return err
		}
	}
	if *scraps == "" {
		return usage("mix: say what there is to mix: --scraps apple-core-peel=300,coffee-grounds=150")
	}
	meal, err := readScraps(*scraps)
	if err != nil {
		return err
	}
	add, err := readMaterial("bedding", *bedding)
	if err != nil {
		return err
	}
	warn(stderr, *scraps)
	answer, err := mixed(to, add, meal)
	if err != nil {
		return err
	}
	if *asJSON {
		return json.NewEncoder(stdout).Encode(answer)
	}
	_, err = io.WriteString(stdout, answer.words(*bedding, meal))
	return err
}

// mixed answers for scripts; a target out of reach is an answer, not an error.
func mixed(to feedstock.Target, bedding feedstock.Ingredient, meal []feedstock.Ingredient) (mixAnswer, error) {
	var r feedstock.Recipe
	var err error
	if to == (feedstock.Target{}) {
		r, err = feedstock.FitBand(bedding, meal...)
	} else {
		r, err = feedstock.Fit(to, bedding, meal...)
	}
	// An answer from a composition that cannot be is none.
	for _, i := range append([]feedstock.Ingredient{bedding}, meal...) {
		if err == nil && i.Check() != nil {
			err = fmt.Errorf("%w: %w", feedstock.ErrCannot, i.Check())
		}
	}
	switch {
	case errors.Is(err, feedstock.ErrCannot):
		a := mixAnswer{Reason: strings.ReplaceAll(err.Error(), feedstock.ErrCannot.Error()+": ", "")}
		if w, err := feedstock.MixWater(meal...); err == nil {
			a.Moisture = rounded(w*100, 2)
		}
		if cn, err := feedstock.MixCN(meal...); err == nil {
			a.CN = rounded(cn, 2)
		}
		return a, nil
	case err != nil:
		return mixAnswer{}, err
	}
	a := mixAnswer{Feasible: true, Bedding: rounded(r.Bedding, 1), Water: rounded(r.Plain, 1), Moisture: rounded(r.Water*100, 2)}
	if r.CN > 0 {
		a.CN = rounded(r.CN, 2)
	}
	return a, nil
}

func rounded(x float64, places int) *float64 {
	scale := math.Pow10(places)
	v := math.Round(x*scale) / scale
	return &v
}

// words is the answer for people.
func (a mixAnswer) words(bedding string, meal []feedstock.Ingredient) string {
	var grams float64
	for _, i := range meal {
		grams += i.Grams
	}
	water, _ := feedstock.MixWater(meal...)
	var b strings.Builder
	fmt.Fprintf(&b, "%.0f g of scraps with %.0f %% water", grams, water*100)
	if cn, err := feedstock.MixCN(meal...); err == nil {
		fmt.Fprintf(&b, " and C:N %.0f", cn)
	}
	if !a.Feasible {
		fmt.Fprintf(&b, ".\nThis cannot be done: %s.\n", a.Reason)
		return b.String()
	}
	b.WriteString(".\n")
	switch {
	case *a.Bedding == 0 && *a.Water == 0:
		b.WriteString("They need nothing added.\n")
	case *a.Water == 0:
		fmt.Fprintf(&b, "Add %.0f g of %s, torn up; no water.\n", *a.Bedding, bedding)
	case *a.Bedding == 0:
		fmt.Fprintf(&b, "Add %.0f ml of water and no bedding.\n", *a.Water)
	default:
		fmt.Fprintf(&b, "Add %.0f g of %s, torn up, and %.0f ml of water.\n", *a.Bedding, bedding, *a.Water)
	}
	fmt.Fprintf(&b, "Together that is %.0f g with %.0f %% water", grams+*a.Bedding+*a.Water, *a.Moisture)
	if a.CN != nil {
		fmt.Fprintf(&b, " and C:N %.0f", *a.CN)
		if *a.CN > feedstock.BandTopCN {
			b.WriteString(", poorer in nitrogen than worms need: they will take the paper slowly")
		}
	}
	b.WriteString(".\n")
	return b.String()
}

// warn tells on stderr of scraps that do not belong in a bin, and of those whose
// nitrogen nobody has published; the arithmetic is done all the same.
func warn(stderr io.Writer, scraps string) {
	c := feedstock.Standard()
	for part := range strings.SplitSeq(scraps, ",") {
		id, _, _ := strings.Cut(part, "=")
		e, ok := c.Lookup(strings.TrimSpace(id))
		switch {
		case ok && e.Verdict == feedstock.Never:
			fmt.Fprintf(stderr, "%s: keep this out of a worm bin.\n", e.Name)
		case ok && e.Verdict == feedstock.Avoid:
			fmt.Fprintf(stderr, "%s: not advised in a worm bin; a trace does no harm.\n", e.Name)
		}
		if ok && (e.N == nil || e.CN == nil) {
			fmt.Fprintf(stderr, "%s: nobody has published its nitrogen; that of mixed kitchen scraps stands in.\n", e.Name)
		}
	}
}

// readScraps reads ID=GRAMS,ID=GRAMS.
func readScraps(list string) ([]feedstock.Ingredient, error) {
	var meal []feedstock.Ingredient
	for part := range strings.SplitSeq(list, ",") {
		id, amount, ok := strings.Cut(part, "=")
		if !ok {
			return nil, usage("mix: --scraps: %q has no amount; write ID=GRAMS, parted by commas, with a point for decimals: apple-core-peel=300,coffee-grounds=150.5", part)
		}
		id = strings.TrimSpace(id)
		i, err := readMaterial("scraps", id)
		if err != nil {
			return nil, err
		}
		if i.Grams, err = readAmount(id, amount); err != nil {
			return nil, usage("mix: --scraps: %s: %v", part, err)
		}
		meal = append(meal, i)
	}
	if _, err := feedstock.MixWater(meal...); err != nil {
		return nil, usage("mix: --scraps: the amounts come to nothing; weigh what there is, such as apple-core-peel=300")
	}
	return meal, nil
}

// readAmount reads a mass in g, or a volume such as 2l or 500ml of something whose
// density the catalogue knows, and returns g.
func readAmount(id, text string) (float64, error) {
	if number, litres := strings.CutSuffix(strings.ToLower(strings.TrimSpace(text)), "l"); litres {
		number, small := strings.CutSuffix(number, "m")
		v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		switch {
		case err != nil || !(v >= 0) || v > 10_000:
			return 0, fmt.Errorf("%q is no volume: write it like 500ml or 1.5l", text)
		case strings.Contains(id, ":"):
			return 0, errors.New("nobody knows how heavy a litre of that is: weigh it")
		}
		if !small {
			v *= 1000
		}
		return float64(feedstock.Standard().MassOf(id, units.Nearest(v), false)), nil
	}
	w, err := units.ParseMass(text, units.Gram)
	return float64(w) / float64(units.OneGram), err
}

// readMaterial reads a catalogue id or MOISTURE:NITROGEN:CN.
func readMaterial(flag, text string) (feedstock.Ingredient, error) {
	if strings.Contains(text, ":") {
		return readComposition(flag, text)
	}
	c := feedstock.Standard()
	e, ok := c.Lookup(text)
	if !ok {
		return feedstock.Ingredient{}, usage("mix: --%s: the catalogue has no %q%s; or give it as MOISTURE:NITROGEN:CN, such as 80:2.7:19", flag, text, meant(text))
	}
	i, err := c.Ingredient(text, 0)
	// The catalogue lends scraps of unknown nitrogen that of mixed kitchen scraps;
	// bedding is nothing like those.
	if err != nil || flag == "bedding" && (e.N == nil || e.CN == nil) {
		return i, usage("mix: --%s: nobody has published what %s is made of; give it as MOISTURE:NITROGEN:CN, such as 80:2.7:19", flag, text)
	}
	return i, nil
}

// meant suggests catalogue ids for one that is not there.
func meant(text string) string {
	c := feedstock.Standard()
	for n := len(text); n >= 3; n-- {
		hits := c.Search(text[:n], feedstock.English)
		if len(hits) == 0 {
			continue
		}
		var ids []string
		for _, e := range hits[:min(4, len(hits))] {
			ids = append(ids, e.ID)
		}
		return "; did you mean " + strings.Join(ids, ", ") + "?"
	}
	return ""
}

func readComposition(flag, text string) (feedstock.Ingredient, error) {
	parts := strings.Split(text, ":")
	if len(parts) != 3 {
		return feedstock.Ingredient{}, usage("mix: --%s: %q is not three numbers: write MOISTURE:NITROGEN:CN, such as 80:2.7:19", flag, text)
	}
	var v [3]float64
	for k, p := range parts {
		x, err := strconv.ParseFloat(strings.TrimSpace(p), 64)
		if err != nil || !(x >= 0) || math.IsInf(x, 1) {
			return feedstock.Ingredient{}, usage("mix: --%s: %q in %q is not a number of 0 or more; write MOISTURE:NITROGEN:CN, such as 80:2.7:19", flag, p, text)
		}
		v[k] = x
	}
	if v[0] >= 100 || v[1] > 100 {
		return feedstock.Ingredient{}, usage("mix: --%s: %q: moisture must be below 100 %% of wet mass and nitrogen at most 100 %% of dry mass", flag, text)
	}
	return feedstock.Ingredient{Water: v[0] / 100, N: v[1] / 100, CN: v[2]}, nil
}

// number reads a flag's value above 0 and up to most.
func number(flag, text string, most float64) (float64, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || !(x > 0) || x > most || math.IsInf(x, 1) {
		if most == math.MaxFloat64 {
			return 0, usage("mix: --%s: %q is not a number above 0, such as 25", flag, text)
		}
		return 0, usage("mix: --%s: %q is not a number above 0 and up to %.0f, such as 75", flag, text, most)
	}
	return x, nil
}
