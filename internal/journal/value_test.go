package journal

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"trayside/internal/record"
	"trayside/internal/units"
)

// The quick readers must agree with encoding/json on whatever it can write.

func TestAmountsReadAsEncodingJSONReadsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := make([]record.Item, rapid.IntRange(0, 5).Draw(t, "items"))
		for i := range want {
			want[i] = record.Item{
				Scrap: rapid.String().Draw(t, "scrap"), Class: rapid.String().Draw(t, "class"), Name: rapid.String().Draw(t, "name"),
				Grams: units.Grams(rapid.Int64Range(-limitInt, limitInt).Draw(t, "g")),
				Cut:   rapid.Bool().Draw(t, "cut"), Frozen: rapid.Bool().Draw(t, "frozen"),
			}
		}
		raw, err := json.Marshal(want)
		if err != nil {
			t.Fatal(err)
		}
		var plain []record.Item // what JSON makes of text that is not UTF-8
		if err := json.Unmarshal(raw, &plain); err != nil {
			t.Fatal(err)
		}
		got, ok := amounts(raw, intern{})
		if !ok || len(got) != len(plain) || len(got) > 0 && !reflect.DeepEqual(got, plain) {
			t.Fatalf("amounts(%s) = %v, %v; want %v", raw, got, ok, plain)
		}
	})
}

func TestNamesReadAsEncodingJSONReadsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		raw, err := json.Marshal(rapid.SliceOf(rapid.String()).Draw(t, "names"))
		if err != nil {
			t.Fatal(err)
		}
		var want []string
		if err := json.Unmarshal(raw, &want); err != nil {
			t.Fatal(err)
		}
		if got, ok := texts(raw); !ok || len(got) != len(want) || len(got) > 0 && !reflect.DeepEqual(got, want) {
			t.Fatalf("texts(%s) = %q, %v; want %q", raw, got, ok, want)
		}
	})
}

func TestDaysReadAsTheTimePackageReadsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(
			rapid.StringMatching(`[0-9]{4}-[0-9]{2}-[0-9]{2}`), rapid.StringMatching(`20[0-9]{2}-(0[1-9]|1[0-2])-[0-3][0-9]`), rapid.String(),
		).Draw(t, "day")
		want, err := time.Parse(time.DateOnly, s)
		got, ok := parseDay(s)
		if ok != (err == nil) || ok && int64(got) != want.Unix()/86400 && want.Unix() >= 0 {
			t.Fatalf("parseDay(%q) = %v, %v; want %v, %v", s, got, ok, want, err)
		}
	})
}

func TestShapesOfValues(t *testing.T) {
	for _, tc := range []struct {
		kind, field, value string
		good               bool
	}{
		{KindBowl, "name", `"blue bowl"`, true},
		{KindBowl, "name", `7`, false},
		{KindBowl, "items", `[{"scrap":"carrot","g":5,"later":true}]`, true}, // a member of a newer app
		{KindBowl, "items", `[ {"g": 5, "scrap": "carrot"} ]`, true},
		{KindBowl, "items", `[{"scrap":"carrot","g":-5}]`, false},
		{KindBowl, "items", `[{"scrap":"carrot","g":5.5}]`, false},
		{KindBowl, "items", `[null]`, false},
		{KindBowl, "items", `{}`, false},
		{KindFreezing, "items", `[{"scrap":"carrot","g":-5}]`, true}, // taken out
		{KindBin, "feedEvery", `3`, true},
		{KindBin, "feedEvery", `3.0`, false},
		{KindBin, "feedEvery", `-3`, false},
		{KindBin, "feedEvery", `1e3`, false},
		{KindBin, "coolest", `-50`, true},
		{KindBin, "species", `"mealworm"`, false},
		{KindBin, "started", `"2026-02-29"`, false},
		{KindBin, "started", `"2028-02-29"`, true},
		{KindBin, "started", `""`, true}, // cleared
		{KindMember, "child", `"yes"`, false},
		{KindTray, "bin", `"bin/1"`, true},
		{KindTray, "bin", `"tray/1"`, false},
		{KindTray, "bin", `"bin/"`, false},
		{KindStack, "trays", `["tray/1","tray/2"]`, true},
		{KindStack, "trays", `["bin/1"]`, false},
		{KindStack, "trays", `null`, false},
		{KindLook, "visitors", `["mites","dead-worms"]`, true},
		{KindLook, "visitors", `[]`, true},
		{KindLook, "visitors", `["mice"]`, false},
		{KindLook, "visitors", `"mites"`, false},
		{KindLook, "signs", `["sour-smell","of-a-newer-app"]`, true},
		{KindLook, "signs", `[""]`, false},
		{KindLook, "signs", `["` + strings.Repeat("x", maxMark+1) + `"]`, false},
		{KindLook, "liquid", `0`, true},
		{KindLook, "unlogged", `"maybe"`, false},
		{KindHarvest, "batch", `"tray/1"`, false},
		{KindHarvest, "method", `"light"`, true},
		{KindRule, "verdict", `"ok"`, false},
	} {
		err := schema{}.Check(tc.kind, tc.field, json.RawMessage(tc.value))
		if (err == nil) != tc.good {
			t.Errorf("%s.%s = %s: %v; want it good: %v", tc.kind, tc.field, tc.value, err, tc.good)
		}
	}
}

func TestOnlyKeepersPushWhatTheHouseholdIsMadeOf(t *testing.T) {
	for kind, want := range map[string]bool{
		KindHousehold: true, KindMember: true, KindBin: true, KindTray: true, KindLabel: true, KindStack: true, KindBatch: true, KindWorms: true, KindRule: true,
		KindFeeding: false, KindLook: false, KindBowl: false, KindFreezing: false, KindDiscard: false, KindVessel: false,
		KindSample: false, KindHarvest: false, KindPhoto: false, "of-a-newer-app": false,
	} {
		if got := KeeperOnly(kind); got != want {
			t.Errorf("KeeperOnly(%s) = %v; want %v", kind, got, want)
		}
	}
}
