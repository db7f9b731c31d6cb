// Package cutting lays parts onto stock: lengths onto bars, panes onto sheets
// by cuts that go right through, panels of whole cells onto grid sheets.
//
// What is bought costs as little as possible; among layouts of equal cost, the
// leftovers are as useful as possible: the sum of the squares of the reusable
// offcuts and of the stock on hand that stays whole is large, which prefers one
// long leftover to two short ones and cuts small pieces of stock on hand first.
// Every plan comes with a lower bound of the cost that no layout can beat.
//
// Lengths are in m. They are compared in steps of 0.1 um, in which both the
// millimetre and the 1/64 in (3968.75 steps, so rounded by 0.025 um) are
// told apart; costs in any one unit, in steps of 0.0001.
package cutting

import (
	"errors"
	"fmt"
	"math"
)

// Status says how a search ended.
type Status int

const (
	// Limit says that the search was given up at its limit; the bound still holds.
	Limit Status = iota
	// Proven says that no layout costs less; of a plan with pieces missing, that no
	// layout holds them all.
	Proven
)

func (s Status) String() string {
	if s == Proven {
		return "proven"
	}
	return "search limit"
}

// ErrInput is wrapped by every error about what was asked.
var ErrInput = errors.New("cannot be laid out")

func wrong(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrInput, fmt.Sprintf(format, args...))
}

// step is the length (m) that all lengths are multiples of.
const step = 1e-7

// longest is the greatest length (m) taken, far beyond any stock.
const longest = 1000

// steps returns a length (m) in whole steps.
func steps(m float64) int64 { return int64(math.Round(m / step)) }

// metres returns whole steps in m.
func metres(n int64) float64 { return float64(n) * step }

// inRange reports whether a length is a number from 0 to longest.
func inRange(m float64) bool { return m >= 0 && m <= longest }

// costStep is the amount that all costs are multiples of.
const costStep = 1e-4

// wholeCosts returns costs as whole multiples of a unit, their greatest common
// divisor. Then a bound of the total may be rounded up to a whole number.
func wholeCosts(costs []float64) (whole []int64, unit float64) {
	whole = make([]int64, len(costs))
	var g int64
	for i, c := range costs {
		whole[i] = int64(math.Round(c / costStep))
		g = gcd(g, whole[i])
	}
	if g == 0 {
		return whole, costStep
	}
	for i := range whole {
		whole[i] /= g
	}
	return whole, float64(g) * costStep
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// reachable returns the least sum of costs, each taken any number of times, that
// is at least low; high if that is not less.
func reachable(costs []int64, low, high int64) int64 {
	const most = 1 << 20 // sums looked at: beyond, low is a good enough bound
	if low >= high || high > most {
		return min(low, high)
	}
	sums := make([]bool, high)
	for s := range sums {
		sums[s] = s == 0
		for _, c := range costs {
			if c > 0 && int64(s) >= c && sums[int64(s)-c] {
				sums[s] = true
				break
			}
		}
		if sums[s] && int64(s) >= low {
			return int64(s)
		}
	}
	return high
}

// judged tells what a layout costs (units of unit), what is the least that it could
// be, by how much it may be over that, as a share, and whether it is proven. With
// pieces missing there is no bound, and proven is that none holds them all.
func judged(cost, bound int64, unit float64, missing, none bool) (total, least, gap float64, status Status) {
	total = float64(cost) * unit
	if missing {
		if none {
			status = Proven
		}
		return total, 0, 0, status
	}
	least = float64(bound) * unit
	if total > 0 {
		gap = 1 - least/total
	}
	if cost <= bound {
		status = Proven
	}
	return total, least, gap, status
}

// sequence is a fixed sequence of numbers that look random (Steele, Lea & Flood
// 2014, SplitMix64, from memory): a search varies, its result does not.
type sequence uint64

func (s *sequence) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below returns a number from 0 to n-1.
func (s *sequence) below(n int) int { return int(s.next() % uint64(n)) }

// unit returns a number from 0 to 1.
func (s *sequence) unit() float64 { return float64(s.next()>>11) / (1 << 53) }
