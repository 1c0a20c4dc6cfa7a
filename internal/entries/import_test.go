package entries_test

import (
	"strings"
	"testing"

	"trayside/internal/demo"
	"trayside/internal/entries"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/replica"
)

const plainHousehold = `{"format":"trayside-entries","version":1}
{"kind":"household","name":"Mill Lane","zone":"Europe/Berlin"}
{"kind":"member","name":"Ana"}
{"kind":"bin","name":"Kitchen","species":"eisenia-fetida","feedEvery":3,"coolest":180,"warmest":230}
{"kind":"tray","bin":"Kitchen","name":"Upper","width":350,"depth":350,"height":150}
{"kind":"tray","bin":"Kitchen","name":"Lower","width":350,"depth":350,"height":150}
{"kind":"stack","bin":"kitchen","trays":["Lower","Upper"]}
`

func imported(t *testing.T, files ...string) (*record.Household, entries.Result) {
	t.Helper()
	rep := replica.New(journal.Schema())
	var last entries.Result
	for _, f := range files {
		last = into(t, rep, []byte(f))
	}
	return journal.Read(rep), last
}

func TestLinesWrittenByHandNameThingsAsPeopleDo(t *testing.T) {
	h, r := imported(t, plainHousehold, `
{"kind":"worms","day":"2026-04-01","tray":"lower","move":"added","mass":500}
{"kind":"feeding","day":"2026-04-04","tray":"Upper","member":"ana","items":[{"scrap":"carrot","g":120}]}
{"kind":"feeding","day":"2026-04-04","tray":"Upper","member":"ana","items":[{"scrap":"carrot","g":120}]}
{"kind":"look","at":"2026-04-11T08:00:00+02:00","tray":"Upper","leftovers":"none","visitors":["mites"],"liquid":0}
`)
	if len(r.Bad) != 0 || r.Added["feeding"] != 2 {
		t.Fatalf("result %+v; want everything in, both feedings alike included", r)
	}
	if len(h.Bins) != 1 || len(h.Trays) != 2 || strings.Join(h.Bins[0].Stack, " ") != h.Trays[1].ID+" "+h.Trays[0].ID {
		t.Errorf("bins %+v; want Kitchen with Lower below Upper", h.Bins)
	}
	if f := h.Feedings[0]; f.Bin != h.Bins[0].ID || f.Tray != h.Trays[0].ID || f.Who.Member != h.Members[0].ID || record.Total(f.Items) != 120 {
		t.Errorf("feeding %+v; want Ana's into Upper", f)
	}
	if w := h.Worms[0]; w.Bin != h.Bins[0].ID || w.Mass != 500 {
		t.Errorf("worms %+v; want 500 g in Kitchen", w)
	}
	if l := h.Looks[0]; l.Day.String() != "2026-04-11" || len(l.Visitors) != 1 || l.Liquid == nil || *l.Liquid != 0 {
		t.Errorf("look %+v; want the day of its time, and nothing drained", l)
	}
}

