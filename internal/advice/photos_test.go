package advice_test

import (
	"slices"
	"strings"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
)

func TestAPictureIsGoneOnlyWhenNoEntryNamesItAnyMore(t *testing.T) {
	hash := func(digit string) string { return strings.Repeat(digit, 64) }
	day, err := record.DayOf("2026-11-25")
	if err != nil {
		t.Fatal(err)
	}
	picture := func(id, of, digit string) record.Photo {
		return record.Photo{ID: "photo/" + id, Of: of, Hash: hash(digit), Width: 1200, Height: 900, Day: day, Who: record.Who{Member: "member/a"}}
	}
	h := &record.Household{
		Members: []record.Member{{ID: "member/a", Name: "Ada"}},
		Photos:  []record.Photo{picture("1", "look/1", "a"), picture("2", "look/2", "b")},
		Undone: record.Undone{Photos: []record.Photo{
			picture("3", "look/1", "c"), picture("4", "look/1", "b"), picture("5", "look/2", "c"),
		}},
	}
	a := advice.New(h, day, advice.Phone{})
	all := a.Photos("")
	if got := []string{all.Photos[0].Entity, all.Photos[1].Entity}; len(all.Photos) != 2 || !slices.Equal(got, []string{"photo/2", "photo/1"}) {
		t.Errorf("all pictures: %v, want the newest first", all.Photos)
	}
	if first := all.Photos[1]; first.Who != "Ada" || first.Hash != hash("a") || first.Of != "look/1" || first.Day != "2026-11-25" {
		t.Errorf("picture: %+v", first)
	}
	// b was removed from one entry and still belongs to another; c is named once.
	if want := []string{hash("c")}; !slices.Equal(all.Gone, want) {
		t.Errorf("gone: %v, want %v", all.Gone, want)
	}
	of := a.Photos("look/1")
	if len(of.Photos) != 1 || of.Photos[0].Entity != "photo/1" || len(of.Gone) != 1 {
		t.Errorf("pictures of look/1: %+v", of)
	}
	if none := a.Photos("look/9"); none.Photos == nil || len(none.Photos) != 0 {
		t.Errorf("pictures of an entry without any: %+v, want an empty list", none)
	}
}
