package cutting

import "slices"

// knapsack fills one bar with the pieces worth most: a search along the pieces by
// worth per length, cut off where the fractional filling of the rest (Dantzig
// 1957) cannot beat the best.
type knapsack struct {
	length []int64
	worth  []float64
	most   []int
	order  []int // of pieces, worth per length falling

	take, best []int
	value      float64
	steps      int
}

// knapsackSteps is the most steps of one filling: usual ones take hundreds.
const knapsackSteps = 20_000

// fill returns the greatest worth found for a room and a bound that no filling
// exceeds; best holds the numbers of pieces. Both are equal unless the search
// reached its limit.
func (s *knapsack) fill(length []int64, worth []float64, most []int, room int64) (value, bound float64) {
	s.length, s.worth, s.most = length, worth, most
	s.order = s.order[:0]
	for i, w := range worth {
		if w > 0 && most[i] > 0 && length[i] <= room {
			s.order = append(s.order, i)
		}
	}
	slices.SortStableFunc(s.order, func(x, y int) int {
		// a piece without length cannot be: lengths are at least one step
		rx, ry := worth[x]/float64(length[x]), worth[y]/float64(length[y])
		switch {
		case rx > ry:
			return -1
		case rx < ry:
			return 1
		}
		return 0
	})
	s.take = resized(s.take, len(length))
	s.best = resized(s.best, len(length))
	s.value, s.steps = 0, 0
	root := s.relaxed(0, room)
	s.descend(0, room, 0)
	if s.steps >= knapsackSteps {
		return s.value, root
	}
	return s.value, s.value
}

func resized(x []int, n int) []int {
	x = slices.Grow(x[:0], n)[:n]
	clear(x)
	return x
}

// relaxed returns the worth of filling room with pieces from order[at] on, parts
// of pieces allowed.
func (s *knapsack) relaxed(at int, room int64) float64 {
	v := 0.0
	for _, i := range s.order[at:] {
		n := min(int64(s.most[i]), room/s.length[i])
		v += float64(n) * s.worth[i]
		room -= n * s.length[i]
		if n < int64(s.most[i]) {
			return v + s.worth[i]*float64(room)/float64(s.length[i])
		}
	}
	return v
}

// worthMargin is a difference of worth that is taken for rounding.
const worthMargin = 1e-12

func (s *knapsack) descend(at int, room int64, value float64) {
	if value > s.value+worthMargin {
		s.value = value
		copy(s.best, s.take)
	}
	if s.steps++; at == len(s.order) || s.steps >= knapsackSteps {
		return
	}
	if value+s.relaxed(at, room) <= s.value+worthMargin {
		return
	}
	i := s.order[at]
	for n := int(min(int64(s.most[i]), room/s.length[i])); n >= 0; n-- {
		s.take[i] = n
		s.descend(at+1, room-int64(n)*s.length[i], value+float64(n)*s.worth[i])
	}
	s.take[i] = 0
}
