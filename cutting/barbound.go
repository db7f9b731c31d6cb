package cutting

import (
	"math"
	"slices"
)

// pattern is a way to fill one bar.
type pattern struct {
	stock  int
	pieces []int
}

// prices are worths of pieces and of limited stock in the linear relaxation: the
// least cost of patterns, taken any number of times, that hold all pieces.
type prices struct {
	piece []float64
	stock []float64 // 0 where there is any number
}

// relax solves the relaxation by generating patterns (Gilmore & Gomory 1961):
// the simplex method with the inverse of the basis, whose next pattern is the
// filling worth most at the present prices. It returns the patterns of the last
// basis with how often each is taken.
func (b *bars) relax() (p prices, taken []pattern, times []float64) {
	n := len(b.length)
	limited := []int{}
	for k, c := range b.count {
		if c >= 0 {
			limited = append(limited, k)
		}
	}
	m := n + len(limited)
	dear := 1.0 // of a piece left out, above any price
	for _, c := range b.cost {
		dear = max(dear, float64(c))
	}
	dear *= 1e4
	right := make([]float64, m)
	inverse := make([][]float64, m)
	cost := make([]float64, m)
	basis := make([]pattern, m) // stock -1: a piece left out or limited stock left over
	for i := range m {
		inverse[i] = make([]float64, m)
		inverse[i][i] = 1
		basis[i].stock = -1
		if i < n {
			right[i], cost[i] = float64(b.need[i]), dear
		} else {
			right[i] = float64(b.count[limited[i-n]])
		}
	}
	y := make([]float64, m)
	column := make([]float64, m)
	entry := make([]float64, m)
	var bag knapsack
	most := make([]int, n)
	for range 50 * (m + 10) {
		for i := range y {
			y[i] = 0
			for r := range m {
				y[i] += cost[r] * inverse[r][i]
			}
		}
		worst, enter := -1e-9*dear*1e-4, pattern{stock: -2}
		clear(entry)
		enterCost := 0.0
		for i := range m { // surplus of pieces, stock left over
			gain := -y[i]
			if i < n {
				gain = y[i]
			}
			if gain < worst {
				worst, enter = gain, pattern{stock: -1}
				clear(entry)
				entry[i] = 1
				if i < n {
					entry[i] = -1
				}
			}
		}
		for k := range b.room {
			price, row := 0.0, slices.Index(limited, k)
			if row >= 0 {
				price = y[n+row]
			}
			for i := range n {
				most[i] = int(min(int64(b.need[i]), b.room[k]/b.length[i]))
			}
			v, _ := bag.fill(b.length, y[:n], most, b.room[k])
			b.worked += bag.steps
			if gain := float64(b.cost[k]) - price - v; gain < worst {
				worst, enter, enterCost = gain, pattern{k, slices.Clone(bag.best)}, float64(b.cost[k])
				clear(entry)
				for i, c := range bag.best {
					entry[i] = float64(c)
				}
				if row >= 0 {
					entry[n+row] = 1
				}
			}
		}
		if enter.stock == -2 {
			break
		}
		if enter.stock == -1 {
			enterCost = 0
		}
		leave, least := -1, math.Inf(1)
		for r := range m {
			column[r] = 0
			for i, e := range entry {
				column[r] += inverse[r][i] * e
			}
			if column[r] > 1e-9 {
				if t := right[r] / column[r]; t < least-1e-12 {
					leave, least = r, t
				}
			}
		}
		if leave < 0 {
			break
		}
		for i := range m {
			inverse[leave][i] /= column[leave]
		}
		right[leave] /= column[leave]
		for r := range m {
			if f := column[r]; r != leave && f != 0 {
				for i := range m {
					inverse[r][i] -= f * inverse[leave][i]
				}
				right[r] = max(0, right[r]-f*right[leave])
			}
		}
		basis[leave], cost[leave] = enter, enterCost
	}
	p = prices{piece: make([]float64, n), stock: make([]float64, len(b.room))}
	for i := range n {
		p.piece[i] = max(0, y[i])
	}
	b.validate(&p)
	for r, c := range basis {
		if c.stock >= 0 {
			taken, times = append(taken, c), append(times, right[r])
		}
	}
	return p, taken, times
}

// validate makes prices true: no filling of a bar that there is any number of may
// be worth more than it costs, so all prices shrink until none is; what a filling
// of limited stock is worth beyond its cost becomes its price. So whatever the
// simplex method made of rounding, the bound holds.
func (b *bars) validate(p *prices) {
	var bag knapsack
	most := make([]int, len(b.length))
	values := make([]float64, len(b.room))
	shrink := 1.0
	for k := range b.room {
		for i := range most {
			most[i] = int(min(int64(b.need[i]), b.room[k]/b.length[i]))
		}
		_, values[k] = bag.fill(b.length, p.piece, most, b.room[k])
		b.worked += bag.steps
		if c := float64(b.cost[k]); b.count[k] < 0 && values[k] > c {
			shrink = min(shrink, c/values[k])
		}
	}
	for i := range p.piece {
		p.piece[i] *= shrink
	}
	for k := range values {
		if b.count[k] >= 0 {
			p.stock[k] = max(0, values[k]*shrink-float64(b.cost[k]))
		}
	}
}

// least returns a bound of the cost of what is needed, with so many bars of
// limited stock left. It may be below 0.
func (b *bars) least(p *prices, need, count []int) float64 {
	v := 0.0
	for i, n := range need {
		v += float64(n) * p.piece[i]
	}
	for k, n := range count {
		if n > 0 {
			v -= float64(n) * p.stock[k]
		}
	}
	return v
}

// roundUp returns the least cost in whole units that is not below v, which
// rounding may have raised by a millionth.
func roundUp(v float64) int64 { return int64(math.Ceil(v - 1e-6*max(1, math.Abs(v)*1e-3))) }
