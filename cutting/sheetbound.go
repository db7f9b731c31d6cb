package cutting

import "math"

// least returns a bound of the cost in whole units, and of the number of sheets if
// there is one kind of stock only: by area, and by dual feasible functions.
func (s *sheets) least() int64 {
	var pieces, hand float64
	for i, p := range s.piece {
		pieces += float64(s.need[i]) * float64(p.area())
	}
	kinds := []int{} // what is bought
	for k, p := range s.stock {
		if s.cost[k] == 0 {
			hand += float64(s.count[k]) * float64(p.area())
		} else {
			kinds = append(kinds, k)
		}
	}
	if len(kinds) == 0 {
		return 0
	}
	ratio := math.Inf(1)
	dearest := int64(0)
	for _, k := range kinds {
		ratio = min(ratio, float64(s.cost[k])/float64(s.stock[k].area()))
		dearest = max(dearest, s.cost[k])
	}
	rest := pieces - hand
	if rest <= 0 && hand > 0 {
		return 0
	}
	low := roundUp(rest * ratio)
	low = max(low, s.cheapest(kinds, func(k int) float64 { return float64(s.stock[k].area()) }, rest))
	// How many sheets the size of the largest one, whatever fits a smaller one fits it too.
	var box part
	for _, p := range s.stock {
		box.w, box.h = max(box.w, p.w), max(box.h, p.h)
	}
	sheets := 0
	for k := range s.stock {
		if s.cost[k] == 0 {
			sheets += s.count[k]
		}
	}
	n := float64(s.fewest(box)) - float64(sheets)
	return max(0, low, s.cheapest(kinds, func(int) float64 { return 1 }, n))
}

// cheapest returns the least cost of bought stock whose sizes add up to a total.
func (s *sheets) cheapest(kinds []int, size func(k int) float64, total float64) int64 {
	best := int64(math.MaxInt64)
	steps := 0
	var try func(at int, cost int64, rest float64)
	try = func(at int, cost int64, rest float64) {
		k := kinds[at]
		per := float64(s.cost[k]) / size(k)
		if rest <= size(k)*1e-9 {
			best = min(best, cost)
			return
		}
		if at == len(kinds)-1 {
			n := int64(math.Ceil(rest/size(k) - 1e-9))
			best = min(best, cost+n*s.cost[k])
			return
		}
		for n := int64(math.Ceil(rest/size(k) - 1e-9)); n >= 0; n-- {
			if steps++; steps > 10_000 { // too many kinds: the ratios alone
				for _, l := range kinds[at:] {
					per = min(per, float64(s.cost[l])/size(l))
				}
				best = min(best, cost+roundUp(per*rest))
				return
			}
			try(at+1, cost+n*s.cost[k], rest-float64(n)*size(k))
		}
	}
	if total <= 0 {
		return 0
	}
	try(0, 0, total)
	return best
}

// fewest returns how many sheets of a size the pieces need at least. A dual
// feasible function takes sizes from 0 to 1 to others, so that sizes that add up
// to at most 1 still do; the product of one of the width and one of the height is
// then an area that no sheet holds more than one of. A piece that may be turned
// counts with the lesser of its two areas.
func (s *sheets) fewest(box part) int64 {
	var cuts []float64 // where functions may change
	for i := range s.piece {
		for _, p := range s.ways(i) {
			for _, x := range []float64{float64(p.w) / float64(box.w), float64(p.h) / float64(box.h)} {
				cuts = append(cuts, min(x, 1-x))
			}
		}
	}
	fs := []func(float64) float64{func(x float64) float64 { return x }}
	seen := map[float64]bool{}
	for _, e := range cuts {
		if e > 0 && e <= 0.5 && !seen[e] && len(fs) < 60 {
			seen[e] = true
			fs = append(fs, large(e))
		}
	}
	for k := 1; k <= 4; k++ {
		fs = append(fs, whole(k))
	}
	best := 0.0
	table := make([][2][2]float64, len(s.piece)) // of each piece, each way: x, y
	for i := range s.piece {
		for n, p := range s.ways(i) {
			table[i][n] = [2]float64{float64(p.w) / float64(box.w), float64(p.h) / float64(box.h)}
		}
	}
	value := make([][][2][2]float64, len(fs))
	for f := range fs {
		value[f] = make([][2][2]float64, len(s.piece))
		for i := range s.piece {
			for n := range s.ways(i) {
				value[f][i][n] = [2]float64{fs[f](table[i][n][0]), fs[f](table[i][n][1])}
			}
		}
	}
	for f := range fs {
		for g := range fs {
			sum := 0.0
			for i := range s.piece {
				least := math.Inf(1)
				for n := range s.ways(i) {
					if table[i][n][0] > 1 || table[i][n][1] > 1 {
						continue // that way it does not fit at all
					}
					least = min(least, value[f][i][n][0]*value[g][i][n][1])
				}
				if !math.IsInf(least, 1) {
					sum += float64(s.need[i]) * least
				}
			}
			best = max(best, sum)
		}
	}
	return int64(math.Ceil(best - 1e-6))
}

// large returns the function that makes sizes above 1 - e whole and drops those
// below e: nothing but those fits beside.
func large(e float64) func(float64) float64 {
	return func(x float64) float64 {
		switch {
		case x > 1-e+1e-12:
			return 1
		case x < e-1e-12:
			return 0
		}
		return x
	}
}

// whole returns the function that rounds sizes to multiples of 1/k: down after
// multiplying by k + 1, but a size that is then whole stays as it is.
func whole(k int) func(float64) float64 {
	return func(x float64) float64 {
		y := float64(k+1) * x
		if math.Abs(y-math.Round(y)) < 1e-9 {
			return x
		}
		return math.Floor(y) / float64(k)
	}
}
