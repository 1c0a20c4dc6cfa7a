package demo

import (
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"time"

	"trayside/internal/journal"
	"trayside/internal/label"
	"trayside/internal/record"
	"trayside/internal/units"
	"trayside/sync/oplog"
	"trayside/sync/replica"
)

// phone is one of the household's phones.
type phone struct{ member, device string }

// pen writes a log the way phones do: every entry is an intent that goes
// through the journal, so the demo holds nothing that an app could not write.
type pen struct {
	rng    *rand.Rand
	rep    *replica.Replica
	reader *journal.Reader
	ops    []oplog.Sealed
	today  record.Day
}

func newPen(seed uint64, today record.Day) *pen {
	rep := replica.New(journal.Schema())
	return &pen{
		rng: rand.New(rand.NewPCG(seed, 0x7261792d64656d6f)),
		rep: rep, reader: journal.NewReader(rep), today: today,
	}
}

// moment is a day before today and a time of day.
type moment struct{ ago, hour, minute int }

func (p *pen) day(ago int) record.Day { return p.today - record.Day(ago) }

// compose turns an intent into operations without adding them, as a phone that
// is out of the others' sight does.
func (p *pen) compose(ph phone, m moment, in journal.Intent) journal.Written {
	at := time.Unix(int64(p.day(m.ago))*86400, 0).UTC().
		Add(time.Duration(m.hour)*time.Hour + time.Duration(m.minute)*time.Minute + time.Duration(p.rng.IntN(60))*time.Second)
	in.At, in.Day = at.Format(time.RFC3339), p.day(m.ago).String()
	random := binary.BigEndian.AppendUint64(nil, p.rng.Uint64())
	random = binary.BigEndian.AppendUint64(random, p.rng.Uint64())
	w, err := journal.Write(journal.Scene{
		Replica: p.rep, Record: p.reader.Household(), Member: ph.member, Device: ph.device,
		Now: at.UnixMilli() + int64(p.rng.IntN(1000)), Random: random,
	}, in)
	if err != nil {
		panic(fmt.Sprintf("demo: %s %d days before the end: %v", in.Do, m.ago, err))
	}
	return w
}

func (p *pen) add(w journal.Written) string {
	for _, op := range w.Ops {
		if p.rep.Add(op) {
			p.reader.Touch(op.Op.Ent)
			p.ops = append(p.ops, op)
		}
	}
	return w.Entity
}

// write is compose and add; it gives the entity written.
func (p *pen) write(ph phone, m moment, in journal.Intent) string {
	return p.add(p.compose(ph, m, in))
}

func (p *pen) code() label.Code { return label.Draw(p.rng.Uint64) }

// about spreads a weight by a tenth either way, to the gram.
func (p *pen) about(grams int) units.Grams {
	return units.Grams(grams - grams/10 + p.rng.IntN(grams/5+1))
}

// kitchens are what a meal's bowl holds, as shares of a thousand.
var kitchens = [][]struct {
	scrap string
	milli int
}{
	{{"veg-mixed", 550}, {"coffee-grounds", 300}, {"banana-peel", 150}},
	{{"coffee-grounds", 400}, {"apple-core-peel", 350}, {"tea-leaves", 250}},
	{{"lettuce", 300}, {"cucumber", 300}, {"carrot", 250}, {"eggshell", 150}},
	{{"potato-peel", 500}, {"carrot", 300}, {"coffee-grounds", 200}},
	{{"melon-rind", 700}, {"apple-core-peel", 300}},
	{{"kale", 350}, {"broccoli-stalk", 250}, {"tea-leaves", 150}, {"banana-peel", 250}},
	{{"pumpkin", 600}, {"veg-mixed", 400}},
	{{"bread", 120}, {"veg-mixed", 580}, {"coffee-grounds", 300}},
}

// meal draws scraps of about that weight.
func (p *pen) meal(grams int) []record.Item {
	kitchen := kitchens[p.rng.IntN(len(kitchens))]
	var items []record.Item
	for _, k := range kitchen {
		items = append(items, record.Item{
			Scrap: k.scrap, Grams: max(5, p.about(grams*k.milli/1000)), Cut: p.rng.IntN(3) == 0,
		})
	}
	return items
}