func TestABadLineIsNamedAndTheRestComesIn(t *testing.T) {
	good := `{"kind":"feeding","day":"2026-04-04","tray":"Upper","items":[{"scrap":"carrot","g":120}]}`
	for _, tc := range []struct{ name, line, why string }{
		{"half a line", `{"kind":"feeding"`, "JSON object"},
		{"no kind", `{"day":"2026-04-04"}`, "no kind of entry"},
		{"a kind of another age", `{"kind":"photograph"}`, "no kind of entry"},
		{"a field of another age", `{"kind":"feeding","day":"2026-04-04","tray":"Upper","colour":"red"}`, `no "colour" in feeding; there are `},
		{"no day", `{"kind":"feeding","tray":"Upper"}`, "no day"},
		{"a day that is none", `{"kind":"feeding","day":"4.4.2026","tray":"Upper"}`, "not a date"},
		{"a time without offset", `{"kind":"feeding","at":"2026-04-04T08:00:00","tray":"Upper"}`, "no time like"},
		{"a year of two digits", `{"kind":"feeding","day":"0026-04-04","tray":"Upper"}`, "check the year"},
		{"a batch bedded in such a year", `{"kind":"batch","tray":"Upper","bedded":"0026-04-04"}`, "check the year"},
		{"no tray", `{"kind":"feeding","day":"2026-04-04"}`, "needs its tray"},
		{"a tray of nobody", `{"kind":"feeding","day":"2026-04-04","tray":"Attic"}`, `no tray "Attic"`},
		{"a tray by an id of nobody", `{"kind":"feeding","day":"2026-04-04","tray":"tray/77"}`, `no tray "tray/77"`},
		{"less than nothing", `{"kind":"feeding","day":"2026-04-04","tray":"Upper","items":[{"scrap":"carrot","g":-1}]}`, "out of range"},
		{"more than anybody carries", `{"kind":"feeding","day":"2026-04-04","tray":"Upper","items":[{"scrap":"carrot","g":900000}]}`, "check the unit"},
		{"a bed of ninety degrees", `{"kind":"look","day":"2026-04-04","tray":"Upper","temp":900}`, "check the unit"},
		{"a word nobody knows", `{"kind":"look","day":"2026-04-04","tray":"Upper","leftovers":"plenty"}`, "leftovers is none of"},
		{"a scrap nobody knows", `{"kind":"feeding","day":"2026-04-04","tray":"Upper","items":[{"scrap":"unicorn","g":5}]}`, `no scrap "unicorn"`},
		{"a bin of jumping worms", `{"kind":"bin","name":"Shed","species":"Amynthas agrestis"}`, "local rules decide"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			rep := replica.New(journal.Schema())
			scrap := func(s string) (string, bool) { return s, s != "unicorn" }
			r, err := entries.Import([]byte(plainHousehold+tc.line+"\n"+good), entries.Scene{Replica: rep, Device: "d2", Now: 1_800_000_000_000, Scrap: scrap})
			if err != nil {
				t.Fatal(err)
			}
			if len(r.Bad) != 1 || r.Bad[0].Line != 8 || !strings.Contains(r.Bad[0].Why, tc.why) {
				t.Errorf("bad lines %+v; want line 8: … %s …", r.Bad, tc.why)
			}
			if r.Added["feeding"] != 1 {
				t.Errorf("added %v; want the good line", r.Added)
			}
		})
	}
}

func TestTwoTraysOfOneNameAreToldByTheirBin(t *testing.T) {
	twins := plainHousehold + `{"kind":"bin","name":"Shed"}
{"kind":"tray","bin":"Shed","name":"Upper","width":300,"depth":300,"height":150}
`
	_, r := imported(t, twins, `{"kind":"look","day":"2026-04-04","tray":"Upper","smell":"earthy"}
{"kind":"look","day":"2026-04-04","bin":"Shed","tray":"Upper","smell":"earthy"}`)
	if len(r.Bad) != 1 || r.Bad[0].Line != 1 || !strings.Contains(r.Bad[0].Why, "bin") || r.Added["look"] != 1 {
		t.Errorf("result %+v; want the first line refused for its two trays", r)
	}
}

func TestAFileOfALaterVersionIsLeftAlone(t *testing.T) {
	rep := replica.New(journal.Schema())
	for _, head := range []string{`{"format":"trayside-entries","version":2}`, `{"format":"something else","version":1}`, "not,a,table\n1,2,3", ""} {
		if _, err := entries.Import([]byte(head), entries.Scene{Replica: rep, Device: "d2", Now: 1}); err == nil {
			t.Errorf("%q was read", head)
		}
	}
}

