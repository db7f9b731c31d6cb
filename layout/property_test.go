package layout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"testing"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/geom"
	"rillwright/internal/trial"
)

// Where the sizes agree the panes' inner faces are the planes of the inside box,
// and the inside box is exactly the inside sizes.
func TestDatum(t *testing.T) {
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		l := of(t, data)
		in := l.e.Design.Enclosure.Inside
		if want := (geom.Vec{X: float64(in.Width.Value), Y: float64(in.Depth.Value), Z: float64(in.Height.Value)}); l.Inside.Min != (geom.Vec{}) || l.Inside.Max != want {
			t.Errorf("inside %+v, in the file %+v", l.Inside, want)
		}
		for i := range l.Panes {
			p := &l.Panes[i]
			inner := p.World(0, 0, p.Thick)
			for at, off := range map[string]float64{"back": inner.Y, "left": inner.X, "bottom": inner.Z, "right": inner.X - l.Inside.Max.X, "front": inner.Y - l.Inside.Max.Y} {
				if p.At == at && math.Abs(off) > 1e-12 {
					t.Errorf("%s: its inner face lies %g m off the inside", p.Name, off)
				}
			}
		}
	}
}

// plain are the kinds that the mirrored cabinet places mirrored: doors on tracks,
// chambers in their order and what follows from those are not.
func plain(k Kind) bool {
	return k != KindChamber && k != KindPump && k != KindRun && k != KindDoorSpace && k != KindOutlet
}

func key(p *Part) string {
	if p.Kind == KindFoot {
		return string(p.Kind)
	}
	return string(p.Kind) + " " + p.Name
}

// A design with left and right changed over gives the mirrored layout.
func TestMirrored(t *testing.T) {
	a := of(t, examples.CorridorCabinet)
	b := of(t, examples.CorridorCabinet,
		"in: 450 mm, edge: left", "in: 450 mm, edge: right", "in: 110 mm, edge: left", "in: 110 mm, edge: right",
		"left: 25, bottom: 46", "left: 26, bottom: 46", "left: 1, bottom: 0", "left: 47, bottom: 0", "left: 200 mm", "left: 610 mm")
	width := a.Inside.Max.X
	var boxes []Part
	for i := range b.Parts {
		if plain(b.Parts[i].Kind) {
			boxes = append(boxes, b.Parts[i])
		}
	}
	found := 0
	for i := range a.Parts {
		p := &a.Parts[i]
		if !plain(p.Kind) || p.Name == "sliding door" {
			continue
		}
		x := p.Solid.Bounds()
		x.Min.X, x.Max.X = width-x.Max.X, width-x.Min.X
		ok := false
		for k := range boxes {
			y := boxes[k].Solid.Bounds()
			ok = ok || key(&boxes[k]) == key(p) && x.Min.Dist(y.Min) < 1e-12 && x.Max.Dist(y.Max) < 1e-12
		}
		if !ok {
			t.Errorf("%s: nothing at %+v in the mirrored design", key(p), x)
		}
		found++
	}
	if found < 25 {
		t.Errorf("only %d parts looked at", found)
	}
}

var millimetres = regexp.MustCompile(`: ([0-9.]+) mm\b`)

// The same design written in inches has everything in the same place.
func TestUnitsChangeNothing(t *testing.T) {
	text := millimetres.ReplaceAllStringFunc(string(examples.CorridorCabinet), func(s string) string {
		v, err := strconv.ParseFloat(millimetres.FindStringSubmatch(s)[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		return fmt.Sprintf(": %.12f in", v/25.4)
	})
	a, b := of(t, examples.CorridorCabinet), of(t, []byte(text), "units: metric", "units: us")
	if len(a.Parts) != len(b.Parts) || len(a.Sizes) != len(b.Sizes) {
		t.Fatalf("%d and %d parts, sizes %+v and %+v", len(a.Parts), len(b.Parts), a.Sizes, b.Sizes)
	}
	for i := range a.Parts {
		x, y := a.Parts[i].Solid.Bounds(), b.Parts[i].Solid.Bounds()
		if x.Min.Dist(y.Min) > 1e-9 || x.Max.Dist(y.Max) > 1e-9 {
			t.Errorf("%s: %+v, in inches %+v", key(&a.Parts[i]), x, y)
		}
	}
}

var numbers = regexp.MustCompile(`(?:up|in|left|bottom|width|depth|height|thickness|stand-off|set-back|out|length|inset|front|flat|wall|over|floor): [0-9.]+`)

// Odd sizes are placed too, with numbers all through and nothing lost: whatever is
// not placed is listed. Sizes that the file's own checks refuse are left out.
func TestOddSizes(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	read, parts := 0, trial.Parts(t)
	for range 400 {
		data := examples.CorridorCabinet
		if r.IntN(2) == 0 {
			data = examples.CounterWall
		}
		text := numbers.ReplaceAllStringFunc(string(data), func(s string) string {
			if r.IntN(12) > 0 {
				return s
			}
			at := len(s)
			for s[at-1] == '.' || s[at-1] >= '0' && s[at-1] <= '9' {
				at--
			}
			v, err := strconv.ParseFloat(s[at:], 64)
			if err != nil {
				return s
			}
			return s[:at] + strconv.FormatFloat(math.Round(v*(0.2+2*r.Float64())*8)/8, 'f', -1, 64)
		})
		d, list := design.Read("odd", []byte(text))
		if list.HasErrors() {
			continue
		}
		e, list := enclosure.Resolve(d, parts, nil)
		if list.HasErrors() {
			continue
		}
		read++
		l := Of(e)
		for i := range l.Parts {
			b := l.Parts[i].Solid.Bounds()
			for _, v := range []float64{b.Min.X, b.Min.Y, b.Min.Z, b.Max.X, b.Max.Y, b.Max.Z} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%s: %+v in\n%s", key(&l.Parts[i]), b, text)
				}
			}
			if s := b.Size(); s.X < 0 || s.Y < 0 || s.Z < 0 {
				t.Fatalf("%s is turned inside out: %+v in\n%s", key(&l.Parts[i]), b, text)
			}
		}
		lists := len(d.Enclosure.Panes) + len(d.Grid) + len(d.Drains) + len(d.Enclosure.Ways) + len(d.Hardscape)
		seen := map[string]bool{}
		for _, k := range []Kind{KindPane, KindGrid, KindHole, KindWay, KindHardscape} {
			for _, p := range l.All(k) {
				seen[key(p)] = true
			}
		}
		if n := len(seen) + len(l.Left); n < lists-1 { // the dam's pane is the dam
			t.Fatalf("%d of %d placed or listed in\n%s", n, lists, text)
		}
	}
	if read < 20 {
		t.Errorf("only %d designs could be read", read)
	}
}
