package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"trayside/internal/colony"
	"trayside/internal/feedstock"
)

// aTrialFile is a trial that is right in every field.
const aTrialFile = `{"species":"eisenia-fetida","area_cm2":78,"temp_c":25,"moisture_pct":78,
"start":{"adults":10,"adult_mg":400},
"feed":[{"day":0,"g":20,"food":"cattle-manure"},{"day":10,"g":20,"food":"potato-peel"}],
"remove":[{"day":8,"g":2.5},{"day":15,"g":"all"}],
"remove_cocoons_every_days":10,"days":25,"report_every_days":10}`

// simulated runs simulate on a trial's text.
func simulated(t *testing.T, text string, flags ...string) (string, error) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "trial.json")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	out, _, err := tell(t, append([]string{"simulate", "--trial", file}, flags...)...)
	return out, err
}

func rowsOf(t *testing.T, text string) []colony.Row {
	t.Helper()
	out, err := simulated(t, text, "--json")
	if err != nil {
		t.Fatal(err)
	}
	var answer struct{ Rows []colony.Row }
	if err := json.Unmarshal([]byte(out), &answer); err != nil {
		t.Fatalf("%q: %v", out, err)
	}
	return answer.Rows
}

func TestATrialPrintsARowForEveryReport(t *testing.T) {
	out, err := simulated(t, aTrialFile, "--json")
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"day", "adults", "juveniles", "cocoons", "laid", "mean_mg", "live_g", "eaten_g", "left_g"} {
		if strings.Count(out, `"`+key+`":`) != 3 {
			t.Errorf("%q is not in each of three rows: %s", key, out)
		}
	}
	rows := rowsOf(t, aTrialFile)
	var days []int
	for _, r := range rows {
		days = append(days, r.Day)
	}
	if !slices.Equal(days, []int{10, 20, 25}) {
		t.Errorf("rows of days %v, want 10, 20 and the last", days)
	}
	if last := rows[2]; last.LeftG != 0 || last.EatenG != 0 {
		t.Errorf("all food is taken out on day 15, and yet %.2f g lie there and %.2f were eaten", last.LeftG, last.EatenG)
	}
	if rows[0].Laid < 20 || rows[1].Cocoons > rows[1].Laid+1e-9 {
		t.Errorf("%.1f cocoons were laid by day 10, and of those laid since then %.1f are there of %.1f", rows[0].Laid, rows[1].Cocoons, rows[1].Laid)
	}
}

func TestATrialForPeopleIsATable(t *testing.T) {
	out, err := simulated(t, aTrialFile)
	if err != nil || !strings.Contains(out, "mean mg") || strings.Count(out, "\n") != 6 {
		t.Errorf("%v, printed:\n%s", err, out)
	}
}

// Scripts write 25.0 or 2.5e1 for twenty-five, and some editors begin a file with
// a byte-order mark.
func TestWholeDaysMayBeWrittenAsScriptsWriteThem(t *testing.T) {
	other := strings.NewReplacer(`"days":25`, `"days":2.5e1`, `"day":10`, `"day":10.0`, `every_days":10`, `every_days":10.0`).Replace(aTrialFile)
	if a, b := rowsOf(t, aTrialFile), rowsOf(t, "\ufeff"+other); !slices.Equal(a, b) {
		t.Errorf("rows %v, want %v", b, a)
	}
}

// Every scrap of the catalogue may be fed: what is eaten and left never comes to
// more than went in.
func TestEveryScrapOfTheCatalogueFeedsATrial(t *testing.T) {
	eaten := 0
	for _, scrap := range feedstock.Standard().Entries {
		food := `"food":"` + scrap.ID + `"`
		text := strings.NewReplacer(`"food":"potato-peel"`, food, `"food":"cattle-manure"`, food).Replace(aTrialFile)
		var bitten, left float64
		for _, r := range rowsOf(t, strings.Replace(text, `,{"day":15,"g":"all"}`, "", 1)) {
			bitten, left = bitten+r.EatenG, r.LeftG
		}
		if bitten+left > 40 {
			t.Errorf("%s: %.1f g eaten and %.1f left of 40", scrap.ID, bitten, left)
		}
		if bitten > 10 {
			eaten++
		}
	}
	if eaten < 50 {
		t.Errorf("worms eat of %d scraps only", eaten)
	}
}

func TestATemperatureHoldsFromItsDayOn(t *testing.T) {
	set := func(temp string) float64 {
		return rowsOf(t, strings.Replace(aTrialFile, `"temp_c":25`, `"temp_c":`+temp, 1))[2].Cocoons
	}
	if a, b := set("25"), set("[[0,25]]"); a != b {
		t.Errorf("25 and [[0,25]] differ: %v and %v", a, b)
	}
	if a, b := set("25"), set("[[0,25],[5,6]]"); a <= b {
		t.Errorf("cold from day 5 on there are %v cocoons, always warm %v", b, a)
	}
}

