package advice

import (
	"slices"

	"trayside/internal/record"
)

// Told is a child's meal that was more than was advised. It was taken as it is;
// the keepers are told.
type Told struct {
	Feed   FeedLine `json:"feed"`
	Name   string   `json:"name"`   // of the tray
	Ration int64    `json:"ration"` // g that were advised
}

// toldDays is how long Today tells of such a meal: today and yesterday.
const toldDays = 2

// told lists children's meals of the last days that were more than advised, the
// newest first. The advice is the one before the meal of that day.
func (a *Advice) told() []Told {
	list := []Told{}
	for i := len(a.h.Feedings) - 1; i >= 0 && a.h.Feedings[i].Day > a.day-toldDays; i-- {
		f := &a.h.Feedings[i]
		if f.Day > a.day || !a.child(f.Who.Member) {
			continue
		}
		if bin := a.bins[f.Bin]; bin == nil || bin.Gone {
			continue
		}
		line := a.feedLine(f)
		if advised := a.advisedBefore(f); line.Grams > advised {
			list = append(list, Told{Feed: line, Name: a.trayName(f.Tray), Ration: advised})
		}
	}
	return list
}

func (a *Advice) child(member string) bool {
	return slices.ContainsFunc(a.h.Members, func(m record.Member) bool { return m.ID == member && m.Child })
}

// advisedBefore returns the ration of a meal's tray on its day without that meal
// and what came after it, g.
func (a *Advice) advisedBefore(f *record.Feeding) int64 {
	before := *a.h
	before.Feedings = slices.DeleteFunc(slices.Clone(a.h.Feedings), func(g record.Feeding) bool {
		return g.Bin == f.Bin && (g.ID == f.ID || g.Day > f.Day || g.Day == f.Day && g.At >= f.At)
	})
	then := Resume(&before, f.Day, a.phone, a.keeps.Clone())
	return int64(then.need(then.run(then.bins[f.Bin]), f.Tray).Grams)
}
