package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func vec(t *rapid.T, label string) Vec {
	g := rapid.Float64Range(-1, 1)
	return Vec{g.Draw(t, label+".x"), g.Draw(t, label+".y"), g.Draw(t, label+".z")}
}

func box(t *rapid.T, label string) Box { return BoxOf(vec(t, label), vec(t, label)) }

func bar(t *rapid.T, label string) Cylinder {
	size := rapid.Float64Range(0.01, 1)
	return Rod(vec(t, label), Axis(rapid.IntRange(0, 2).Draw(t, label)), size.Draw(t, label), 0, size.Draw(t, label)/2)
}

func solid(t *rapid.T, label string) Solid {
	switch rapid.IntRange(0, 4).Draw(t, label) {
	case 0:
		return vec(t, label)
	case 1:
		return box(t, label)
	case 2:
		return bar(t, label)
	case 3:
		return prism(t, label)
	}
	p := Path{Radius: rapid.Float64Range(0, 0.5).Draw(t, label)}
	for range rapid.IntRange(1, 3).Draw(t, label) {
		p.Points = append(p.Points, vec(t, label))
	}
	return p
}

// prism draws one whose corners lie on an ellipse, so that it is convex.
func prism(t *rapid.T, label string) Prism {
	p := Prism{Along: Axis(rapid.IntRange(0, 2).Draw(t, label)), Length: rapid.Float64Range(0.01, 1).Draw(t, label)}
	at := vec(t, label)
	wide, high := rapid.Float64Range(0.02, 0.5).Draw(t, label), rapid.Float64Range(0.02, 0.5).Draw(t, label)
	n := rapid.IntRange(3, 6).Draw(t, label)
	for i := range n {
		phi := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.8).Draw(t, label)) / float64(n)
		a, b := (p.Along+1)%3, (p.Along+2)%3
		v := at.With(a, at.On(a)+wide*math.Cos(phi))
		p.Base = append(p.Base, v.With(b, v.On(b)+high*math.Sin(phi)))
	}
	return p
}

func moved(s Solid, v Vec) Solid {
	switch s := s.(type) {
	case Vec:
		return s.Add(v)
	case Box:
		return s.Moved(v)
	case Cylinder:
		return s.Moved(v)
	case Path:
		return s.Moved(v)
	case Prism:
		return s.Moved(v)
	}
	return nil
}

// inside maps a point of the unit cube to one in the solid, all of it in reach;
// ends and corners at the ends of the range.
func inside(s Solid, u, v, w float64) Vec {
	switch s := s.(type) {
	case Box:
		d := s.Size()
		return s.Min.Add(Vec{d.X * u, d.Y * v, d.Z * w})
	case Cylinder:
		a, b := (s.Along+1)%3, (s.Along+2)%3
		r, phi := s.Radius*u, 2*math.Pi*v
		p := s.From.With(s.Along, s.From.On(s.Along)+s.Length*w)
		p = p.With(a, p.On(a)+r*math.Cos(phi))
		return p.With(b, p.On(b)+r*math.Sin(phi))
	case Path:
		return s.At(s.Length() * w)
	case Prism:
		i := min(int(u*float64(len(s.Base))), len(s.Base)-1)
		p := s.Base[i].Between(s.Base[(i+1)%len(s.Base)], u*float64(len(s.Base))-float64(i)).Between(s.Base[0], v)
		return p.With(s.Along, p.On(s.Along)+s.Length*w)
	}
	return s.Bounds().Min
}

// No two sampled points of two solids are nearer than their gap says, whichever
// way round and wherever they lie.
func TestGapIsCautious(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := solid(t, "a"), solid(t, "b")
		gap := Gap(a, b)
		if back := Gap(b, a); math.Abs(back-gap) > 1e-12 {
			t.Fatalf("%g one way, %g the other", gap, back)
		}
		v := vec(t, "move")
		if m := Gap(moved(a, v), moved(b, v)); math.Abs(m-gap) > 1e-9 {
			t.Fatalf("%g, moved together %g", gap, m)
		}
		unit := rapid.Float64Range(0, 1)
		p := inside(a, unit.Draw(t, "u"), unit.Draw(t, "v"), unit.Draw(t, "w"))
		q := inside(b, unit.Draw(t, "u"), unit.Draw(t, "v"), unit.Draw(t, "w"))
		if d := p.Dist(q); d < gap-1e-9 {
			t.Fatalf("points %g apart, gap %g", d, gap)
		}
		if whole := Gap(a.Bounds(), b.Bounds()); whole > gap+1e-9 {
			t.Fatalf("bounds are %g apart, what is in them %g", whole, gap)
		}
	})
}

