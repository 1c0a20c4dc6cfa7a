package colony

import (
	"math"
	"math/rand/v2"

	"trayside/internal/record"
	"trayside/internal/units"
)

// dice are the random numbers of one particle for one purpose on one day. Their
// key is all they depend on: an entry that comes in late changes nothing of
// what is drawn for the others.
type dice struct{ pcg rand.PCG }

// roll returns the dice of a purpose (an entry, or a word of this package), a
// day and a particle.
func roll(purpose uint64, day record.Day, particle int) dice {
	var d dice
	d.pcg.Seed(mix(purpose), mix(uint64(uint32(day))<<32|uint64(uint32(particle))))
	return d
}

// unit returns a number between 0 and 1, never either.
func (d *dice) unit() float64 { return (float64(d.pcg.Uint64()>>12) + 0.5) / (1 << 52) }

// below returns a whole number from 0 to n-1. That some come up 2⁻⁵⁰ more often
// than others shows nowhere.
func (d *dice) below(n int) int { return int(d.pcg.Uint64() % uint64(n)) }

// normal returns a draw from the standard normal distribution.
func (d *dice) normal() float64 { return quantile(d.unit()) }

// mix spreads the bits of a key (the finishing steps of the splitmix generator:
// Steele, Lea & Flood 2014, from memory).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// hash returns a key of texts (FNV-1a, 64 bits).
func hash(texts ...string) uint64 {
	h := uint64(14695981039346656037)
	for _, t := range texts {
		for i := 0; i < len(t); i++ {
			h = (h ^ uint64(t[i])) * 1099511628211
		}
		h = (h ^ 0xff) * 1099511628211
	}
	return h
}

// quantile returns the standard normal quantile of p, 0 < p < 1, to within
// 0.0005: the rational approximation 26.2.23 of Abramowitz & Stegun 1964. Its
// tails are cut at about four standard deviations.
func quantile(p float64) float64 {
	q := min(p, 1-p)
	t := math.Sqrt(float64(-2 * units.Log(max(q, 3e-5))))
	num := 2.515517 + float64(t*(0.802853+float64(t*0.010328)))
	den := 1 + float64(t*(1.432788+float64(t*(0.189269+float64(t*0.001308)))))
	x := t - num/den
	if p < 0.5 {
		return -x
	}
	return x
}

// strata returns one standard normal draw for each of n particles, one from the
// middle of every n-th part of the distribution, in an order that the purpose
// sets: few particles then still have the right median and the right ends.
func strata(purpose uint64, day record.Day, n int) []float64 {
	d := roll(purpose, day, -1)
	z := make([]float64, n)
	for i := range z {
		z[i] = quantile((float64(i) + 0.5) / float64(n))
	}
	for i := n - 1; i > 0; i-- {
		j := d.below(i + 1)
		z[i], z[j] = z[j], z[i]
	}
	return z
}
