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
			for _, op := range e.Fold {
				p.fold(op)
			}
		}
		if out.Effects == nil {
			out.Effects = []exchange.Effect{}
		}
		return out, nil, nil
	})
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
