package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"trayside/internal/entries"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/replica"
)

// mill is a household in a file.
const mill = `{"format":"trayside-entries","version":1}
{"kind":"household","name":"Mill Lane"}
{"kind":"bin","name":"Kitchen","species":"eisenia-fetida","feedEvery":3,"coolest":180,"warmest":230}
{"kind":"tray","bin":"Kitchen","name":"Upper","width":350,"depth":350,"height":150}
{"kind":"batch","tray":"Upper","bedded":"2026-08-01","feeding":"2026-08-03","bedding":[{"scrap":"cardboard","g":600}]}
{"kind":"worms","day":"2026-08-03","tray":"Upper","move":"added","mass":500}
{"kind":"feeding","day":"2026-11-10","tray":"Upper","items":[{"scrap":"carrot","g":150},{"scrap":"Coffee grounds","g":50}]}
{"kind":"feeding","day":"2026-11-14","tray":"Upper","items":[{"scrap":"apple-core-peel","g":200}]}
{"kind":"look","day":"2026-11-17","tray":"Upper","leftovers":"none","squeeze":"one-drop","smell":"earthy"}
`

func fileOf(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "entries.jsonl")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// tells runs a command that must succeed and gives what it printed.
func tells(t *testing.T, args ...string) string {
	t.Helper()
	var out, log bytes.Buffer
	if err := run(t.Context(), args, &out, &log); err != nil {
		t.Fatalf("trayside %s: %v\n%s%s", strings.Join(args, " "), err, out.String(), log.String())
	}
	return out.String()
}

func TestEntriesGoInAndComeOutWhetherAServerRunsOrNot(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "data")
	file := fileOf(t, mill)
	p := start(t, "serve", "--data", dir)
	if got := tells(t, "import", file, "--data", dir, "--check"); !strings.Contains(got, "8 entries would come in") {
		t.Errorf("checked: %s", got)
	}
	if got := tells(t, "import", "--data", dir, file); !strings.Contains(got, "8 entries came in, 0 were there") {
		t.Errorf("imported while a server runs: %s", got)
	}
	running := tells(t, "export", "--data", dir)
	if err := p.stop(); err != nil {
		t.Fatal(err)
	}
	if got := tells(t, "export", "--data", dir); got != running {
		t.Errorf("exported with the server stopped\n%s\nwant as while it ran\n%s", got, running)
	}
	if got := tells(t, "import", file, "--data", dir); !strings.Contains(got, "0 entries came in, 8 were there") {
		t.Errorf("imported again: %s", got)
	}
	other := filepath.Join(t.TempDir(), "other")
	if err := os.Mkdir(other, 0o700); err != nil {
		t.Fatal(err)
	}
	tells(t, "import", fileOf(t, running), "--data", other)
	if got := tells(t, "export", "--data", other); got != running {
		t.Errorf("exported from another household\n%s\nwant\n%s", got, running)
	}
	csv := filepath.Join(t.TempDir(), "feedings.csv")
	tells(t, "export", "--data", dir, "--csv", "--out", csv)
	if got := tells(t, "import", csv, "--data", dir); !strings.Contains(got, "0 entries came in, 2 were there") {
		t.Errorf("imported its own feedings: %s", got)
	}
}

