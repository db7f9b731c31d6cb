package drawing

// ClipSegment returns the part of a segment that lies in a box; ok is false if
// none does. Method: Liang & Barsky 1984.
func ClipSegment(a, b Point, box Box) (p, q Point, ok bool) {
	from, to := 0.0, 1.0
	dx, dy := b.X-a.X, b.Y-a.Y
	for _, e := range [4][2]float64{{-dx, a.X - box.Left}, {dx, box.Right - a.X}, {-dy, a.Y - box.Top}, {dy, box.Bottom - a.Y}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return p, q, false
		case e[0] < 0:
			from = max(from, e[1]/e[0])
		case e[0] > 0:
			to = min(to, e[1]/e[0])
		}
	}
	if from > to {
		return p, q, false
	}
	at := func(t float64) Point { return Point{X: a.X + t*dx, Y: a.Y + t*dy} }
	p, q = a, b
	if from > 0 {
		p = at(from)
	}
	if to < 1 {
		q = at(to)
	}
	return p, q, true
}

// ClipLine returns the parts of a line that lie in a box.
func ClipLine(line []Point, box Box) [][]Point {
	var out [][]Point
	open := false // the last part reaches the next segment's start
	for i := 1; i < len(line); i++ {
		p, q, ok := ClipSegment(line[i-1], line[i], box)
		if !ok || p == q {
			open = open && ok
			continue
		}
		if !open || p != line[i-1] {
			out = append(out, []Point{p})
		}
		last := len(out) - 1
		out[last] = append(out[last], q)
		open = q == line[i]
	}
	return out
}

// ClipArea returns the part of a polygon that lies in a box. Method: Sutherland
// & Hodgman 1974.
func ClipArea(polygon []Point, box Box) []Point {
	for side := range 4 {
		// depth is how far a point is inside of the side.
		depth := func(p Point) float64 {
			return [4]float64{p.X - box.Left, box.Right - p.X, p.Y - box.Top, box.Bottom - p.Y}[side]
		}
		var out []Point
		for i, q := range polygon {
			p := polygon[(i+len(polygon)-1)%len(polygon)]
			dp, dq := depth(p), depth(q)
			if (dp < 0) != (dq < 0) {
				t := dp / (dp - dq)
				out = append(out, Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)})
			}
			if dq >= 0 {
				out = append(out, q)
			}
		}
		polygon = out
	}
	if len(polygon) < 3 {
		return nil
	}
	return polygon
}

// Inside reports whether a point lies in a polygon, by the even-odd rule.
func Inside(p Point, polygon []Point) bool {
	in := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y <= p.Y) != (b.Y <= p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
