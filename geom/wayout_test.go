package geom

import (
	"testing"

	"pgregory.net/rapid"
)

func block(x0, y0, z0, x1, y1, z1 float64) Box {
	return Box{Vec{x0, y0, z0}, Vec{x1, y1, z1}}
}

// room is a box of six walls with a window in the wall at its front, from 4 to 6 in x
// and from 4 to 6 in z.
func room() []Box {
	return []Box{
		block(-1, -1, -1, 0, 11, 11), block(10, -1, -1, 11, 11, 11),
		block(-1, -1, -1, 11, 0, 11),
		block(-1, -1, -1, 11, 11, 0), block(-1, -1, 10, 11, 11, 11),
		block(-1, 10, -1, 4, 11, 11), block(6, 10, -1, 11, 11, 11), block(4, 10, -1, 6, 11, 4), block(4, 10, 6, 6, 11, 11),
	}
}

// Ways that can be seen: straight through a window, up and then out, round a corner,
// not at all.
func TestWayOut(t *testing.T) {
	dam := block(0, 8, 0, 10, 8.5, 4.5)
	shelf := block(0, 3, 3, 10, 7, 3.2)
	for name, c := range map[string]struct {
		box    Box
		others []Box
		legs   int // 0 for none
		start  bool
	}{
		"nothing round it": {block(0, 0, 0, 1, 1, 1), nil, 1, false},
		"straight":         {block(4.5, 2, 4.5, 5.5, 3, 5.5), room(), 1, false},
		"aside first":      {block(1, 2, 4.5, 2, 3, 5.5), room(), 2, false},
		"aside and up":     {block(1, 2, 1, 2, 3, 2), room(), 3, false},
		"too wide":         {block(1, 2, 1, 3.1, 3, 3.1), room(), 0, false},
		"just as wide":     {block(4, 2, 4, 6, 3, 6), room(), 1, false},
		"over the dam":     {block(4.5, 2, 1, 5.5, 3, 2), append(room(), dam), 2, false},
		"round the shelf":  {block(4.5, 4, 1, 5.5, 5, 2), append(room(), dam, shelf), 3, false},
		"down behind it":   {block(4.5, 2, 1, 5.5, 3, 2.6), append(room(), dam), 4, false},
		"too long for it":  {block(4.5, 2, 1, 5.5, 4, 2.6), append(room(), dam), 0, false},
		"where another is": {block(4.5, 7.5, 1, 5.5, 8.2, 2), append(room(), dam), 0, true},
		"touching":         {block(4.5, 7, 4.5, 5.5, 8, 5.5), append(room(), dam), 1, false},
	} {
		legs, out, start := WayOut(c.box, c.others, 6)
		if len(legs) != c.legs || out != (c.legs > 0) || start != c.start {
			t.Errorf("%s: %v, %v, %v", name, legs, out, start)
		}
	}
	if _, out, _ := WayOut(block(1, 2, 1, 2, 3, 2), room(), 2); out {
		t.Error("a way of three legs among those of two")
	}
}

// A way that is found meets nothing and leads out; where none is found no straight
// pull and no two of them, looked for step by step, lead out either.
func TestWayOutProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := func(lo, hi int, what string) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, what)) }
		some := func(what string) Box {
			p := Vec{whole(0, 8, what), whole(0, 8, what), whole(0, 8, what)}
			return Box{p, p.Add(Vec{whole(1, 5, what), whole(1, 5, what), whole(1, 5, what)})}
		}
		b := some("box")
		others := make([]Box, rapid.IntRange(0, 8).Draw(t, "others"))
		for i := range others {
			others[i] = some("other")
		}
		free := func(b Box) bool {
			for _, o := range others {
				if m, ok := b.Meet(o); ok && m.Volume() > 0 {
					return false
				}
			}
			return true
		}
		legs, out, start := WayOut(b, others, 4)
		if start == free(b) {
			t.Fatalf("overlaps at the start: %v", start)
		}
		if out {
			at := b
			for _, l := range legs {
				next := at.To(l)
				if !free(at.Union(next)) {
					t.Fatalf("leg %v of %v meets something", l, legs)
				}
				at = next
			}
			gone := len(others) == 0
			for _, a := range []Axis{X, Y, Z} {
				below, above := true, true
				for _, o := range others {
					below, above = below && at.Max.On(a) <= o.Min.On(a), above && at.Min.On(a) >= o.Max.On(a)
				}
				gone = gone || below || above
			}
			if !gone {
				t.Fatalf("%v leads to %v, not out of %v", legs, at, others)
			}
			return
		}
		if start {
			return
		}
		// All sizes are whole, so that stops at whole places are enough.
		for _, d := range directions {
			for far := range 15 {
				first := b.To(Leg{Axis(d.axis), float64(d.step * far)})
				if !free(b.Union(first)) {
					break
				}
				for _, e := range directions {
					if free(first.Union(first.To(Leg{Axis(e.axis), float64(e.step * 30)}))) {
						t.Fatalf("%d along %v, then along %v leads out", far, d, e)
					}
				}
			}
		}
	})
}

func BenchmarkWayOut(b *testing.B) {
	others := room()
	for i := range 20 {
		x := float64(i%5) * 2
		others = append(others, block(x, float64(i)/3, x/3, x+0.5, float64(i)/3+0.2, x/3+2))
	}
	for b.Loop() {
		WayOut(block(1, 0.2, 1, 1.3, 0.3, 1.2), others, 3)
	}
}
