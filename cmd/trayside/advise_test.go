package main

import (
	"encoding/json"
	"strings"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/demo"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/replica"
)

func TestAdviseSaysWhatMayGoInWithItsArithmetic(t *testing.T) {
	got := tells(t, "advise", "--entries", fileOf(t, mill), "--day", "2026-11-20")
	for _, want := range []string{"Mill Lane, Friday 20 November 2026", "Into Upper today:", "of their weight eaten a day", "may go in today", "Should be gone by", "castings"} {
		if !strings.Contains(got, want) {
			t.Errorf("advise says\n%s\nwithout %q", got, want)
		}
	}
}

func TestAdviseNamesAHoldAndItsRelease(t *testing.T) {
	sour := mill + `{"kind":"look","day":"2026-11-19","tray":"Upper","smell":"sour"}` + "\n"
	got := tells(t, "advise", "--entries", fileOf(t, sour), "--day", "2026-11-20", "--bin", "kitchen")
	if !strings.Contains(got, "Nothing goes into Upper: it smells sour. Wait until it smells of earth again") {
		t.Errorf("advise says\n%s", got)
	}
}

func TestANameCannotGiveTheTerminalOrders(t *testing.T) {
	odd := strings.Replace(mill, `"name":"Kitchen"`, `"name":"Kit\u001b[2J\u009b31m\u202echen"`, 1)
	odd = strings.ReplaceAll(odd, `"bin":"Kitchen"`, `"bin":"Kit\u001b[2J\u009b31m\u202echen"`)
	got := tells(t, "advise", "--entries", fileOf(t, odd), "--day", "2026-11-20")
	if !strings.Contains(got, "Kit·[2J·31m·chen\n") || strings.ContainsAny(got, "\u001b\u009b\u202e") {
		t.Errorf("advise says\n%q", got)
	}
}

func TestAdviseSaysThatNobodyWroteDownWorms(t *testing.T) {
	var plain strings.Builder
	for line := range strings.Lines(mill) {
		if !strings.Contains(line, `"kind":"worms"`) {
			plain.WriteString(line)
		}
	}
	got := tells(t, "advise", "--entries", fileOf(t, plain.String()), "--day", "2026-11-20")
	if !strings.Contains(got, "Nobody has written down worms") || strings.Contains(got, "warmer place") || strings.Contains(got, "rule of thumb") {
		t.Errorf("advise says\n%s", got)
	}
	_, line, _ := strings.Cut(got, "{")
	line, _, _ = strings.Cut(line, "\n")
	if got := tells(t, "advise", "--entries", fileOf(t, plain.String()+"{"+line+"\n"), "--day", "2026-11-20"); !strings.Contains(got, "may go in today") {
		t.Errorf("with the line that it names, {%s, it says\n%s", line, got)
	}
}

func TestAdviseTellsABinWhoseWormsDiedFromOneThatNeverHadAny(t *testing.T) {
	dead := mill + `{"kind":"worms","day":"2026-11-18","tray":"Upper","move":"lost","share":100}` + "\n"
	got := tells(t, "advise", "--entries", fileOf(t, dead), "--day", "2026-11-20")
	if !strings.Contains(got, "hardly a worm is left") || strings.Contains(got, "Nobody has written down worms") {
		t.Errorf("advise says\n%s", got)
	}
}

// What a squeeze should give is reckoned, and said to be; what brings a dry or a wet
// bed right comes with it, and a tray is never fuller than its rim.
func TestAdviseSaysHowATraySeemsAndWhatBringsItRight(t *testing.T) {
	for _, row := range []struct{ line, want string }{
		{`{"kind":"look","day":"2026-11-20","tray":"Upper","squeeze":"crumbles"}`, "ml of water bring it right"},
		{`{"kind":"look","day":"2026-11-20","tray":"Upper","squeeze":"runs"}`, "of dry paper bring it right"},
		{`{"kind":"feeding","day":"2026-11-20","tray":"Upper","items":[{"scrap":"carrot","g":30000}]}`, "more than its 150 mm"},
		{``, "of 150 mm full; a squeeze should give: a drop or two"},
	} {
		got := tells(t, "advise", "--entries", fileOf(t, mill+row.line+"\n"), "--day", "2026-11-20")
		if !strings.Contains(got, row.want) {
			t.Errorf("with %s advise says\n%s\nwithout %q", row.line, got, row.want)
		}
	}
}

