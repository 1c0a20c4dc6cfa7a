package main

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trayside/internal/plan"
)

// planOf returns the one JSON object that plan prints.
func planOf(t *testing.T, args ...string) planAnswer {
	t.Helper()
	out, _, err := tell(t, append([]string{"plan", "--json", "--start", "2027-04-10"}, args...)...)
	if err != nil {
		t.Fatalf("plan %v: %v", args, err)
	}
	var a planAnswer
	d := json.NewDecoder(strings.NewReader(out))
	if err := d.Decode(&a); err != nil || d.More() {
		t.Fatalf("plan %v printed %q, want one object (%v)", args, out, err)
	}
	return a
}

func TestPlanSizesABin(t *testing.T) {
	four := planOf(t, "--scraps-week", "4lb", "--coolest", "18", "--warmest", "22")
	// Wisconsin Natural Resources magazine 1998: 2 × 2 ft.
	if math.Abs(four.AreaM2-0.372) > 0.002 || four.WormsG < 500 || four.Bedding.PaperG < 1000 || len(four.Steps) != 5 {
		t.Errorf("4 lb a week: %+v", four.Plan)
	}
	if four.Steps[0].Day.String() != "2027-04-10" || four.Steps[1].Day.String() != "2027-04-17" {
		t.Errorf("the order of buying: %+v", four.Steps)
	}
	if four.Whole.Days.High <= four.Whole.Days.Low || four.Absence.Days != 14 || len(four.Suits) != 4 {
		t.Errorf("reach %+v, absence %+v, %d species", four.Whole, four.Absence, len(four.Suits))
	}
	fahrenheit := planOf(t, "--scraps-week", "1814", "--coolest", "64.4F", "--warmest", "71.6F")
	if fahrenheit.AreaM2 != four.AreaM2 || fahrenheit.Whole != four.Whole {
		t.Errorf("the same in other units: %+v, want %+v", fahrenheit.Whole, four.Whole)
	}
	if big := planOf(t, "--people", "9", "--coolest", "18", "--warmest", "22", "--tray", "600x400", "--away", "60"); big.WormsG <= four.WormsG || big.Trays.Width != 600 || !slices.Contains(big.Absence.During, plan.AskSomebody) {
		t.Errorf("nine people: %+v", big)
	}
}

func TestPlanSaysEverythingInWords(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want []string
	}{
		{"a plan", []string{"--people", "2", "--coolest", "14", "--warmest", "23"},
			[]string{"For 2 people", "square feet", "In this order", "2027-04-17  get the worms", "days after the worms come", "half the worms", "Which worms", "Away for 14 days", "nothing to catch up on", "local rules decide"}},
		{"a room that kills", []string{"--people", "2", "--coolest", "-5", "--warmest", "36"},
			[]string{"This room kills them", "None of the worms lives"}},
		{"the wrong species", []string{"--people", "2", "--coolest", "8", "--warmest", "20", "--species", "eudrilus-eugeniae"},
			[]string{"African nightcrawler", "do not live through the year"}},
		{"jumping worms", []string{"--species", "Amynthas"}, []string{"no numbers", "Minnesota", "local authority"}},
	} {
		out, _, err := tell(t, append([]string{"plan", "--start", "2027-04-10"}, c.args...)...)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		for _, want := range c.want {
			if !strings.Contains(out, want) {
				t.Errorf("%s: %q is not in\n%s", c.name, want, out)
			}
		}
		if strings.Contains(out, "%!") || strings.Contains(out, "  \n") || strings.Contains(out, "; ;") {
			t.Errorf("%s: words are missing in\n%s", c.name, out)
		}
	}
}

func TestJumpingWormsGetNoNumbersFromTheCommandEither(t *testing.T) {
	out, _, err := tell(t, "plan", "--species", "metaphire", "--json")
	if want := `{"species":"jumping-worms","cautions":["jumping-worms","no-release"]}` + "\n"; err != nil || out != want {
		t.Errorf("got %q (%v), want %q", out, err, want)
	}
}

func TestPlanSaysWhichFlagIsWrongAndHowToMendIt(t *testing.T) {
	room := []string{"--coolest", "14", "--warmest", "23"}
	for _, c := range []struct {
		name string
		args []string
		says string
	}{
		{"no kitchen", room, "--people 2"},
		{"two kitchens", append([]string{"--people", "2", "--scraps-week", "1800"}, room...), "not both"},
		{"no room", []string{"--people", "2"}, "--coolest 14 --warmest 23"},
		{"half a room", []string{"--people", "2", "--coolest", "14"}, "--warmest 23"},
		{"winter and summer swapped", []string{"--people", "2", "--coolest", "23", "--warmest", "14"}, "swap the two"},
		{"a room in kelvin", []string{"--people", "2", "--coolest", "287K", "--warmest", "23"}, "--coolest"},
		{"a word for a weight", append([]string{"--scraps-week", "lots"}, room...), "--scraps-week"},
		{"nothing", append([]string{"--scraps-week", "0"}, room...), "--people"},
		{"a canteen", append([]string{"--people", "1000"}, room...), "100 kg or less"},
		{"a worm without numbers", append([]string{"--people", "2", "--species", "lumbricus"}, room...), "eisenia-fetida"},
		{"no day", append([]string{"--people", "2", "--start", "tomorrow"}, room...), "--start"},
		{"a tray of nothing", append([]string{"--people", "2", "--tray", "400"}, room...), "400x400"},
		{"an absence of years", append([]string{"--people", "2", "--away", "900"}, room...), "--away"},
	} {
		out, _, err := tell(t, append([]string{"plan", "--json"}, c.args...)...)
		if err == nil || exitCode(err, &bytes.Buffer{}) != 2 || !strings.Contains(err.Error(), c.says) || out != "" {
			t.Errorf("%s: got %v and %q, want a usage error with %q", c.name, err, out, c.says)
		}
	}
}

// Every code of internal/plan has its words, and no words are left over.
func TestEveryCodeOfAPlanHasWords(t *testing.T) {
	files, err := filepath.Glob("../../internal/plan/*.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files: %v", err)
	}
	codes := map[plan.Code]bool{}
	for _, name := range files {
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if v, ok := n.(*ast.ValueSpec); ok {
				if kind, ok := v.Type.(*ast.Ident); ok && kind.Name == "Code" {
					text, err := strconv.Unquote(v.Values[0].(*ast.BasicLit).Value)
					if err != nil {
						t.Fatal(err)
					}
					codes[plan.Code(text)] = true
				}
			}
			return true
		})
	}
	if len(codes) < 30 {
		t.Errorf("found %d codes, want at least 30: the search no longer fits the source", len(codes))
	}
	for code := range codes {
		if planCodeWords[code] == "" {
			t.Errorf("%s has no words", code)
		}
	}
	for code := range planCodeWords {
		if !codes[code] {
			t.Errorf("words for %q, which is no code", code)
		}
	}
	for _, s := range plan.Species() {
		if speciesWords[s] == "" {
			t.Errorf("%s has no words", s)
		}
	}
}