func TestABadLineIsToldAndTheRestIsIn(t *testing.T) {
	dir := t.TempDir()
	file := fileOf(t, mill+`{"kind":"feeding","day":"2026-11-18","tray":"Attic","items":[{"scrap":"carrot","g":5}]}`+"\n")
	var out, log bytes.Buffer
	err := run(t.Context(), []string{"import", file, "--data", dir, "--json"}, &out, &log)
	if err == nil || !strings.Contains(err.Error(), "1 bad line") || !strings.Contains(out.String(), `"line":10`) || !strings.Contains(out.String(), "Attic") {
		t.Errorf("import says %v and\n%s\nwant line 10 named", err, out.String())
	}
	rep, err := readReplica(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if h := journal.Read(rep); len(h.Feedings) != 2 || len(h.Looks) != 1 {
		t.Errorf("%d feedings, %d looks came in; want 2, 1", len(h.Feedings), len(h.Looks))
	}
}

func TestHelpTellsTheFormatTruly(t *testing.T) {
	from := strings.Index(entriesHelp, "  {")
	to := strings.Index(entriesHelp, "\n\nKinds")
	r, err := entries.Import([]byte(entriesHelp[from:to]), entries.Scene{Replica: replica.New(journal.Schema()), Device: "d", Now: 1_800_000_000_000, Scrap: scrapCalled})
	if err != nil || len(r.Bad) != 0 || r.Added["feeding"] != 1 {
		t.Errorf("the lines in the help come to %+v, %v; want all of them good", r, err)
	}
	for _, k := range journal.Kinds {
		if !strings.Contains(entriesHelp, k.Name) {
			t.Errorf("the help does not name the kind %s", k.Name)
		}
	}
}

// lately is the mill's household with a week of scraps that end today.
func lately(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	b.WriteString(mill)
	for ago := 6; ago >= 0; ago-- {
		day := time.Now().AddDate(0, 0, -ago).Format(time.DateOnly)
		fmt.Fprintf(&b, `{"kind":"feeding","day":%q,"tray":"Upper","items":[{"scrap":"apple-core-peel","g":200}],"note":%q}`+"\n", day, day)
	}
	return fileOf(t, b.String())
}

func TestPlanAndMixTakeFromTheRecordWhatNobodySaid(t *testing.T) {
	file := lately(t)
	for _, tc := range []struct{ name, got, want string }{
		{"plan", tells(t, "plan", "--entries", file, "--json"), tells(t, "plan", "--scraps-week", recorded(t, file), "--coolest", "18", "--warmest", "23", "--json")},
		{"plan with a flag over the record", tells(t, "plan", "--entries", file, "--scraps-week", "900", "--json"), tells(t, "plan", "--scraps-week", "900", "--coolest", "18", "--warmest", "23", "--json")},
	} {
		if tc.got != tc.want {
			t.Errorf("%s says\n%s\nwant\n%s", tc.name, tc.got, tc.want)
		}
	}
	if got := tells(t, "mix", "--entries", file); !strings.Contains(got, "g of scraps with") || !strings.Contains(got, "Add ") {
		t.Errorf("mix says %s", got)
	}
	var out, log bytes.Buffer
	if err := run(t.Context(), []string{"mix", "--entries", fileOf(t, mill[:strings.Index(mill, "{\"kind\":\"feeding\"")])}, &out, &log); err == nil || !strings.Contains(err.Error(), "--scraps") {
		t.Errorf("mix of a record without scraps: %v; want to be asked for them", err)
	}
}

// recorded is the mean week of a file, g.
func recorded(t *testing.T, file string) string {
	t.Helper()
	k, err := source{entries: file}.kitchen(t.Context(), "plan", io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	return strconv.FormatInt(int64(record.Total(k.Week)), 10)
}

func TestTheFileMayStandBeforeAmongOrAfterTheFlags(t *testing.T) {
	for _, c := range []struct{ args, want, says string }{
		{"log.csv --data d --check", "log.csv", ""},
		{"--data d log.csv --check", "log.csv", ""},
		{"--check --data d log.csv", "log.csv", ""},
		{"--data d --check", "", ""},
		{"--data d log.csv --check more.csv", "", `"more.csv" is one file too many`},
		{"log.csv --data d more.csv", "", `"more.csv" is one file too many`},
		{"--data d log.csv --chekc", "", "chekc"},
	} {
		f := newFlags("import", "", io.Discard)
		data, check := f.String("data", "", ""), f.Bool("check", false, "")
		got, err := parseFile(f, strings.Fields(c.args))
		if got != c.want || (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: file %q (%v), want %q %s", c.args, got, err, c.want, c.says)
		}
		if err == nil && (*data != "d" || *check != strings.Contains(c.args, "--check")) {
			t.Errorf("%s: data %q, check %v", c.args, *data, *check)
		}
	}
}