// More lies there than the log explains: advise asks, for people and for scripts,
// and asks what is left instead once it has its answer.
func TestAdviseAsksWhoFedWithoutWritingItDown(t *testing.T) {
	odd := mill + `{"kind":"look","day":"2026-11-20","tray":"Upper","leftovers":"most","squeeze":"one-drop"%s}` + "\n"
	asked := func(answer string) (string, []advice.Ask) {
		file := fileOf(t, strings.Replace(odd, "%s", answer, 1))
		var a advised
		if err := json.Unmarshal([]byte(tells(t, "advise", "--entries", file, "--day", "2026-11-21", "--json")), &a); err != nil {
			t.Fatal(err)
		}
		return tells(t, "advise", "--entries", file, "--day", "2026-11-21"), a.Asks
	}
	if text, asks := asked(""); len(asks) != 1 || asks[0].Kind != "unlogged" || !strings.Contains(text, "feed Upper without writing it down") {
		t.Errorf("asks %+v and says\n%s", asks, text)
	}
	if text, asks := asked(`,"unlogged":"no"`); len(asks) != 1 || asks[0].Kind != "leftovers" || strings.Contains(text, "without writing it down") {
		t.Errorf("with the answer it asks %+v and says\n%s", asks, text)
	}
}

func TestAdviseForScriptsGivesTheViews(t *testing.T) {
	var a advised
	if err := json.Unmarshal([]byte(tells(t, "advise", "--entries", fileOf(t, mill), "--day", "2026-11-20", "--json")), &a); err != nil {
		t.Fatal(err)
	}
	if len(a.Today.Bins) != 1 || a.Today.Bins[0].Ration.Grams == 0 || len(a.Batches) != 1 || !a.Batches[0].Found {
		t.Errorf("views %+v; want one bin with a ration and its batch", a)
	}
}

func TestAdviseAsksForARecordItCanRead(t *testing.T) {
	for _, args := range [][]string{
		{"advise"}, {"advise", "--entries", "a", "--data", "b"}, {"advise", "--entries", fileOf(t, mill), "--bin", "Attic"},
		{"advise", "--entries", fileOf(t, mill), "--day", "tomorrow"}, {"advise", "--data", "/nowhere/at/all"},
	} {
		var out, log strings.Builder
		if err := run(t.Context(), args, &out, &log); err == nil || out.Len() > 0 {
			t.Errorf("%v: %v, printed %q; want an error that says what is wrong", args, err, out.String())
		}
	}
}

// The demo household's year has every ordinary case in it.
func TestEveryCodeThatAdviceGivesHasWords(t *testing.T) {
	today, err := record.DayOf("2026-11-25")
	if err != nil {
		t.Fatal(err)
	}
	rep := replica.New(journal.Schema())
	for _, op := range demo.Household(1, today) {
		rep.Add(op)
	}
	h := journal.Read(rep)
	has := func(words map[string]string, code string) {
		if code != "" && words[code] == "" {
			t.Errorf("no words for %q", code)
		}
	}
	for day := today - 110; day <= today+60; day += 3 {
		v := advice.New(h, day, advice.Phone{}).Today()
		for _, b := range v.Bins {
			has(answerWords, b.Ration.Answer)
			has(sureWords, b.Ration.Sure)
			has(bindWords, b.Ration.Binds)
			has(moveWords, b.Ration.Move)
			for _, row := range b.Ration.Reasons {
				has(rowWords, row.Code)
			}
			if hold := b.Ration.Hold; hold != nil {
				has(holdWords, hold.Cause)
				has(releaseWords, hold.Until)
			}
		}
		for _, j := range v.Jobs {
			has(jobWords, j.Kind)
		}
	}
}
