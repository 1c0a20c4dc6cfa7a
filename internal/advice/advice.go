package advice

import (
	"cmp"
	"slices"

	"trayside/internal/record"
	"trayside/internal/tray"
)

// Phone is who asks: the device, the member it belongs to, and the language
// that scraps are named in ("en" if it is "").
type Phone struct {
	Device   string
	Member   string
	Language string
}

// Advice answers for one household on one day. It runs each bin through the
// model once, when it is first asked for, so keep it until the record or the
// day changes. It is not for concurrent use. The record must not change while
// it is in use.
type Advice struct {
	h     *record.Household
	day   record.Day
	phone Phone
	trays map[string]*record.Tray
	bins  map[string]*record.Bin
	runs  map[string]*run
	keeps Keeps
	usual []record.Item // the household's usual mix for 100 g

	batches map[string][]record.Batch // by tray, see batchesOf
	yield   *tray.Yield               // see yieldOf
	events  []happening               // see happened
	doubled map[record.Day][]string   // see happened
}

// New returns the advice for a household on a day, as one phone sees it.
func New(h *record.Household, day record.Day, phone Phone) *Advice {
	return Resume(h, day, phone, Keeps{})
}

// Resume returns the advice as New does, going on from what an earlier Advice of
// the same household left in keeps, and leaves there what the next may go on
// from. The numbers are those of New.
func Resume(h *record.Household, day record.Day, phone Phone, keeps Keeps) *Advice {
	a := &Advice{
		h: h, day: day, phone: phone, keeps: keeps,
		trays: make(map[string]*record.Tray, len(h.Trays)),
		bins:  make(map[string]*record.Bin, len(h.Bins)),
		runs:  make(map[string]*run, len(h.Bins)),

		batches: make(map[string][]record.Batch, len(h.Trays)),
	}
	for i := range h.Trays {
		a.trays[h.Trays[i].ID] = &h.Trays[i]
	}
	for i := range h.Bins {
		a.bins[h.Bins[i].ID] = &h.Bins[i]
	}
	keeps.of(a.bins)
	a.usual = a.usualMix()
	return a
}

// open lists the household's bins that are in use, in the record's order.
func (a *Advice) open() []*record.Bin {
	var bins []*record.Bin
	for i := range a.h.Bins {
		if !a.h.Bins[i].Gone {
			bins = append(bins, &a.h.Bins[i])
		}
	}
	return bins
}

// people lists the members who can be said to have done something.
func (a *Advice) people() []Person {
	people := []Person{}
	for _, m := range a.h.Members {
		if !m.Gone {
			people = append(people, Person{ID: m.ID, Name: m.Name, Child: m.Child})
		}
	}
	return people
}

// memberName returns a member's name, also of one who has left, or "".
func (a *Advice) memberName(id string) string {
	if i := slices.IndexFunc(a.h.Members, func(m record.Member) bool { return m.ID == id }); i >= 0 {
		return a.h.Members[i].Name
	}
	return ""
}

// whoName returns who did a thing, and whether it was a guest.
func (a *Advice) whoName(w record.Who) (name string, guest bool) {
	if w.Member == "" && w.Guest != "" {
		return w.Guest, true
	}
	return a.memberName(w.Member), false
}

// loggerName returns whose phone logged a thing, if it was another's.
func (a *Advice) loggerName(w record.Who, logger string) string {
	if logger == "" || logger == w.Member {
		return ""
	}
	return a.memberName(logger)
}

func (a *Advice) binName(id string) string {
	if b := a.bins[id]; b != nil {
		return b.Name
	}
	return ""
}

func (a *Advice) trayName(id string) string {
	if t := a.trays[id]; t != nil {
		return t.Name
	}
	return ""
}

func (a *Advice) mass() string {
	return string(cmp.Or(a.h.Mass, record.MassGrams))
}

func (a *Advice) temp() string {
	return string(cmp.Or(a.h.Temp, record.TempCelsius))
}
