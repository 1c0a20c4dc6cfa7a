package colony

// crumb is what is too little to see, g: it counts as rotted and is dropped.
const crumb = 0.05

// eat lets the worms of each tray eat what lies in it, the oldest meal first,
// up to their appetite and what the surface can take. It returns the share of
// the whole colony's appetite that was met, less what a bed that is too dry, wet
// or sour kept them from.
func (s *State) eat(r *Rates, tiers []Tier, f Factors, mass float64) float64 {
	appetite := float64(float64(mass*r.Appetite.Mid*s.Hunger) * f.Warmth * f.Damp * f.Crowd)
	s.Sums.Night = 0
	var effort float64
	for t, share := range s.Share {
		if share <= 0 {
			continue
		}
		had := float64(appetite * share)
		surface := float64(float64(tiers[t].AreaM2*r.Surface.Mid) * s.Broad)
		effort += had - s.graze(t, had, surface)
	}
	s.drop()
	share := 1.0
	if appetite > 0 { // else it is too cold to eat, and nothing is missed
		share = effort / appetite
	}
	return float64(share * min(1, f.Damp/missedBelow))
}

// missedBelow is what moisture and acidity must leave of the appetite for worms to
// miss nothing: judgement. In the cold they need less; in a dry bed they do not.
const missedBelow = 0.5

// graze spends the appetite of one tray's worms on its meals, oldest first, up
// to what the surface takes, and returns what is left of it. Unappealing scraps
// cost more appetite per gram.
func (s *State) graze(tray int, appetite, surface float64) float64 {
	for i := 0; i < len(s.Food) && appetite > 0 && surface > 0; {
		j := i + 1
		for j < len(s.Food) && s.Food[j].Meal == s.Food[i].Meal {
			j++
		}
		if s.Food[i].Tray == tray {
			appetite, surface = s.dine(s.Food[i:j], appetite, surface)
		}
		i = j
	}
	return appetite
}

// dine spends appetite on one meal, up to what the surface can take, and
// returns what is left of both. Inside a meal the worms go where most of what
// they like is: its parts share the appetite by mass × appeal.
func (s *State) dine(meal []Morsel, appetite, surface float64) (restAppetite, restSurface float64) {
	// A round that does not spend everything finishes at least one part.
	for range meal {
		var liked float64
		for i := range meal {
			liked += float64(meal[i].Left * meal[i].Appeal)
		}
		if liked <= 0 || appetite <= 0 || surface <= 0 {
			break
		}
		var wanted float64
		for i := range meal {
			wanted += bite(meal[i], appetite, liked)
		}
		part := 1.0
		if wanted > surface {
			part = surface / wanted
		}
		spent := appetite
		for i := range meal {
			if meal[i].Appeal <= 0 {
				continue
			}
			g := float64(bite(meal[i], spent, liked) * part)
			meal[i].Left = max(0, meal[i].Left-g)
			appetite -= g / meal[i].Appeal
			surface -= g
			s.Sums.Eaten += g
			s.Sums.Night += g
			s.Sums.ByTray[meal[i].Tray] += g
		}
	}
	return max(0, appetite), max(0, surface)
}

// bite is how many grams of m are eaten when its meal gets that much appetite.
func bite(m Morsel, appetite, liked float64) float64 {
	effort := float64(appetite * (float64(m.Left*m.Appeal) / liked))
	return min(m.Left, float64(effort*m.Appeal))
}

// drop forgets morsels of which too little is left to see.
func (s *State) drop() {
	kept := s.Food[:0]
	for _, m := range s.Food {
		if m.Left < crumb {
			s.Sums.Rotted += m.Left
			s.Sums.ByTray[m.Tray] += m.Left
			continue
		}
		kept = append(kept, m)
	}
	s.Food = kept
}
