package colony

import "math"

// live ages every stage by one day.
func (s *State) live(r *Rates, w *weather, f Factors) {
	food := min(1, s.Fed/enough)
	ripen := float64(crowdedGrowth+float64((1-crowdedGrowth)*f.Room)) * food * f.Damp

	// Deaths: the ordinary ones, heat, cold and acid, starving.
	extra := w.kill
	if s.Flesh < starveBelow {
		extra += float64(starveADay * (starveBelow - s.Flesh) / (starveBelow - leanest))
	}
	die := float64(r.Die.Mid * s.Frail)
	keepAdult := max(0, 1-die-extra)
	lost := float64(float64(w.lost*s.Frail) * (1 + float64(crowdedDeaths*(1-f.Room))))
	keepYoung := max(0, 1-max(lost, die)-extra)
	keepCocoon := 1.0
	if w.bedC > 32 { // cocoons outlast drought and cold, not heat: judgement
		keepCocoon = max(0, 1-extra)
	}

	each := s.laying(r, w, f, food)
	laid := float64(each * (sum(s.Adult[:layingSteps]) + float64(lateLaying*s.Adult[layingSteps])))
	s.Sums.Laid = laid
	s.grow(r, w, f, food, each)

	hatched := advance(s.Cocoon[:], laid, w.hatch, keepCocoon)
	if w.bedC >= 35 {
		hatched = 0 // nothing develops there: judgement
	}
	born := float64(hatched * r.Hatch.Mid * r.Hatchlings.Mid)
	grown, size := s.ripen(born, r.hatchSize, float64(w.pace*ripen), keepYoung)

	before := s.Adults()
	advance(s.Adult[:layingSteps], 0, 0, keepAdult)
	s.Adult[layingSteps] = float64(s.Adult[layingSteps] * keepAdult)
	s.Adult[layingSteps] += advance(s.Adult[:layingSteps], grown, 1/daysOfYouth, 1)
	if before = float64(before * keepAdult); before+grown > 0 {
		s.AdultSize = (float64(before*s.AdultSize) + float64(grown*size)) / (before + grown)
	}

	// Condition follows the food of the last days, slowly; in the cold slower.
	goal := fleshOf.at(s.Fed)
	s.Flesh = max(s.Flesh-float64(shrinkADay*max(upkeepCold, w.eat)), min(s.Flesh+fattenADay, goal))
}

// laying returns the cocoons that an adult of laying age lays in the day.
func (s *State) laying(r *Rates, w *weather, f Factors, food float64) float64 {
	if food <= layingStops {
		return 0
	}
	hungry := float64(food * math.Sqrt(food)) // to the power 1.5: judgement
	each := float64(float64(r.Cocoons.Mid/7*r.Household.Mid)*w.lay*hungry*f.Room) * s.Fertile
	if !r.Alone { // one worm has nobody to mate with
		each = float64(each * max(0, min(1, s.Adults()-1)))
	}
	return each
}

// grow lets young and adults grow by a day toward the size that food and room
// allow. What an adult lays it does not grow, or loses.
func (s *State) grow(r *Rates, w *weather, f Factors, food, each float64) {
	goal := float64(r.fullSize*r.Rich) * (crowdedSize + float64((1-crowdedSize)*f.Room))
	goal = float64(goal*(1+hungrySize)) * food / (food + hungrySize)
	speed := float64(w.speed * f.Damp)
	for i, size := range s.YoungSize {
		s.YoungSize[i] += float64(speed * max(0, goal-size))
	}
	s.AdultSize += float64(speed*max(0, goal-s.AdultSize)) - float64(r.layCost*each)
}

// advance moves heads through the sub-stages of one stage: a share keep
// survives, in joins the first, and what leaves the last is returned. progress
// is the share of the whole stage that one day is worth.
func advance(stage []float64, in, progress, keep float64) float64 {
	move := min(1, float64(progress*float64(len(stage))))
	for i, n := range stage {
		n = float64(n * keep)
		out := float64(n * move)
		stage[i] = n - out + in
		in = out
	}
	return in
}

// ripen moves the young through their sub-stages as advance does, and their
// sizes with them: in heads of a size join, and those that mature are returned
// with theirs.
func (s *State) ripen(in, size, progress, keep float64) (grown, grownSize float64) {
	move := min(1, float64(progress*youngSteps))
	for i, n := range s.Young {
		n = float64(n * keep)
		out := float64(n * move)
		stay, was := n-out, s.YoungSize[i]
		if all := stay + in; all > 0 {
			s.YoungSize[i] = (float64(stay*was) + float64(in*size)) / all
		}
		s.Young[i] = stay + in
		in, size = out, was
	}
	return in, size
}
