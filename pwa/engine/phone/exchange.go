package phone

import "trayside/sync/exchange"

// exchangeAnswer is what a step of the exchange wants done, in order.
type exchangeAnswer struct {
	Effects    []exchange.Effect `json:"effects"`
	Checkpoint *summary          `json:"checkpoint,omitempty"` // with it the frame's body is a new checkpoint
}

// Exchange takes one exchange.Event. An idle event is answered with a
// checkpoint when operations came in since the last one.
func (p *Phone) Exchange(frame []byte) []byte {
	return answer("exchange", func() (any, []byte, error) {
		var ev exchange.Event
		if _, err := p.unframe(frame, &ev); err != nil {
			return nil, nil, err
		}
		if ev.Kind == exchange.EventIdle {
			return p.idle()
		}
		out := exchangeAnswer{Effects: p.loop().Step(ev)}
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

func (p *Phone) idle() (any, []byte, error) {
	out := exchangeAnswer{Effects: []exchange.Effect{}}
	if p.reading || p.rep.Len() == 0 {
		return out, nil, nil
	}
	made, body, err := checkpoint(p.rep)
	if err != nil {
		return nil, nil, err
	}
	out.Checkpoint = &made
	return out, body, nil
}
