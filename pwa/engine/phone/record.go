package phone

import (
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/sync/roster"
)

// recordHeader is an intent with what makes its operations unique.
type recordHeader struct {
	Now    int64          `json:"now"`  // calibrated, ms
	Rand   string         `json:"rand"` // 32 hexadecimal digits or more, fresh from the system's generator
	Intent journal.Intent `json:"intent"`
}

// recordAnswer is what an intent became: operations to be stored, or a reason
// why not. Exactly one of Ops, Refused and Slip has something to say, except
// that an intent which changes nothing has no operations.
type recordAnswer struct {
	Ops      []string         `json:"ops"`
	Entity   string           `json:"entity"`
	Entities []string         `json:"entities,omitempty"` // every entry, where an intent wrote several
	Refused  *journal.Refusal `json:"refused"`
	Slip     *advice.SlipView `json:"slip"`
}

// codeRole refuses what this phone's role does not allow.
const codeRole = "role"

// Record stamps operations for an intent. It folds nothing: the caller stores
// them first and then passes them to Receive. It works in every state; before
// the log was read nothing can be checked against it.
func (p *Phone) Record(frame []byte) []byte {
	return answer("record", func() (any, []byte, error) {
		var h recordHeader
		if _, err := p.unframe(frame, &h); err != nil {
			return nil, nil, err
		}
		random, err := hex.DecodeString(h.Rand)
		if err != nil {
			return nil, nil, fmt.Errorf("rand is not hexadecimal: %w", err)
		}
		out := recordAnswer{Ops: []string{}}
		out.Refused, out.Slip = p.check(&h.Intent, random)
		if out.Refused != nil || out.Slip != nil {
			return out, nil, nil
		}
		w, err := journal.Write(p.scene(h.Now, random), h.Intent)
		if errors.As(err, &out.Refused) {
			return out, nil, nil
		}
		if out.Refused = p.allowed(w); out.Refused != nil {
			return out, nil, nil
		}
		out.Entity = w.Entity
		if len(w.Entities) > 1 {
			out.Entities = w.Entities
		}
		for _, op := range w.Ops {
			out.Ops = append(out.Ops, string(op.Bytes))
		}
		return out, nil, nil
	})
}

func (p *Phone) scene(now int64, random []byte) journal.Scene {
	member, _ := p.me()
	s := journal.Scene{
		Replica: p.rep, Member: member, Device: p.device,
		Now: now, Floor: p.floor(), Random: random,
	}
	if !p.reading {
		s.Record = p.read()
	}
	return s
}

// check asks the domain what the journal cannot know: whether a scrap exists,
// a code is a label's, an amount may be a slip. It brings a code into its
// canonical form.
func (p *Phone) check(in *journal.Intent, random []byte) (*journal.Refusal, *advice.SlipView) {
	if in.Do == journal.DoClaim {
		if r := canonical(in, random); r != nil {
			return r, nil
		}
	}
	if r := knownScraps(*in); r != nil {
		return r, nil
	}
	day, err := record.DayOf(in.Day)
	if err != nil || in.InBin || p.reading {
		return nil, nil // the journal has the words for a day that is none
	}
	for _, s := range p.portions(*in) {
		slip := p.advise(day, p.language).Slip(s.tray, s.grams, in.InBin)
		if slip.Kind == "refuse" || slip.Kind == "ask" && !in.Sure {
			return nil, &slip
		}
	}
	return nil, nil
}

// portion is what an intent puts into one tray.
type portion struct {
	tray  string
	grams int64
}

// portions lists the trays that an intent feeds. Amounts that no tray can take,
// such as negative ones, are left to the journal's clearer words.
func (p *Phone) portions(in journal.Intent) []portion {
	var list []portion
	switch in.Do {
	case journal.DoFeed:
		list = append(list, portion{in.Tray, int64(record.Total(in.Items))})
	case journal.DoPlace:
		for _, s := range in.Shares {
			if s.To == journal.ToTray {
				list = append(list, portion{s.Tray, s.Grams})
			}
		}
	case journal.DoEdit:
		feedings := p.read().Feedings
		if i := slices.IndexFunc(feedings, func(f record.Feeding) bool { return f.ID == in.Entity }); i >= 0 {
			list = append(list, portion{feedings[i].Tray, int64(record.Total(amounts(in)))})
		}
	}
	negative := func(it record.Item) bool { return it.Grams < 0 }
	if slices.ContainsFunc(amounts(in), negative) {
		return nil
	}
	return slices.DeleteFunc(list, func(x portion) bool { return x.grams < 0 })
}

// amounts returns what an intent says was weighed; of an edit, what it changes
// the amounts to. What is no list of amounts is left to the journal's words.
func amounts(in journal.Intent) []record.Item {
	if in.Do != journal.DoEdit {
		return in.Items
	}
	var items []record.Item
	text, err := json.Marshal(in.Set["items"])
	if err != nil || json.Unmarshal(text, &items) != nil {
		return nil
	}
	return items
}

// allowed says no to what the server's door would refuse from this phone.
func (p *Phone) allowed(w journal.Written) *journal.Refusal {
	_, role := p.me()
	for _, op := range w.Ops {
		switch {
		case role == roster.Viewer:
			return &journal.Refusal{Code: codeRole, Detail: "this phone may look but not write; ask a keeper for another role"}
		case role == roster.Feeder && journal.KeeperOnly(op.Op.Kind()):
			return &journal.Refusal{Code: codeRole, Detail: "only a keeper's phone changes bins, trays, labels and members"}
		}
	}
	return nil
}
