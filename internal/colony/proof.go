package colony

import (
	"math"

	"trayside/internal/record"
)

// proof is what looks at a whole tray have shown its worms to eat at least. It
// lifts the lower end of the span: a tray found empty time after time holds no
// few worms, even if nobody has counted them. The middle is left to the model.
type proof struct {
	open  bool
	from  record.Day // the last look, or the first meal
	lying float64    // g of the soft part that lay there at least, with what was fed since
	worms float64    // g that must be there to have eaten that
	share float64    // of the colony that the tray then held: worms that climb away take the proof along
	day   record.Day
}

// proofFades: a proof loses this share of itself a day, because colonies can
// shrink unseen. Judgement.
const proofFades = 0.005

// at returns the worms proven for day d, g, in a tray that holds a share of them.
func (p *proof) at(d record.Day, share float64) float64 {
	if p.worms <= 0 || share <= 0 {
		return 0
	}
	stayed := min(1, share/p.share)
	return float64(float64(p.worms*stayed) * max(0, 1-float64(proofFades*float64(max(0, d-p.day)))))
}

// fed adds a meal, counted at the lower end of its error.
func (p *proof) fed(d record.Day, soft, err float64) {
	if !p.open {
		p.open, p.from = true, d
	}
	p.lying += float64(soft * max(0, 1-err))
}

// prove takes in a look at the whole of a tray, in whose view fed grams of soft
// scraps had been put: at most the upper end of what its word means is left, so
// at least the rest was eaten, less the microbes' part.
func (c *Course) prove(tray int, d record.Day, b band, fed float64) {
	p := &c.proofs[tray]
	if !p.open {
		return
	}
	most := float64(b.high * fed)
	if b.low <= 0 {
		most = 0
	}
	s := &c.state
	f := s.Factors(c.rates, c.conditions(d))
	perGram := float64(float64(c.rates.Appetite.Mid*s.Hunger)*f.Warmth) * float64(f.Damp*f.Crowd)
	ate := float64((p.lying - most) * s.wormsPart())
	if days := float64(d - p.from); days > 0 && perGram > 0 && ate > 0 {
		if worms := ate / days / perGram; worms > p.at(d, s.Share[tray]) && s.Share[tray] > 0 {
			p.worms, p.share, p.day = worms, s.Share[tray], d
		}
	}
	p.from, p.lying = d, float64(b.low*fed)
}

// wormsPart is the worms' share of what has gone so far.
func (s *State) wormsPart() float64 {
	if gone := s.Sums.Eaten + s.Sums.Rotted; gone > 0 {
		return s.Sums.Eaten / gone
	}
	return 1
}

// atLeast lifts the lower end of a span to what is proven, never above its
// middle.
func (s Span) atLeast(proven float64) Span {
	s.Low = math.Max(s.Low, math.Min(s.Mid, proven))
	return s
}