// descend walks two points of two solids together until neither gets nearer: for
// solids without hollows that is the distance.
func descend(a, b Solid, into func(Solid, Vec) Vec) float64 {
	p, q := walk(a, b, into)
	return p.Dist(q)
}

func walk(a, b Solid, into func(Solid, Vec) Vec) (p, q Vec) {
	p, q = a.Bounds().Centre(), b.Bounds().Centre()
	for range 4000 {
		p, q = into(a, q), into(b, into(a, q))
	}
	return p, q
}

// nearest returns the point of a box or cylinder nearest to p.
func nearest(s Solid, p Vec) Vec {
	switch s := s.(type) {
	case Box:
		return s.Nearest(p)
	case Cylinder:
		at := math.Min(math.Max(p.On(s.Along), s.From.On(s.Along)), s.To().On(s.Along))
		d := p.Sub(s.From).With(s.Along, 0)
		if l := d.Length(); l > s.Radius {
			d = d.Times(s.Radius / l)
		}
		return s.From.Add(d).With(s.Along, at)
	case Prism:
		end := s.Base[0].On(s.Along)
		at := math.Min(math.Max(p.On(s.Along), end), end+s.Length)
		return nearestOfFigure(s, p.With(s.Along, end)).With(s.Along, at)
	}
	return s.Bounds().Min
}

// nearestOfFigure returns the point of a prism's base nearest to a point in its plane:
// itself if it lies on the inner side of every edge.
func nearestOfFigure(s Prism, p Vec) Vec {
	out, best, within := p, math.Inf(1), true
	for i, v := range s.Base {
		w := s.Base[(i+1)%len(s.Base)]
		within = within && cross(w.Sub(v), p.Sub(v)).On(s.Along) >= 0
		if d, t := SegmentPoint(v, w, p); d < best {
			best, out = d, v.Between(w, t)
		}
	}
	if within {
		return p
	}
	return out
}

// Gaps above 0 that are said to be exact are those found by walking to the
// nearest points, which knows none of the formulas.
func TestGapIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var a, b Solid = box(t, "a"), box(t, "b")
		switch rapid.IntRange(0, 2).Draw(t, "pair") {
		case 1:
			b = bar(t, "b")
		case 2:
			c, d := bar(t, "a"), bar(t, "b")
			at := d.From
			a, b = c, Rod(at, c.Along, at.On(c.Along), at.On(c.Along)+d.Length, d.Radius)
		}
		gap := Gap(a, b)
		// Projection crawls between round things that nearly touch.
		if gap < 0.05 {
			t.Skip("near or overlapping")
		}
		if d := descend(a, b, nearest); math.Abs(d-gap) > 1e-6 {
			t.Fatalf("%+v and %+v: walked to %g, gap %g", a, b, d, gap)
		}
	})
}

// The gap of a prism lies between two bounds that know none of the formulas: the two
// points walked to are no nearer than it, and the slab that parts the solids square to
// the line between those points is no thicker. The walk crawls between faces that
// nearly face each other; the bounds then lie apart, and hold all the same.
func TestGapOfPrisms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var a, b Solid = prism(t, "a"), prism(t, "b")
		if rapid.Bool().Draw(t, "box") {
			b = box(t, "b")
		}
		gap := Gap(a, b)
		p, q := walk(a, b, nearest)
		d, ok := unit(q.Sub(p))
		if !ok || gap <= 0 {
			if p.Dist(q) < gap-1e-9 {
				t.Fatalf("walked to %g, gap %g", p.Dist(q), gap)
			}
			return
		}
		corners := func(s Solid) []Vec {
			if p, ok := s.(Prism); ok {
				return p.Corners()
			}
			return s.(Box).hull().at
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, v := range corners(b) {
			lo = math.Min(lo, v.Dot(d))
		}
		for _, v := range corners(a) {
			hi = math.Max(hi, v.Dot(d))
		}
		if gap > p.Dist(q)+1e-9 || gap < lo-hi-1e-9 {
			t.Fatalf("%+v and %+v: walked to %g, a slab of %g parts them, gap %g", a, b, p.Dist(q), lo-hi, gap)
		}
	})
}

