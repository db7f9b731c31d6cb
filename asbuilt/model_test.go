package asbuilt

import (
	"math"
	"slices"
	"testing"

	"rillwright/study"
)

// foretold returns what a site reads of the design as it stands.
func foretold(t *testing.T, m *model, id string) float64 {
	t.Helper()
	sites := Sites(m.e)
	y := make([]float64, len(sites))
	if err := m.foretell(make([]float64, m.unknowns()), y); err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(sites, func(s Site) bool { return s.ID == id })
	if i < 0 {
		t.Fatalf("no site %s", id)
	}
	return y[i]
}

// Each thing that is put on takes some of the flow; the greatest head is the label's.
func TestOrderOfFlows(t *testing.T) {
	for k := range 2 {
		m := newModel(built(t, k))
		p := "[" + m.e.Pumps[0].Name + "]"
		last := math.Inf(1)
		for _, id := range []string{"no-barb" + p, "bare" + p, "hose-low", "hose", "manifold"} {
			q := foretold(t, m, id)
			if !(q < last) || q <= 0 {
				t.Errorf("%s: %g, after %g", id, q, last)
			}
			last = q
		}
		if h := foretold(t, m, "shut-off"+p); math.Abs(h-m.e.Pumps[0].Curve.HMax) > 1e-12 {
			t.Errorf("shut-off head %g, label %g", h, m.e.Pumps[0].Curve.HMax)
		}
		if w, q := foretold(t, m, "wall"), foretold(t, m, "manifold"); math.Abs(w-q) > 1e-12 { // nothing is lost, likely
			t.Errorf("wall %g, manifold %g", w, q)
		}
	}
}

// What is foretold is what the study of the whole gives.
func TestForetellsTheStudy(t *testing.T) {
	e := built(t, 1)
	st, err := study.Run(e, e.Likely(), study.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	m := newModel(e)
	if q := foretold(t, m, "manifold"); math.Abs(q-st.Outlets) > 1e-9*st.Outlets {
		t.Errorf("manifold %g, study %g", q, st.Outlets)
	}
	if h := foretold(t, m, "rise"); math.Abs(h-(st.PoolLevel-st.RestLevel)) > 1e-9 {
		t.Errorf("rise %g, study %g", h, st.PoolLevel-st.RestLevel)
	}
}

// Each fault does what it is: to first order, by its own measurement.
func TestFaultsDoWhatTheyAre(t *testing.T) {
	m := newModel(built(t, 0))
	list := suspects(m, make([]float64, m.unknowns()), nil)
	at := func(id string, bad float64, site string) float64 {
		i := slices.IndexFunc(list, func(f Fault) bool { return f.ID == id })
		if i < 0 {
			t.Fatalf("no fault %s", id)
		}
		w := m.with(&list[i], bad)
		return foretold(t, w, site) / foretold(t, m, site)
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %.12g, want %.12g", what, got, want)
		}
	}
	// Affinity laws: flow with the speed, head with its square.
	near("worn, no lift", at("worn[main pump]", 0.1, "no-barb[main pump]"), 0.9)
	near("worn, shut off", at("worn[main pump]", 0.1, "shut-off[main pump]"), 0.81)
	near("scale, no lift", at("scale[main pump]", 0.1, "no-barb[main pump]"), 0.9)
	near("scale, shut off", at("scale[main pump]", 0.1, "shut-off[main pump]"), 1)
	near("strainer, taken off", at("strainer[main pump]", 50, "no-strainer[main pump]"), 1)
	near("barb, taken off", at("barb[main pump]", 50, "no-barb[main pump]"), 1)
	near("air, bare", at("air[main pump]", 0.3, "bare[main pump]"), 1)
	near("kink, bare", at("kink[riser]", 50, "bare[main pump]"), 1)
	near("leak, manifold", at("leak", 0.2, "manifold"), 1)
	near("leak, wall", at("leak", 0.2, "wall"), 0.8)
	near("fouled, manifold", at("fouled[main drain]", 5, "manifold"), 1)
	for _, c := range []struct{ id, site string }{
		{"strainer[main pump]", "bare[main pump]"}, {"barb[main pump]", "no-strainer[main pump]"}, {"air[main pump]", "hose"}, {"kink[riser]", "hose"}, {"blocked[drip bar]", "manifold"},
	} {
		bad := 50.0
		if c.id == "air[main pump]" || c.id == "blocked[drip bar]" {
			bad = 0.3
		}
		if got := at(c.id, bad, c.site); !(got < 0.97) {
			t.Errorf("%s leaves %.3f of %s", c.id, got, c.site)
		}
	}
	if got := at("fouled[main drain]", 5, "rise"); !(got > 1.05) {
		t.Errorf("a fouled drain raises the pool by a factor %.3f", got)
	}
}
