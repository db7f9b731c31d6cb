package hydraulics

import (
	"math"
	"strings"
	"testing"

	"rillwright/source"
)

func wickMaterial(t testing.TB, word string) WickMaterial {
	t.Helper()
	for _, m := range WickMaterials() {
		if strings.Contains(m.Name, word) {
			return m
		}
	}
	t.Fatalf("no material %q", word)
	return WickMaterial{}
}

func TestWickMaterials(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range WickMaterials() {
		if m.Name == "" || seen[m.Name] {
			t.Errorf("name %q", m.Name)
		}
		seen[m.Name] = true
		for _, f := range []WickFigure{m.Conductivity, m.Capillary} {
			if !(f.Low >= 0 && f.Low < f.Likely && f.Likely < f.High) || f.Note == "" {
				t.Errorf("%s: %+v", m.Name, f)
			}
			if _, ok := source.Lookup(f.Source); !ok {
				t.Errorf("%s: source %q is not listed", m.Name, f.Source)
			}
		}
	}
}

// Water in a nylon rope rose 10 in in 100 minutes and 22 in in 20 hours
// (rope-rise). Darcy's law behind a sharp front, K and h the capillary height,
//
//	K t/porosity = h ln(1/(1 - z/h)) - z
//
// has one h that fits both. A porosity of 0.5 is assumed.
func TestCordAgainstRope(t *testing.T) {
	const z1, t1, z2, t2, porosity = 0.254, 6000.0, 0.5588, 72000.0, 0.5
	front := func(z, h float64) float64 { return -h*math.Log1p(-z/h) - z }
	lo, hi := z2*(1+1e-9), 10.0
	for range 60 {
		if h := (lo + hi) / 2; front(z2, h)/front(z1, h) > t2/t1 {
			lo = h
		} else {
			hi = h
		}
	}
	cord := wickMaterial(t, "cord,")
	k := porosity * front(z1, lo) / t1
	if !within(k, 6e-6, 0.05) {
		t.Errorf("conductivity %g m/s, not what the note says", k)
	}
	if k < cord.Conductivity.Low || k > cord.Conductivity.Likely {
		t.Errorf("conductivity %g m/s outside the lower half of %v", k, cord.Conductivity.Band)
	}
	if !within(lo, 0.62, 0.01) {
		t.Errorf("capillary height %g m, not what the note says", lo)
	}
	if lo < cord.Capillary.Likely || lo > cord.Capillary.High {
		t.Errorf("capillary height %g m outside the upper half of %v", lo, cord.Capillary.Band)
	}
}

// Felt strips dripped about a US gallon a day into a hanging pot (felt-planter).
// Their size is assumed: two strips of 40 mm by 2.5 mm, over a rim 50 mm up, to
// an end 200 mm down.
func TestCordAgainstFelt(t *testing.T) {
	cord := wickMaterial(t, "cord,")
	at := func(conductivity float64) float64 {
		k := Wick{conductivity, cord.Capillary.Likely, 2e-4, 0.3, 0.05, -0.1, -0.2}
		return k.Flow(0, math.Inf(-1))
	}
	const gallonPerDay = 3.785411784e-3 / 86400
	if lo, hi := at(cord.Conductivity.Likely), at(cord.Conductivity.High); !(lo < gallonPerDay && gallonPerDay < hi) {
		t.Errorf("a gallon a day is %g m3/s, the upper half of the band gives %g to %g", gallonPerDay, lo, hi)
	}
	if k := gallonPerDay / at(1); !within(k, 4e-4, 0.1) {
		t.Errorf("conductivity %g m/s, not what the note says", k)
	}
}

// 1 cm2 of pine sapwood, 3 cm3, passed 4 litres a day under 5 psi
// (boutilier-2014).
func TestWoodAgainstFilter(t *testing.T) {
	head := 5 * 6894.757 / (water(t, 20).Density * G)
	k := 4e-3 / 86400 * 0.03 / (1e-4 * head)
	if want := wickMaterial(t, "wood").Conductivity.Likely; !within(k, want, 0.05) {
		t.Errorf("conductivity %g m/s, the band says %g", k, want)
	}
}

// The heights that notes derive from pore sizes. They are rounded to 1 figure
// or half of one: 7 % at most.
func TestCapillaryHeights(t *testing.T) {
	w := water(t, 20)
	wood, mesh := wickMaterial(t, "wood").Capillary, wickMaterial(t, "mesh").Capillary
	sheath := wickMaterial(t, "sheath").Capillary
	for _, c := range []struct{ got, want float64 }{
		{wood.Low, CapillaryHead(3e-4, w)},
		{wood.Likely, CapillaryHead(6e-5, w)},
		{wood.High, CapillaryHead(3e-5, w)},
		{mesh.Likely, CapillaryHead(1e-3, w)},
		{mesh.High, CapillaryHead(2.5e-4, w)},
		{sheath.High, w.SurfaceTension / (w.Density * G * 5e-4)},
	} {
		if !within(c.got, c.want, 0.07) {
			t.Errorf("height %g m, derived %g", c.got, c.want)
		}
	}
}