func TestAFileInAnotherEncodingIsLeftAloneRatherThanItsLetters(t *testing.T) {
	rep := replica.New(journal.Schema())
	for name, tt := range map[string]struct{ file, says string }{
		"Latin-1 in a table":       {"day,tray,grams,note\n2026-04-04,Upper,100,plain\n2026-04-05,Upper,100,Gem\xfcse\n", "line 3"},
		"Latin-1 in lines":         {"{\"kind\":\"bin\",\"name\":\"K\xfcche\"}\n", "line 1"},
		"UTF-16, as some save CSV": {"\xff\xfed\x00a\x00y\x00\n\x00", "line 1"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := entries.Import([]byte(tt.file), entries.Scene{Replica: rep, Device: "d2", Now: 1})
			if err == nil || !strings.Contains(err.Error(), tt.says) || !strings.Contains(err.Error(), "save the file as UTF-8") {
				t.Errorf("error %v, want one that names %s and UTF-8", err, tt.says)
			}
		})
	}
}

func TestASpreadsheetComesInAndItsFormulasStayText(t *testing.T) {
	sheet := "\xef\xbb\xbfDay;Tray;Grams;Scrap;By;Note;Weather;About\r\n" +
		"2026-04-04;Upper;6oz;;Ana;;rain;\r\n" +
		"2026-04-05;Upper;;carrot;Zoe;'=1+1;;yes\r\n" +
		"2026-04-06;Attic;100;;;;;\r\n" +
		"2026-04-07;Upper;much;;;;;\r\n"
	h, r := imported(t, plainHousehold, sheet)
	if len(r.Bad) != 3 || r.Bad[0].Line != 1 || r.Bad[1].Line != 4 || r.Bad[2].Line != 5 {
		t.Fatalf("bad rows %+v; want the unknown column, the attic and \"much\"", r.Bad)
	}
	if len(h.Feedings) != 2 || record.Total(h.Feedings[0].Items) != 170 || h.Feedings[0].Who.Member != h.Members[0].ID || h.Feedings[0].Items[0].Scrap != "kitchen-mixed" {
		t.Errorf("feedings %+v; want 6 oz of mixed scraps by Ana", h.Feedings)
	}
	if f := h.Feedings[1]; f.How != record.Unweighed || f.Note != "=1+1" || f.Who.Guest != "Zoe" || !f.About || h.Feedings[0].About {
		t.Errorf("feeding %+v; want one not weighed, by a guest, with its note as written and a day that is about right", f)
	}
	if csv := string(entries.ExportFeedings(h)); !strings.Contains(csv, `"'=1+1"`) || !strings.HasSuffix(csv, "\r\n") {
		t.Errorf("exported\n%s\nwant the formula guarded, and CRLF", csv)
	}
}

func TestAPhonesOwnFileComesInAsItIs(t *testing.T) {
	today, err := record.DayOf("2026-11-25")
	if err != nil {
		t.Fatal(err)
	}
	var file strings.Builder
	phones := replica.New(journal.Schema())
	file.WriteString(`{"op":"{}","key":"k","sig":"s"}` + "\n")
	for _, op := range demo.Household(1, today) {
		phones.Add(op)
		file.Write(op.Bytes)
		file.WriteByte('\n')
	}
	file.WriteString(`{"v":1,"t":5,"ent":"look/1"}` + "\n")

	rep := replica.New(journal.Schema())
	r := into(t, rep, []byte(file.String()))
	if len(r.Bad) != 1 || r.Bad[0].Line != phones.Len()+2 || !strings.Contains(r.Bad[0].Why, "by is missing") {
		t.Errorf("bad lines %+v, want the last, without who", r.Bad)
	}
	if string(rep.Snapshot()) != string(phones.Snapshot()) {
		t.Errorf("%d operations came in that say something else than the phone's %d", rep.Len(), phones.Len())
	}
	if again := into(t, rep, []byte(file.String())); len(again.Ops) != 0 || again.Already != phones.Len() {
		t.Errorf("imported again: %d operations, %d there already; want none, %d", len(again.Ops), again.Already, phones.Len())
	}
}
