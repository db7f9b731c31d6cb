package sheets

import (
	"math"

	"rillwright/drawing"
	"rillwright/faults"
)

// course is a figure against time, in SI units.
type course struct {
	name   string
	pen    drawing.Pen
	time   []float64 // rising
	figure []float64
}

// most is the greatest figure.
func (c *course) most() float64 {
	most := math.Inf(-1)
	for _, v := range c.figure {
		most = math.Max(most, v)
	}
	return most
}

// settled is the time after which the figure stays within a distance of its
// last, s.
func (c *course) settled(within float64) float64 {
	n := len(c.figure)
	for k := n - 1; k >= 0; k-- {
		if math.Abs(c.figure[k]-c.figure[n-1]) > within {
			return c.time[min(k+1, n-1)]
		}
	}
	return c.time[0]
}

// column is the width of paper to which a course is reduced, mm: below it the
// eye sees no detail.
const column = 0.5

// line returns the course on a strip as a line with a point or a few for each
// column: where it stands at the column's edge, and the extremes between edges
// if they stick out. What swings faster than a column becomes an area of ink
// from the least to the most, and nothing is lost however long the run.
func (c *course) line(s *stack, u, along unit) []drawing.Point {
	const sticksOut = 0.15 // mm
	y := func(v float64) float64 { return s.at(0, u.of(v)).Y }
	end := math.Min(s.x.max*along.si, c.time[len(c.time)-1])
	right := s.at(along.of(end), 0).X
	columns := max(int(math.Ceil((right-s.frame.Left)/column)), 1)
	var out []drawing.Point
	k := 0 // the first point of the course beyond the edge
	for i := range columns + 1 {
		x := s.frame.Left + (right-s.frame.Left)*float64(i)/float64(columns)
		t := end * float64(i) / float64(columns)
		var low, high drawing.Point
		for first := true; k < len(c.time) && c.time[k] <= t; k++ {
			p := drawing.Point{X: s.at(along.of(c.time[k]), 0).X, Y: y(c.figure[k])}
			if first || p.Y < high.Y {
				high = p
			}
			if first || p.Y > low.Y {
				low = p
			}
			first = false
		}
		edge := drawing.Point{X: x, Y: y(c.at(t, k))}
		if i > 0 && high != (drawing.Point{}) {
			last := out[len(out)-1].Y
			peak, pit := high.Y < math.Min(last, edge.Y)-sticksOut, low.Y > math.Max(last, edge.Y)+sticksOut
			switch {
			case peak && pit && high.X <= low.X:
				out = append(out, high, low)
			case peak && pit:
				out = append(out, low, high)
			case peak:
				out = append(out, high)
			case pit:
				out = append(out, low)
			}
		}
		out = append(out, edge)
	}
	return out
}

// at is the figure at a time, between the points before and at k.
func (c *course) at(t float64, k int) float64 {
	if k == 0 || k >= len(c.time) {
		return c.figure[min(k, len(c.time)-1)]
	}
	from, to := c.time[k-1], c.time[k]
	if to <= from {
		return c.figure[k]
	}
	return c.figure[k-1] + (t-from)/(to-from)*(c.figure[k]-c.figure[k-1])
}

// jump makes a flow turn at once where it turns much at an event, or very much
// from one step to the next, as when a timer stops a pump: a track knows it
// before and after, and a straight line between the two would begin to turn
// long before.
func (c *course) jump(events []faults.Event) {
	const much, veryMuch = 0.1, 0.3 // of the most
	most := c.most()
	var time, figure []float64
	for k, e := 0, 0; k < len(c.time); k++ {
		for e < len(events) && events[e].At < c.time[k] {
			e++
		}
		if k > 0 {
			turn := math.Abs(c.figure[k] - c.figure[k-1])
			at := e < len(events) && events[e].At == c.time[k]
			if turn > veryMuch*most || at && turn > much*most {
				time, figure = append(time, c.time[k]), append(figure, c.figure[k-1])
			}
		}
		time, figure = append(time, c.time[k]), append(figure, c.figure[k])
	}
	c.time, c.figure = time, figure
}

// offFoot cuts out of a heavy line what lies along the foot of its frame, where
// it would look like something. Other lines are left whole.
func offFoot(line []drawing.Point, foot float64, pen drawing.Pen) [][]drawing.Point {
	const near = 0.05 // mm
	if pen != drawing.Heavy {
		return [][]drawing.Point{line}
	}
	var out [][]drawing.Point
	open := false
	for i := 1; i < len(line); i++ {
		if foot-line[i-1].Y < near && foot-line[i].Y < near {
			open = false
			continue
		}
		if !open {
			out = append(out, []drawing.Point{line[i-1]})
		}
		out[len(out)-1] = append(out[len(out)-1], line[i])
		open = true
	}
	return out
}