func TestABadTrialNamesTheField(t *testing.T) {
	for _, row := range []struct{ put, instead, field string }{
		{`"species":"eisenia-fetida"`, `"species":"amynthas"`, "species:"},
		{`"species":"eisenia-fetida",`, ``, "species:"},
		{`"area_cm2":78`, `"area_cm2":0`, "area_cm2:"},
		{`"area_cm2":78`, `"area_cm2":"78"`, "area_cm2:"},
		{`"temp_c":25,`, ``, "temp_c:"},
		{`"temp_c":25`, `"temp_c":"warm"`, "temp_c:"},
		{`"temp_c":25`, `"temp_c":[[0,20],[0,25]]`, "temp_c[1]:"},
		{`"temp_c":25`, `"temp_c":[[0,20,3]]`, "temp_c[0]:"},
		{`"temp_c":25`, `"temp_c":[[0,20],[5,null]]`, "temp_c[1]:"},
		{`"temp_c":25`, `"temp_c":[[null,20]]`, "temp_c[0]:"},
		{`"temp_c":25`, `"temp_c":[[5,20],[0,25]]`, "temp_c[1]:"},
		{`"temp_c":25`, `"temp_c":99`, "temp_c:"},
		{`"moisture_pct":78`, `"moisture_pct":180`, "moisture_pct:"},
		{`"start":{"adults":10,"adult_mg":400},`, ``, "start:"},
		{`"adult_mg":400`, `"juvenile_mg":4`, "start.adult_mg:"},
		{`"adults":10`, `"adults":-1`, "start.adults:"},
		{`"adults":10`, `"adults":0`, "start:"},
		{`"adults":10`, `"worms":10`, "start.worms:"},
		{`"adults":10`, `"adults":10,"adults":20`, "start.adults:"},
		{`"days":25`, `"days":25,"days":30`, "days: stands there twice"},
		{`"days":25`, `"Days":25`, "Days: no such field"},
		{`"area_cm2":78`, `"area_cm2":NaN`, "area_cm2:"},
		{`"area_cm2":78`, `"area_cm2":1e999`, "area_cm2:"},
		{`"day":10`, `"day":"10"`, "feed[1].day:"},
		{`"day":10`, `"day":10,"grams":3`, "feed[1].grams:"},
		{`,"food":"potato-peel"`, ``, "feed[1].food: missing"},
		{`"day":8`, `"day":8.5`, "remove[0].day:"},
		{`{"day":8,"g":2.5}`, `[8,2.5]`, "remove[0]:"},
		{`"g":2.5`, `"g":[[[[[[[[[[1]]]]]]]]]]`, "remove[0].g"},
		{`"day":0,`, ``, "feed[0].day:"},
		{`"day":0,`, `"day":26,`, "feed[0].day:"},
		{`"g":20,"food":"potato-peel"`, `"g":-1,"food":"potato-peel"`, "feed[1].g:"},
		{`"food":"potato-peel"`, `"food":"gravel soup"`, "feed[1].food:"},
		{`"g":"all"`, `"g":"some"`, "remove[1].g:"},
		{`"g":2.5`, `"g":null`, "remove[0].g:"},
		{`"remove_cocoons_every_days":10`, `"remove_cocoons_every_days":-1`, "remove_cocoons_every_days:"},
		{`"days":25`, `"days":0`, "days:"},
		{`"days":25`, `"days":2.5`, "days:"},
		{`"report_every_days":10`, `"report_every_days":0`, "report_every_days:"},
	} {
		text := strings.Replace(aTrialFile, row.put, row.instead, 1)
		if text == aTrialFile {
			t.Fatalf("%s is not in the trial", row.put)
		}
		if _, err := simulated(t, text); err == nil || !strings.Contains(err.Error(), row.field) {
			t.Errorf("with %s for %s it says %v, want it to name %q", row.instead, row.put, err, row.field)
		}
	}
}

func TestJumpingWormsGetTheCautionInsteadOfATrial(t *testing.T) {
	for _, name := range []string{"Amynthas", "metaphire", "jumping-worms", "Amynthas agrestis"} {
		out, err := simulated(t, strings.Replace(aTrialFile, "eisenia-fetida", name, 1), "--json")
		if err == nil || out != "" || !strings.Contains(err.Error(), "species:") || !strings.Contains(err.Error(), "permit") || !strings.Contains(err.Error(), "milky ring") {
			t.Errorf("%s: printed %q, said %v; want no numbers, the law and the marks", name, out, err)
		}
	}
}

func TestAFileThatIsNoTrialIsToldApart(t *testing.T) {
	for text, word := range map[string]string{"": "empty", "{": "middle", "[1]": "object", aTrialFile + "x": "more", "plain": "JSON"} {
		if _, err := simulated(t, text); err == nil || !strings.Contains(err.Error(), word) {
			t.Errorf("%.10q: %v, want %q", text, err, word)
		}
	}
	if _, _, err := tell(t, "simulate"); err == nil || !strings.Contains(err.Error(), "--trial") {
		t.Errorf("without a trial: %v", err)
	}
	if _, _, err := tell(t, "simulate", "--trial", "/nowhere/trial.json"); err == nil {
		t.Error("a file that is not there goes through")
	}
}
