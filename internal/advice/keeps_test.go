package advice_test

import (
	"bytes"
	"reflect"
	"slices"
	"testing"

	"trayside/internal/advice"
	"trayside/internal/record"
)

// workedOut is a household of a year, and how far its bins have been worked out.
func workedOut(t *testing.T) (*record.Household, advice.Keeps) {
	t.Helper()
	h := household()
	h.Batches[0].Bedded -= 200
	h.Worms[0].Day -= 200
	h.Batches[2].Bedded -= 200
	h.Worms[1].Day -= 200
	sortRecord(h)
	keeps := advice.Keeps{}
	advice.Resume(h, today, advice.Phone{}, keeps).Today()
	if len(keeps) != 2 {
		t.Fatalf("%d bins are kept; want both", len(keeps))
	}
	return h, keeps
}

func TestKeepsThatWentThroughBytesGiveTheSameViews(t *testing.T) {
	h, keeps := workedOut(t)
	b := keeps.Bytes()
	if !bytes.Equal(b, keeps.Clone().Bytes()) {
		t.Error("the same states give other bytes")
	}
	back, err := advice.ReadKeeps(b)
	if err != nil {
		t.Fatal(err)
	}
	before := back.Clone()
	got := advice.Resume(h, today+2, advice.Phone{}, back).Today()
	if want := advice.New(h, today+2, advice.Phone{}).Today(); !reflect.DeepEqual(got, want) {
		t.Errorf("two days later: %+v from bytes, %+v from the beginning", got.Bins, want.Bins)
	}
	if !back.Same(before) {
		t.Error("two days on, a bin was worked out anew")
	}
	advice.Resume(h, today+20, advice.Phone{}, back).Today()
	if back.Same(before) {
		t.Error("twenty days on, the states have not moved on")
	}
}

func TestAnyDamageToKeepsIsSeen(t *testing.T) {
	_, keeps := workedOut(t)
	whole := keeps.Bytes()
	for at := 0; at < len(whole); at += 1 + at/50 {
		b := slices.Clone(whole)
		b[at] ^= 1 << (at % 8)
		if _, err := advice.ReadKeeps(b); err == nil {
			t.Errorf("byte %d of %d was changed and nobody saw", at, len(whole))
		}
		if _, err := advice.ReadKeeps(whole[:at]); err == nil {
			t.Errorf("%d of %d bytes were read", at, len(whole))
		}
	}
	none, err := advice.ReadKeeps(advice.Keeps{}.Bytes())
	if err != nil || len(none) != 0 {
		t.Errorf("no states: %v, %v", none, err)
	}
}

func TestWhatIsKeptOfARemovedBinIsDropped(t *testing.T) {
	h, keeps := workedOut(t)
	h.Bins[1].Gone = true
	advice.Resume(h, today, advice.Phone{}, keeps)
	if len(keeps) != 1 || keeps[h.Bins[0].ID] == nil {
		t.Errorf("%d bins are kept; want the one that is left", len(keeps))
	}
}

// What a screen asks about an earlier record leaves the present one's alone.
func TestAskingWhatAnEntryTaughtMovesNothingThatIsKept(t *testing.T) {
	h, keeps := workedOut(t)
	old := record.Look{ID: "look/old", Bin: kitchen, Tray: lower, Leftovers: record.LeftNone, Day: today - 100, At: clock(today-100, "09:00")}
	h.Looks = []record.Look{old}
	a := advice.Resume(h, today, advice.Phone{Device: phoneA, Member: ana}, keeps)
	a.Today()
	before := keeps.Clone()
	a.Taught(upper)
	if !keeps.Same(before) {
		t.Error("the states of the record without the look took the place of those with it")
	}
}
