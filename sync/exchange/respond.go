package exchange

import (
	"errors"
	"fmt"

	"trayside/sync/oplog"
)

// Bounds of one Put: an acknowledgement waits for the disk, so a long push is
// written in pieces.
const (
	putOps   = 256
	putBytes = 256 << 10
)

// TooMany says that a request is beyond the bounds of a message: status 413.
type TooMany struct {
	What      string
	Got, Most int
}

func (e *TooMany) Error() string {
	return fmt.Sprintf("exchange: %d %s in one request; send at most %d", e.Got, e.What, e.Most)
}

// Respond answers a Request: it puts the operations that the door lets in, then
// reads news, sums and head from one snapshot. now is the answering side's
// clock, ms. The error is a *TooMany (status 413) or comes from the log or roster.
func Respond(log Log, roster Roster, door Door, req Request, now int64) (Answer, error) {
	if n := len(req.Ops); n > MaxOps {
		return Answer{}, &TooMany{"operations", n, MaxOps}
	}
	if n := len(req.Roster); n > MaxOps {
		return Answer{}, &TooMany{"roster texts", n, MaxOps}
	}
	results, err := admit(log, door, req.Ops)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Results: results, Now: now}
	if len(req.Roster) > 0 {
		if err := roster.Add(req.Roster); err != nil {
			return Answer{}, err
		}
	}
	if roster.Root() != req.RosterRoot {
		a.Roster = append([]string{}, roster.Texts()...) // not null, even if there are none
	}
	return a, log.View(func(s Snapshot) error { return a.read(s, req.After) })
}

// admit puts what is well formed and let in by the door, and says what became
// of each operation.
func admit(log Log, door Door, texts []string) ([]Result, error) {
	results := make([]Result, len(texts))
	place := map[oplog.ID]int{} // of an operation's first mention
	var piece []oplog.Sealed
	size := 0
	put := func() error {
		if len(piece) == 0 {
			return nil
		}
		done, err := log.Put(piece)
		if err != nil {
			return err
		}
		for _, r := range done {
			if i, asked := place[r.ID]; asked {
				results[i] = r
			}
		}
		piece, size = nil, 0
		return nil
	}
	for i, text := range texts {
		sealed, err := oplog.Open([]byte(text))
		if err != nil {
			results[i] = Result{oplog.Hash([]byte(text)), Refused, whyOf(err)}
			continue
		}
		results[i] = Result{ID: sealed.ID, Code: Later} // until the log says more
		if _, twice := place[sealed.ID]; twice {
			results[i].Code = Dup
			continue
		}
		if why := door(sealed.Op); why != "" {
			results[i] = Result{sealed.ID, Refused, why}
			continue
		}
		if len(piece) == putOps || size+len(text) > putBytes {
			if err := put(); err != nil {
				return nil, err
			}
		}
		place[sealed.ID] = i
		piece, size = append(piece, sealed), size+len(text)
	}
	return results, put()
}

func whyOf(err error) string {
	var bad *oplog.Invalid
	if errors.As(err, &bad) && bad.Code == oplog.TooBig {
		return WhyTooBig
	}
	return WhyInvalid
}

// read fills in what comes from the log.
func (a *Answer) read(s Snapshot, after Hint) (err error) {
	a.Ops = []string{}
	if a.Root, err = s.Root(); err != nil {
		return err
	}
	if a.Next, err = s.Head(); err != nil {
		return err
	}
	from := after.N
	switch {
	case after.Inst == "":
		from = 0
	case after.Inst != a.Next.Inst:
		return nil // a hint from elsewhere: the sums will tell what is lacking, as they do for a number we never gave
	}
	news, err := s.Since(from, MaxOps)
	if err != nil {
		return err
	}
	pushed := make(map[oplog.ID]bool, len(a.Results))
	for _, r := range a.Results {
		pushed[r.ID] = r.Code == Stored || r.Code == Dup
	}
	read, size := from, 0
	for _, n := range news {
		if pushed[n.ID] {
			read = n.N
			continue
		}
		if size += len(n.Bytes); size > MaxOpBytes && len(a.Ops) > 0 {
			break
		}
		a.Ops = append(a.Ops, string(n.Bytes))
		read = n.N
	}
	if len(news) > 0 && read < a.Next.N {
		a.Next.N, a.More = read, true
	}
	return nil
}
