package minerals

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const (
	day   = 86400.0
	litre = 1e-3
	mgL   = 1e-3 // kg/m3
)

func TestDissolvedRows(t *testing.T) {
	for _, r := range rows(t, "dissolved_solids") {
		g := Regime{
			Volume: r.num("volume_L") * litre, Evaporation: r.num("evaporation_L_per_day") * litre / day,
			TopUp: r.num("C_topup_mg_L") * mgL, ChangeWater: r.num("C_change_water_mg_L") * mgL,
			Share: r.num("change_fraction"), Every: r.num("change_every_days") * day,
		}
		if err := g.Check(); err != nil {
			t.Fatal(err)
		}
		time := r.num("after_days") * day
		r.want("C_after_mg_L", g.After(r.num("C_start_mg_L")*mgL, time)/mgL, 5e-6)
		r.want("solids_brought_in_mg", g.BroughtIn(time)*1e6, five)
		before, after := g.Limit()
		if r.text("limit_before_change_mg_L") == "" {
			if !math.IsInf(before, 1) || !math.IsInf(after, 1) {
				t.Errorf("%s: limits %g and %g without changes", r.text("case"), before, after)
			}
			continue
		}
		r.want("limit_before_change_mg_L", before/mgL, 5e-6)
		r.want("limit_after_change_mg_L", after/mgL, 5e-6)
		if every := g.EveryFor(before); g.Growth() > 0 && !within(every, g.Every, 1e-12) {
			t.Errorf("%s: %g s keep the limit of %g s", r.text("case"), every, g.Every)
		}
	}
}

func TestTopUpRows(t *testing.T) {
	for _, r := range rows(t, "topup_interval") {
		s := Reserve{r.num("sump_free_area_m2"), r.num("allowed_level_drop_m"), r.num("reservoir_L") * litre}
		e := r.num("net_evaporation_L_per_day") * litre / day
		r.want("buffer_L", s.Buffer()/litre, five)
		r.want("days_by_hand", s.ByHand(e)/day, five)
		r.want("days_with_reservoir", s.Lasts(e)/day, five)
		r.want("concentration_factor_at_low_level", s.Thickens(r.num("system_volume_L")*litre), five)
	}
}

func TestScaleRows(t *testing.T) {
	for _, r := range rows(t, "scale_deposit") {
		hard, alk := r.num("hardness_dGH")*GermanDegree, r.num("alkalinity_meq_L")*Equivalent
		r.want("hardness_mg_L_CaCO3", hard/mgL, five)
		r.want("alkalinity_mg_L_CaCO3", alk/mgL, five)
		rate := ScaleRate(r.num("evaporation_L_per_day")*litre/day, hard, alk)
		mass := rate * r.num("days") * day
		r.want("max_scale_g", mass*1000, five)
		thick := Thickness(mass, r.num("deposit_area_m2"))
		r.want("max_scale_thickness_mm", thick*1000, four)
		// The same thickness from a hole's side: it narrows by twice that.
		if got := NarrowsIn(rate, r.num("deposit_area_m2"), 0.004, 0.004-2*thick); !within(got, r.num("days")*day, 1e-9) {
			t.Errorf("%s: narrows in %g s", r.text("case"), got)
		}
	}
}

func drawRegime(rt *rapid.T) Regime {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
	return Regime{
		Volume: f("v", 0.005, 1), Evaporation: f("e", 0, 1e-7), TopUp: f("top-up", 0, 1), ChangeWater: f("change", 0, 1),
		Share: f("share", 0.01, 1), Every: f("every", 1, 60) * day,
	}
}

// Salt by salt: a ledger that adds what top-up brings and takes out what each
// change carries off gives the closed form.
func TestLedger(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		g := drawRegime(rt)
		start := rapid.Float64Range(0, 2).Draw(rt, "start")
		n := rapid.IntRange(0, 50).Draw(rt, "changes")
		extra := rapid.Float64Range(0, 0.99).Draw(rt, "since") * g.Every
		salt := start * g.Volume
		for range n {
			salt += g.BroughtIn(g.Every)
			salt += g.Share * g.Volume * (g.ChangeWater - salt/g.Volume)
		}
		salt += g.BroughtIn(extra)
		// 1e-14 for what is left of figures near 2 that cancel.
		if got := g.After(start, float64(n)*g.Every+extra); math.Abs(got-salt/g.Volume) > 1e-9*salt/g.Volume+1e-14 {
			rt.Fatalf("%g kg/m3, by the ledger %g", got, salt/g.Volume)
		}
	})
}

// More or larger changes with water at least as pure never leave more dissolved.
func TestMoreChangesNeverMore(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		g := drawRegime(rt)
		b, _ := g.Limit()
		h := g
		h.Every *= rapid.Float64Range(0.1, 1).Draw(rt, "oftener")
		h.Share = min(1, h.Share*rapid.Float64Range(1, 3).Draw(rt, "larger"))
		if c, _ := h.Limit(); c > b*(1+1e-12) {
			rt.Fatalf("limit %g became %g", b, c)
		}
		limit := rapid.Float64Range(0, 3).Draw(rt, "limit")
		if g.Every = g.EveryFor(limit); g.Every > 0 && !math.IsInf(g.Every, 1) {
			if c, _ := g.Limit(); !within(c, limit, 1e-9) {
				rt.Fatalf("limit %g asked, %g kept", limit, c)
			}
		}
	})
}

func TestEnds(t *testing.T) {
	g := Regime{Volume: 0.06, Evaporation: 1e-8, Share: 0.2, Every: day}
	if every := g.EveryFor(0.1); !math.IsInf(every, 1) {
		t.Errorf("pure top-up asks for changes every %g s", every)
	}
	g.TopUp, g.ChangeWater = 0.3, 0.5
	if every := g.EveryFor(0.4); every != 0 {
		t.Errorf("changes with worse water every %g s would help", every)
	}
	if d := (Reserve{Area: 0.1, Drop: 0.05}).ByHand(0); !math.IsInf(d, 1) {
		t.Errorf("lasts %g s with no evaporation", d)
	}
	for _, bad := range []Regime{{}, {Volume: 1, Evaporation: -1}, {Volume: 1, Share: 2}, {Volume: 1, Share: 0.5}, {Volume: math.NaN()}} {
		if bad.Check() == nil {
			t.Errorf("%+v passed", bad)
		}
	}
}

func BenchmarkAfter(b *testing.B) {
	g := Regime{Volume: 0.06, Evaporation: 1e-8, TopUp: 0.3, ChangeWater: 0.3, Share: 0.25, Every: 14 * day}
	b.ReportAllocs()
	for b.Loop() {
		g.After(0.12, 90*day)
	}
}
