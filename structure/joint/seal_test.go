package joint

import (
	"math"
	"slices"
	"testing"
)

const day = 86400.0

func TestVolumeTable(t *testing.T) {
	for _, r := range rows(t, "sealant_volume") {
		a, b := r.num("leg_a_or_width_mm")/1e3, r.num("leg_b_or_depth_mm")/1e3
		section := Butt{a, b}.Area()
		if r.text("kind") == "fillet" {
			section = Fillet{a, b}.Area()
		}
		waste := r.num("waste_fraction")
		v := Volume(section, r.num("length_m"))
		r.want("area_mm2", section*1e6, five)
		r.want("mL_per_m", Volume(section, 1)*1e6, five)
		r.want("total_mL", v*(1+waste)*1e6, five)
		r.want("cartridges_310", float64(Cartridges(v, waste, Cartridge)), 0)
		r.want("cartridges_80", float64(Cartridges(v, waste, Tube)), 0)
		if r.text("fillet_throat_mm") != "" {
			r.want("fillet_throat_mm", 1e3*Fillet{a, b}.Throat(), five)
		}
	}
}

// Bead lengths of the trade: 300 mL make 42 m of 3 mm bead, 24 of 4, 15 of 5,
// 10.6 of 6, 6 of 8; 10.1 fl oz 124, 55, 31 and 14 ft of 1/8 to 3/8 in. They
// are rounded, some to one figure.
func TestBeadLengths(t *testing.T) {
	for mm, m := range map[float64]float64{3: 42, 4: 24, 5: 15, 6: 10.6, 8: 6} {
		if v := Volume(RoundBead(mm/1e3), m); !within(v, 300e-6, 0.02) {
			t.Errorf("%g mm: %g mL", mm, v*1e6)
		}
	}
	for in, ft := range map[float64]float64{1. / 8: 124, 3. / 16: 55, 1. / 4: 31, 3. / 8: 14} {
		if v := Volume(RoundBead(in*0.0254), ft*0.3048); !within(v, CartridgeUS, 0.02) {
			t.Errorf("%g in: %g mL", in, v*1e6)
		}
	}
	// 10.1 fl oz is 18.3 in3 to the nearest tenth or so.
	if !within(CartridgeUS, 18.3*0.0254*0.0254*0.0254, 5e-3) {
		t.Errorf("US cartridge %g", CartridgeUS)
	}
}

func TestCartridgesWhole(t *testing.T) {
	for n := range 50 {
		if got := Cartridges(float64(n)*Cartridge/1.1, 0.1, Cartridge); got != n {
			t.Errorf("%d full cartridges take %d", n, got)
		}
	}
	if n := Cartridges(Cartridge*1.001, 0, Cartridge); n != 2 {
		t.Errorf("a little over one takes %d", n)
	}
}

func TestCureTable(t *testing.T) {
	for _, r := range rows(t, "silicone_cure") {
		c, h := r.num("temperature_C"), r.num("rh_fraction")
		rate := r.num("k_ref_mm_per_sqrt_day") / 1e3 / math.Sqrt(day) * CureFactor(c, h)
		path := r.num("path_depth_mm") / 1e3
		r.want("vapour_pressure_Pa", VapourPressure(c, h), five)
		r.want("k_mm_per_sqrt_day", rate*1e3*math.Sqrt(day), four)
		r.want("depth_1_day_mm", 1e3*CureDepth(rate, day), four)
		r.want("depth_7_days_mm", 1e3*CureDepth(rate, 7*day), four)
		r.want("days_to_cure_path", CureTime(rate, path)/day, four)
		if back := CureDepth(rate, CureTime(rate, path)); !within(back, path, 1e-12) {
			t.Errorf("%g m comes back as %g", path, back)
		}
	}
	// Rule of the trade: days are (mm/2)^2, at the low end.
	if d := CureTime(CureRate().Low, 0.006) / day; !within(d, 9, 1e-12) {
		t.Errorf("6 mm take %g days", d)
	}
}

func TestLabel(t *testing.T) {
	for text, want := range map[string]string{
		"100% Silicone. Acetoxy cure.":                             LabelRight,
		"Plain 100 % silicone, no mould inhibitor":                 LabelRight,
		"100 percent silicone - contains no mildew inhibitors":     LabelRight,
		"100% silicone, mold-resistant":                            LabelWrong,
		"Kitchen & Bath 100% silicone":                             LabelWrong,
		"100% silicone. No added fungicide. Resists mildew.":       LabelWrong,
		"Siliconized acrylic latex caulk":                          LabelWrong,
		"Bonds to glass and acrylic. 100% silicone. Neutral cure.": LabelRight,
		"Sealant, clear": LabelUnclear,
		"No fungicide":   LabelUnclear,
		"":               LabelUnclear,
	} {
		if l := ReadLabel(text); l.Verdict() != want {
			t.Errorf("%q: %s, %+v", text, l.Verdict(), l)
		}
	}
	if l := ReadLabel("100 % silicone, no mould inhibitor"); !slices.Equal(l.Good, []string{"no mould inhibitor", "100 % silicone"}) || l.Bad != nil {
		t.Errorf("%+v", l)
	}
	if ReadLabel("acetic cure").Smell == ReadLabel("neutral cure").Smell || ReadLabel("clear").Smell != "" {
		t.Error("smells")
	}
}
