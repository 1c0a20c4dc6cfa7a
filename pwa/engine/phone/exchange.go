package phone

import "trayside/sync/exchange"

// exchangeAnswer is what a step of the exchange wants done, in order.
type exchangeAnswer struct {
	Effects    []exchange.Effect `json:"effects"`
	Checkpoint *summary          `json:"checkpoint,omitempty"` // with it the frame's body is a new checkpoint
}

// exchangeHeader is an exchange.Event. News, of an idle one, says that the
// storage has no checkpoint of all that the engine was given.
type exchangeHeader struct {
	exchange.Event
	News bool `json:"news"`
}

// Exchange takes one exchange.Event. An idle event is answered with a checkpoint
// when there is news, or a bin was worked out further than in the last one.
func (p *Phone) Exchange(frame []byte) []byte {
	return answer("exchange", func() (any, []byte, error) {
		var ev exchangeHeader
		if _, err := p.unframe(frame, &ev); err != nil {
			return nil, nil, err
		}
		if ev.Kind == exchange.EventIdle {
			return p.idle(ev.News)
		}
		out := exchangeAnswer{Effects: p.loop().Step(ev.Event)}
		for _, e := range out.Effects {
			if e.Kind == exchange.EffectChanged {
				p.change(e)
			}
		}
		if out.Effects == nil {
			out.Effects = []exchange.Effect{}
		}
		return out, nil, nil
	})
}

// change makes what an exchange stored count: new operations come in, refused
// ones go out, and the roster may say something else about this phone.
func (p *Phone) change(e exchange.Effect) {
	for _, op := range e.Fold {
		p.fold(op)
	}
	for _, id := range e.Drop {
		if m, held := p.rep.Mark(id); held {
			ent := m.Ent()
			p.rep.Remove(id)
			p.reader.Touch(ent)
		}
	}
	p.home, p.advice = nil, nil
}

func (p *Phone) idle(news bool) (any, []byte, error) {
	out := exchangeAnswer{Effects: []exchange.Effect{}}
	if p.reading || p.rep.Len() == 0 || !news && p.keeps.Same(p.stored) {
		return out, nil, nil
	}
	made, body, err := checkpoint(p.rep, p.keeps)
	if err != nil {
		return nil, nil, err
	}
	out.Checkpoint, p.stored = &made, p.keeps.Clone()
	return out, body, nil
}
