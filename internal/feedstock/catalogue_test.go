package feedstock_test

import (
	"slices"
	"strings"
	"testing"

	"trayside/internal/feedstock"
	"trayside/internal/record"
	"trayside/internal/units"
)

func TestTheCatalogueIsWholeAndEveryNumberNamesItsSource(t *testing.T) {
	c := feedstock.Standard()
	if len(c.Entries) != 199 {
		t.Errorf("%d entries, want 199", len(c.Entries))
	}
	known := map[string]bool{}
	for _, s := range c.Sources {
		if s.Text == "" || !slices.Contains([]string{"seen", "memory", "-"}, s.How) {
			t.Errorf("source %q has text %q and how %q", s.Code, s.Text, s.How)
		}
		known[s.Code] = true
	}
	for _, e := range c.Entries {
		for name, pair := range map[string]struct {
			has    bool
			source string
		}{
			"water":           {e.Water != nil, e.WaterFrom},
			"nitrogen or C:N": {e.N != nil || e.CN != nil, e.NFrom},
			"density":         {e.Density != nil, e.DensityFrom},
		} {
			if pair.has && pair.source == "" {
				t.Errorf("%s: %s has no source", e.ID, name)
			}
			for _, clause := range clauses(pair.source) {
				if code, _, _ := strings.Cut(clause, " "); !known[code] {
					t.Errorf("%s: %s comes from %q, which is not among the sources", e.ID, name, code)
				}
			}
		}
		for _, code := range clauses(e.VerdictFrom) {
			if !known[code] {
				t.Errorf("%s: its verdict comes from %q, which is not among the sources", e.ID, code)
			}
		}
		if !strings.Contains(e.Status, "v=") || e.Name == "" || e.Group == "" {
			t.Errorf("%s lacks a status, name or group", e.ID)
		}
		if e.VerdictFrom == "" && !strings.Contains(e.Status, "v=memory") {
			t.Errorf("%s: its verdict has no source and is not marked as from memory", e.ID)
		}
	}
}

// clauses splits at semicolons outside brackets.
func clauses(s string) []string {
	var out []string
	depth, from := 0, 0
	for i, r := range s + ";" {
		switch {
		case r == '(':
			depth++
		case r == ')':
			depth--
		case r == ';' && depth == 0:
			if part := strings.TrimSpace(s[from:i]); part != "" {
				out = append(out, part)
			}
			from = i + 1
		}
	}
	return out
}

func TestACatalogueThatCannotBeIsRefused(t *testing.T) {
	const head = "[entries]\nid\tgroup\tclass\tverdict\treasons\twater_pct\tn_pct_dry\tc_n\tc_n_proximate\tbulk_kg_m3\tsalt_pct_wet\tprep\tproxy\tsrc_water\tsrc_n_cn\tsrc_bulk\tverdict_src\tstatus\ttier\tdisagree\n"
	row := func(class, verdict, water, n, cn string) string {
		return "x\tother\t" + class + "\t" + verdict + "\t\t" + water + "\t" + n + "\t" + cn + strings.Repeat("\t", 12) + "\n"
	}
	if _, err := feedstock.Load(head + row("leafy", "good", "87", "2.7", "19")); err != nil {
		t.Fatalf("a sound row is refused: %v", err)
	}
	for _, c := range []struct{ name, text, says string }{
		{"sawdust as one table prints it: 88 % carbon", head + row("paper", "little", "39", "0.2", "440"), "88 % carbon"},
		{"sawdust as another prints it: 204 % carbon", head + row("paper", "little", "42", "0.43", "475"), "204 % carbon"},
		{"grass at 68 % carbon", head + row("garden", "little", "82", "4.0", "17"), "68 % carbon"},
		{"more water than everything", head + row("leafy", "good", "120", "", ""), "water_pct"},
		{"less than nothing", head + row("leafy", "good", "-5", "", ""), "water_pct"},
		{"a word for a number", head + row("leafy", "good", "wet", "", ""), "water_pct"},
		{"a verdict that is none", head + row("leafy", "maybe", "", "", ""), "verdict"},
		{"a class that is none", head + row("soup", "good", "", "", ""), "class"},
		{"an id that stands twice", head + row("leafy", "good", "", "", "") + row("leafy", "good", "", "", ""), "twice"},
		{"a row that lost a tab", head + "x\tX\n", "columns"},
		{"a column that is missing", "[entries]\nid\tname\nx\tX\n", "missing"},
	} {
		_, err := feedstock.Load(c.text)
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.HasPrefix(err.Error(), "line ") {
			t.Errorf("%s: got %v, want a line number and %q", c.name, err, c.says)
		}
	}
	if _, err := feedstock.Load(head + row("paper", "good", "5", "0.1", "625")); err != nil {
		t.Errorf("newsprint at 62.5 %% carbon (Richard, Cornell spreadsheet) is refused: %v", err)
	}
}