// An overlap is the least way out along the axes, and moving by it frees the two;
// by less along that axis does not.
func TestOverlapFrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := box(t, "a"), box(t, "b")
		gap := Gap(a, b)
		if gap >= 0 {
			if m, ok := a.Meet(b); ok && gap > 0 {
				t.Fatalf("apart by %g and meet in %+v", gap, m)
			}
			return
		}
		free := false
		for _, on := range []Axis{X, Y, Z} {
			for _, way := range []float64{1, -1} {
				m := b.Moved(Vec{}.With(on, -gap*way))
				free = free || Gap(a, m) > -1e-12
				if Gap(a, b.Moved(Vec{}.With(on, -gap*way*0.99))) > 0 {
					t.Fatalf("free by less than %g", -gap)
				}
			}
		}
		if !free {
			t.Fatalf("not free by %g", -gap)
		}
	})
}

// Two prisms that overlap are free when one is moved by the overlap one way or
// another, and by less in no direction tried.
func TestOverlapOfPrisms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := prism(t, "a"), prism(t, "b")
		gap := Gap(a, b)
		if gap >= 0 {
			t.Skip("apart")
		}
		for range 20 {
			if d, ok := unit(vec(t, "way")); ok && Gap(a, b.Moved(d.Times(-gap*0.99))) > 1e-9 {
				t.Fatalf("free by less than %g along %+v", -gap, d)
			}
		}
	})
}

// A box as a prism is as far from anything as the box; content and middle of both
// are the same.
func TestPrismAsBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := box(t, "box")
		if d := b.Size(); min(d.X, d.Y, d.Z) < 1e-6 {
			t.Skip("flat: no prism")
		}
		along := Axis(rapid.IntRange(0, 2).Draw(t, "along"))
		u, v := (along+1)%3, (along+2)%3
		p := Prism{
			Base:  []Vec{b.Min, b.Min.With(u, b.Max.On(u)), b.Max.With(along, b.Min.On(along)), b.Min.With(v, b.Max.On(v))},
			Along: along, Length: b.Max.On(along) - b.Min.On(along),
		}
		if p.Bounds() != b && p.Bounds().Min.Dist(b.Min)+p.Bounds().Max.Dist(b.Max) > 1e-12 {
			t.Fatalf("bounds %+v of %+v", p.Bounds(), b)
		}
		if math.Abs(p.Volume()-b.Volume()) > 1e-12 || b.Volume() > 1e-6 && p.Centre().Dist(b.Centre()) > 1e-9 {
			t.Fatalf("content %g, middle %+v of %+v", p.Volume(), p.Centre(), b)
		}
		s := solid(t, "other")
		want, got := Gap(b, s), Gap(p, s)
		// Within round things the two say how deep by other rules.
		if _, box := s.(Box); math.Abs(want-got) > 1e-9 && (want > 0 || box) {
			if _, bar := s.(Cylinder); !bar || got > want {
				t.Fatalf("%g from the box, %g from the prism: %+v", want, got, s)
			}
		}
	})
}

// Three points of three solids: the gap over a third is no more than both ways and
// the third's own size.
func TestTriangleOfGaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := solid(t, "a"), solid(t, "b"), box(t, "c")
		through := math.Max(Gap(a, c), 0) + c.Size().Length() + math.Max(Gap(c, b), 0)
		if gap := Gap(a, b); gap > through+1e-9 {
			t.Fatalf("%g apart, by way of the third %g", gap, through)
		}
	})
}

// The distance between straight lines and from a line to a box is that of the
// nearest of many points on them, and never more beyond rounding: of lines that
// are nearly parallel a few digits are lost.
func TestSegments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c, d := vec(t, "a"), vec(t, "b"), vec(t, "c"), vec(t, "d")
		x := box(t, "box")
		lines, toBox := math.Inf(1), math.Inf(1)
		const n = 400
		for i := range n + 1 {
			p := a.Between(b, float64(i)/n)
			s, _ := SegmentPoint(c, d, p)
			lines, toBox = math.Min(lines, s), math.Min(toBox, x.Dist(p))
		}
		step := a.Dist(b) / n
		if got := SegmentDist(a, b, c, d); got > lines+1e-9 || got < lines-step-1e-9 {
			t.Fatalf("lines %g apart, sampled %g", got, lines)
		}
		if got := SegmentBoxDist(a, b, x); got > toBox+1e-9 || got < toBox-step-1e-9 {
			t.Fatalf("line and box %g apart, sampled %g", got, toBox)
		}
	})
}
