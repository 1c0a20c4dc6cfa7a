package advice

import (
	"slices"

	"trayside/internal/feedstock"
	"trayside/internal/record"
)

// itemViews names items for a list.
func (a *Advice) itemViews(items []record.Item) []ItemView {
	views := make([]ItemView, 0, len(items))
	for _, it := range items {
		v := ItemView{Scrap: it.Scrap, Name: it.Name, Class: it.Class, Grams: int64(it.Grams), Cut: it.Cut, Frozen: it.Frozen}
		if v.Name == "" {
			v.Name = a.words(it.Scrap).Name
		}
		views = append(views, v)
	}
	return views
}

// words returns what a scrap is called in the phone's language.
func (a *Advice) words(scrap string) feedstock.Words {
	return feedstock.Standard().Words(scrap, a.phone.Language)
}

func (a *Advice) feedLine(f *record.Feeding) FeedLine {
	who, guest := a.whoName(f.Who)
	return FeedLine{
		ID: f.ID, Bin: f.Bin, Tray: f.Tray, Day: f.Day.String(), At: f.At, Grams: int64(record.Total(f.Items)),
		How: string(f.How), Spot: f.Spot, Items: a.itemViews(f.Items), Who: who, Guest: guest,
		Logger: a.loggerName(f.Who, f.Logger), Mine: f.Device != "" && f.Device == a.phone.Device,
	}
}

// trayFeeds returns a tray's newest feedings, the newest first.
func (a *Advice) trayFeeds(tray string, most int) []FeedLine {
	lines := []FeedLine{}
	for i := len(a.h.Feedings) - 1; i >= 0 && len(lines) < most; i-- {
		if f := &a.h.Feedings[i]; f.Tray == tray && f.Day <= a.day {
			lines = append(lines, a.feedLine(f))
		}
	}
	return lines
}

// outOfSight reports whether two feedings happened out of each other's sight:
// one bin, the same day or the next, two phones, and neither phone showed the
// other's feeding when its own was written.
func outOfSight(x, y *record.Feeding) bool {
	apart := x.Day - y.Day
	return x.Bin == y.Bin && apart >= -1 && apart <= 1 &&
		x.Device != y.Device && x.Device != "" && y.Device != "" &&
		!slices.Contains(x.Knew, y.ID) && !slices.Contains(y.Knew, x.ID)
}

// pairs calls yield for every two feedings that happened out of sight.
func (a *Advice) pairs(yield func(older, newer *record.Feeding)) {
	fs := a.h.Feedings
	for i := range fs {
		for j := i + 1; j < len(fs) && fs[j].Day-fs[i].Day <= 1; j++ {
			if outOfSight(&fs[i], &fs[j]) {
				yield(&fs[i], &fs[j])
			}
		}
	}
}

// doubleDays is how long a screen says that a bin was fed twice, days: until
// the next meal or two. Judgement.
const doubleDays = 3

// double tells of the feedings of a bin, in the last days, that happened out of
// each other's sight; nil if there are none.
func (a *Advice) double(bin string) *DoubleView {
	seen := map[string]bool{}
	a.pairs(func(x, y *record.Feeding) {
		if x.Bin == bin && y.Day <= a.day && a.day-y.Day < doubleDays {
			seen[x.ID], seen[y.ID] = true, true
		}
	})
	if len(seen) == 0 {
		return nil
	}
	v := &DoubleView{Bin: bin, Feedings: []FeedLine{}}
	for i := range a.h.Feedings {
		if f := &a.h.Feedings[i]; seen[f.ID] {
			line := a.feedLine(f)
			v.Feedings = append(v.Feedings, line)
			v.Grams += line.Grams
		}
	}
	return v
}
