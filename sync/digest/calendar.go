package digest

import (
	"bytes"
	"maps"
	"slices"
	"sort"
)

// Calendar is a set of stamped members with sums for the whole, its months,
// its days and the parts of its days. The zero value is an empty set. It may be
// used by one goroutine at a time.
type Calendar struct {
	root   Sum
	months map[Month]Sum
	days   map[Day]*page
	stamps map[[16]byte]int64
}

// page is one day's members.
type page struct {
	sum    Sum
	ids    [][16]byte
	sorted bool
}

// Add puts a member with its stamp (ms) into the set; false if it was there.
func (c *Calendar) Add(t int64, id [16]byte) bool {
	if _, there := c.stamps[id]; there {
		return false
	}
	if c.stamps == nil {
		c.stamps, c.months, c.days = map[[16]byte]int64{}, map[Month]Sum{}, map[Day]*page{}
	}
	day := DayOf(t)
	p := c.days[day]
	if p == nil {
		p = &page{}
		c.days[day] = p
	}
	p.ids, p.sorted = append(p.ids, id), false
	p.sum = p.sum.Add(id)
	c.months[day.Month()] = c.months[day.Month()].Add(id)
	c.root = c.root.Add(id)
	c.stamps[id] = t
	return true
}

// Remove takes a member out of the set; false if it was not there.
func (c *Calendar) Remove(id [16]byte) bool {
	t, there := c.stamps[id]
	if !there {
		return false
	}
	day := DayOf(t)
	p, month := c.days[day], day.Month()
	at, _ := slices.BinarySearchFunc(p.order(), id, compare)
	p.ids = slices.Delete(p.ids, at, at+1)
	if p.sum = p.sum.Sub(id); p.sum == (Sum{}) {
		delete(c.days, day)
	}
	if c.months[month] = c.months[month].Sub(id); c.months[month] == (Sum{}) {
		delete(c.months, month)
	}
	c.root = c.root.Sub(id)
	delete(c.stamps, id)
	return true
}

// Stamp is a member's stamp; false if it is not in the set.
func (c *Calendar) Stamp(id [16]byte) (int64, bool) {
	t, there := c.stamps[id]
	return t, there
}

// Len counts the members.
func (c *Calendar) Len() int { return len(c.stamps) }

// Root is the sum of the whole set.
func (c *Calendar) Root() Sum { return c.root }

// MonthSum is a month with the sum of its members.
type MonthSum struct {
	Month Month `json:"month"` // "2026-11"
	Sum   Sum   `json:"sum"`
}

// DaySum is a day with the sum of its members.
type DaySum struct {
	Day Day `json:"day"` // UTC days since 1970
	Sum Sum `json:"sum"`
}

// PartSum is a part of a day with the sum of its members.
type PartSum struct {
	Day  Day   `json:"day"`  // UTC days since 1970
	Part uint8 `json:"part"` // first byte of the members' ids
	Sum  Sum   `json:"sum"`
}

// Months lists the months that have members, oldest first.
func (c *Calendar) Months() []MonthSum {
	list := make([]MonthSum, 0, len(c.months))
	for _, m := range slices.Sorted(maps.Keys(c.months)) {
		list = append(list, MonthSum{m, c.months[m]})
	}
	return list
}

// Days lists the days of a month that have members, oldest first.
func (c *Calendar) Days(month Month) []DaySum {
	var list []DaySum
	for day, p := range c.days {
		if day.Month() == month {
			list = append(list, DaySum{day, p.sum})
		}
	}
	sort.Slice(list, func(i, j int) bool { return list[i].Day < list[j].Day })
	return list
}

// Day is the sum of one day.
func (c *Calendar) Day(day Day) Sum {
	if p := c.days[day]; p != nil {
		return p.sum
	}
	return Sum{}
}

// Parts lists the parts of a day that have members, by first byte.
func (c *Calendar) Parts(day Day) []PartSum {
	var list []PartSum
	if p := c.days[day]; p != nil {
		for _, id := range p.order() {
			if n := len(list); n == 0 || list[n-1].Part != PartOf(id) {
				list = append(list, PartSum{Day: day, Part: PartOf(id)})
			}
			last := &list[len(list)-1]
			last.Sum = last.Sum.Add(id)
		}
	}
	return list
}

// WholeDay stands for all parts of a day where a part is asked for.
const WholeDay = -1

// IDs lists members of a day, or of one part of it, in order: those above
// after (nil: from the beginning), at most limit of them.
func (c *Calendar) IDs(day Day, part int, after *[16]byte, limit int) [][16]byte {
	p := c.days[day]
	if p == nil {
		return nil
	}
	ids := p.order()
	if part != WholeDay {
		from, _ := slices.BinarySearchFunc(ids, [16]byte{byte(part)}, compare)
		to := len(ids)
		if part < 255 {
			to, _ = slices.BinarySearchFunc(ids, [16]byte{byte(part) + 1}, compare)
		}
		ids = ids[from:to]
	}
	if after != nil {
		at, there := slices.BinarySearchFunc(ids, *after, compare)
		if there {
			at++
		}
		ids = ids[at:]
	}
	return slices.Clone(ids[:min(limit, len(ids))])
}

// order sorts the page when it has to: a day of 20,000 members is filled far
// more often than it is read.
func (p *page) order() [][16]byte {
	if !p.sorted {
		sort.Slice(p.ids, func(i, j int) bool { return compare(p.ids[i], p.ids[j]) < 0 })
		p.sorted = true
	}
	return p.ids
}

func compare(a, b [16]byte) int { return bytes.Compare(a[:], b[:]) }