func TestVerdicts(t *testing.T) {
	c := feedstock.Standard()
	for _, row := range []struct {
		name, id string
		class    feedstock.Class
		want     feedstock.Verdict
	}{
		{"carrot peel goes in", "carrot", "", feedstock.Good},
		{"orange peel sparingly", "orange-peel", "", feedstock.Little},
		{"onion is not advised", "onion", "", feedstock.Avoid},
		{"meat never", "meat-raw", "", feedstock.Never},
		{"cheese never", "cheese", "", feedstock.Never},
		{"pet faeces never", "pet-waste", "", feedstock.Never},
		{"a plastic tea bag never", "tea-bag-plastic", "", feedstock.Never},
		{"something else, said to be leafy", feedstock.Other, feedstock.Leafy, feedstock.Good},
		{"something else, of no class", feedstock.Other, feedstock.Unsorted, feedstock.Little},
		{"something else with fat or protein", feedstock.Other, feedstock.Rich, feedstock.Avoid},
	} {
		if got := c.Judge(row.id, row.class); got.Verdict != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got.Verdict, row.want)
		}
	}
	if j := c.Judge("orange-peel", ""); !j.Known || !slices.Contains(j.Reasons, "citrus-oil") || !slices.Contains(j.Prep, "freeze-thaw") {
		t.Errorf("orange peel comes without its reasons and hints: %+v", j)
	}
	animal := 0
	for _, e := range c.Entries {
		for _, reason := range e.Reasons {
			if (reason == "meat" || reason == "dairy") && e.Verdict != feedstock.Never && e.ID != "pizza" {
				t.Errorf("%s holds %s and is judged %s", e.ID, reason, e.Verdict)
			}
		}
		if e.Group == "animal" {
			animal++
		}
	}
	if animal < 15 {
		t.Errorf("only %d animal entries: a search for one would find no warning", animal)
	}
}

func TestEveryClassHasFactorsThatMakeSense(t *testing.T) {
	for _, class := range append(feedstock.Classes(), feedstock.Foreign, feedstock.Unsorted) {
		plain, frozen, both := feedstock.FactorsOf(class, false, false), feedstock.FactorsOf(class, false, true), feedstock.FactorsOf(class, true, true)
		for _, v := range []float64{plain.Appeal, plain.Soft, plain.Rot} {
			if v < 0 || v > 1.2 {
				t.Errorf("%s has factors %+v out of range", class, plain)
			}
		}
		if plain.Soft > 0 && (frozen.Appeal <= plain.Appeal || frozen.Rot <= plain.Rot) {
			t.Errorf("%s goes no faster once frozen: %+v, then %+v", class, plain, frozen)
		}
		if both != frozen {
			t.Errorf("%s: cutting what was frozen changes it again: %+v, then %+v", class, frozen, both)
		}
	}
	if f := feedstock.Standard().FactorsOf("eggshell", "", false, false); f.Appeal != 0 || f.Soft != 0 {
		t.Errorf("eggshell is grit and never left over, got %+v", f)
	}
	if f, m := feedstock.Standard().FactorsOf(feedstock.Other, "", false, false), feedstock.FactorsOf(feedstock.Leafy, false, false); f != m {
		t.Errorf("a scrap that nobody classed is taken as mixed scraps, got %+v, want %+v", f, m)
	}
}

func TestBeddingToGoWithAMeal(t *testing.T) {
	c := feedstock.Standard()
	for _, row := range []struct {
		name string
		meal []record.Item
		want units.Grams
	}{
		{"a kilogram of mixed vegetables", []record.Item{{Scrap: "veg-mixed", Grams: 1000}}, 179},
		{"mixed kitchen scraps are dry enough", []record.Item{{Scrap: "kitchen-mixed", Grams: 1000}}, 0},
		{"melon rind is wetter", []record.Item{{Scrap: "melon-rind", Grams: 500}}, 113},
		{"bread balances cucumber", []record.Item{{Scrap: "cucumber", Grams: 300}, {Scrap: "bread", Grams: 300}}, 0},
		{"an unknown scrap is taken for a wet one", []record.Item{{Scrap: feedstock.Other, Grams: 1000}}, 149},
		{"nothing needs nothing", nil, 0},
	} {
		if got := c.BeddingFor(row.meal, feedstock.Cardboard); got != row.want {
			t.Errorf("%s: got %d g of cardboard, want %d", row.name, got, row.want)
		}
	}
	if got := c.BeddingFor([]record.Item{{Scrap: "veg-mixed", Grams: 1000}}, "lettuce"); got != 0 {
		t.Errorf("wet lettuce as bedding: got %d g, want 0", got)
	}
}

func TestMassOfAVessel(t *testing.T) {
	c := feedstock.Standard()
	for _, row := range []struct {
		name string
		id   string
		ml   int64
		cut  bool
		want units.Grams
	}{
		{"a caddy of mixed scraps", feedstock.Mixed, 2000, false, 900},
		{"the same, cut", feedstock.Mixed, 2000, true, 1100},
		{"wet coffee grounds", "coffee-grounds", 500, false, 420},
		{"kale", "kale", 1000, false, 68},
		{"something unknown", feedstock.Other, 1000, false, 450},
		{"less than nothing", feedstock.Other, -10, false, 0},
	} {
		if got := c.MassOf(row.id, row.ml, row.cut); got != row.want {
			t.Errorf("%s: %d ml weigh %d g, want %d", row.name, row.ml, got, row.want)
		}
	}
}
