package plan

import (
	"trayside/internal/colony"
	"trayside/internal/record"
)

// Step is one thing to do, from a day on. Day is 0 if no day of the coming year
// fits.
type Step struct {
	Code Code       `json:"code"`
	Day  record.Day `json:"day,omitempty"`
	Late record.Day `json:"late,omitempty"` // better not after this day; 0 for no hurry
}

// The steps, in order.
const (
	BinAndBedding Code = "bin-and-bedding" // bin, moist bedding, a little soil
	BuyWorms      Code = "worms"           // none shipped in heat or frost
	SettleIn      Code = "settle"          // gently in, light on for a night or two, leave alone
	FirstMeal     Code = "first-meal"      // small, half of what they could eat
	FullMeals     Code = "full-meals"      // what they clear, step by step
)

// steps dates the order of buying. The room stands in for the road: no worms are
// sent while the room itself is colder or hotter than travel allows.
func steps(room colony.Room, start record.Day) []Step {
	list := []Step{{Code: BinAndBedding, Day: start}}
	arrive := start + wormsAfter
	for n := 0; ; n++ {
		if n > 366 {
			return append(list, Step{Code: BuyWorms})
		}
		if c := room.Celsius(arrive); c >= travelCold && c <= travelHot {
			break
		}
		arrive++
	}
	late := start + wormsWithin
	if late < arrive {
		late = arrive + wormsWithin - wormsAfter
	}
	return append(list, Step{Code: BuyWorms, Day: arrive, Late: late}, Step{Code: SettleIn, Day: arrive},
		Step{Code: FirstMeal, Day: arrive + firstMealAfter}, Step{Code: FullMeals, Day: arrive + settling})
}

// worms returns the day on which the worms come, a week after start if no day
// fits.
func worms(list []Step, start record.Day) record.Day {
	for _, s := range list {
		if s.Code == BuyWorms && s.Day != 0 {
			return s.Day
		}
	}
	return start + wormsAfter
}
