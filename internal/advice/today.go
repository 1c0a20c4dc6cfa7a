package advice

import (
	"cmp"

	"trayside/internal/order"
	"trayside/internal/ration"
)

// Today returns the first screen.
func (a *Advice) Today() TodayView {
	bowls, left := a.inTurn()
	v := TodayView{
		Day: a.day.String(), Home: a.h.Name, Mass: a.mass(), Temp: a.temp(),
		Bins: []BinView{}, Bowls: bowls, Freezer: a.frozen(), Thaw: a.thaw(left), Jobs: []Job{},
		Asides: len(a.h.Aside) + len(a.h.Asks), Unread: a.h.Unread, Members: a.people(), Told: a.told(),
	}
	for _, r := range a.urgent() {
		b := BinView{ID: r.bin.ID, Name: r.bin.Name, Tray: r.takes, Stack: a.tiers(r), Base: a.base(r), Double: a.double(r.bin.ID)}
		if r.takes != "" {
			b.Ration = a.rationView(r, r.takes, a.need(r, r.takes))
		} else {
			b.Ration = RationView{Answer: ration.Freeze, Sure: ration.Guess, Reasons: []Reason{}, Moved: []Moved{}, NextDay: a.day.String(), BedTemp: int64(r.est.Bed), BedSeen: r.est.BedSeen}
		}
		v.Bins = append(v.Bins, b)
		v.Jobs = append(v.Jobs, a.jobs(r)...)
	}
	return v
}

// urgent returns the bins by urgency: those where feeding stops first, then by
// the days since they were fed, then by name.
func (a *Advice) urgent() []*run {
	type ranked struct {
		run  *run
		held int
		days int
	}
	var list []ranked
	for _, b := range a.open() {
		r := a.run(b)
		x := ranked{run: r, held: 1}
		if r.takes != "" && a.need(r, r.takes).Hold != nil {
			x.held = 0
		}
		for i := range a.h.Feedings {
			if f := &a.h.Feedings[i]; f.Bin == b.ID && f.Day <= a.day {
				x.days = int(f.Day - a.day)
			}
		}
		list = append(list, x)
	}
	order.By(list, func(x, y ranked) int {
		return cmp.Or(cmp.Compare(x.held, y.held), cmp.Compare(x.days, y.days),
			cmp.Compare(x.run.bin.Name, y.run.bin.Name), cmp.Compare(x.run.bin.ID, y.run.bin.ID))
	})
	runs := make([]*run, len(list))
	for i := range list {
		runs[i] = list[i].run
	}
	return runs
}
