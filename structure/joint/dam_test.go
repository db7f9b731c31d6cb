package joint

import (
	"math"
	"math/rand/v2"
	"testing"

	"rillwright/source"
)

// The tables were made with water of 1000 kg/m3.
const density = 1000

func TestDamTable(t *testing.T) {
	for _, r := range rows(t, "dam_joint_bite") {
		d := Dam{r.num("dam_width_m"), r.num("water_depth_m")}
		b := Butt{Bite: r.num("bite_mm") / 1e3}
		line := d.MeanLine(density)
		r.want("force_N", d.Force(density), five)
		r.want("mean_line_load_N_per_m", line, five)
		r.want("bite_for_7kPa_mm", 1e3*BiteFor(line, 7e3), five)
		r.want("bite_for_140kPa_mm", 1e3*BiteFor(line, 140e3), five)
		r.want("stress_at_given_bite_kPa", b.Stress(line)/1e3, five)
	}
}

// The peaks are those of a plate solution elsewhere, given to four digits and
// three; what is made of them is checked here.
func TestPeakTable(t *testing.T) {
	for _, r := range rows(t, "dam_joint_peak") {
		d := Dam{r.num("dam_width_m"), r.num("water_depth_m")}
		b := Butt{Bite: r.num("bite_mm") / 1e3}
		line := r.num("peak_bottom_N_per_m")
		r.want("force_N", d.Force(density), five)
		r.want("mean_line_load_N_per_m", d.MeanLine(density), five)
		r.want("peak_over_mean", line/d.MeanLine(density), 5e-3)
		// Two roundings: of the peak that is read and of what is compared.
		stress := b.Stress(line)
		r.want("peak_stress_at_bite_kPa", stress/1e3, 2*four)
		r.want("utilisation_at_7_kPa", stress/7e3, 2*four)
		r.want("utilisation_at_138_kPa", stress/138e3, 2*four)
		r.want("bite_for_7_kPa_mm", 1e3*BiteFor(line, 7e3), 2*four)
		leg := LegFor(line, 20e3)
		r.want("fillet_leg_for_20_kPa_mm", 1e3*leg, 2*four)
		if got := (Fillet{leg, leg}).Stress(line); !within(got, 20e3, 1e-12) {
			t.Errorf("a leg for 20 kPa bears %g Pa", got)
		}
		// The published limits: 1 psi is 7 kPa less 1.5 %, 20 psi is 138 kPa.
		if u := Use(stress, Permanent(), -1); !within(u, r.num("utilisation_at_7_kPa"), 0.02) {
			t.Errorf("%s: %g of 1 psi", r.text("case"), u)
		}
		if u := Use(stress, ShortTerm(), -1); !within(u, r.num("utilisation_at_138_kPa"), 2e-3) {
			t.Errorf("%s: %g of 20 psi", r.text("case"), u)
		}
	}
}

// A pane of 8 by 16 ft under 60 lb/ft2 needs 1 in of bite at 20 lb/in2
// (waterproofing-handbook).
func TestFourSidedBite(t *testing.T) {
	const foot = 0.3048
	if b := FourSidedBite(8*foot, 60*psi/144, 20*psi); !within(b, 0.0254, 1e-12) {
		t.Errorf("bite %g m", b)
	}
}

func TestLimits(t *testing.T) {
	for name, f := range map[string]Figure{
		"short": ShortTerm(), "permanent": Permanent(), "practice": Practice(), "peel": PeelLevel(),
		"modulus": Modulus(), "bond line": LeastBondLine(), "waste": Waste(), "cure": CureRate(),
	} {
		if !(0 < f.Low && f.Low <= f.Likely && f.Likely <= f.High) {
			t.Errorf("%s: %v", name, f.Band)
		}
		if _, ok := source.Lookup(f.Source); !ok {
			t.Errorf("%s: source %q", name, f.Source)
		}
	}
	if p := ShortTerm().Low; !within(p, 0.138e6, 1e-3) {
		t.Errorf("20 psi is %g Pa", p)
	}
	if p := Permanent().Low; !within(p, 6894.757, 1e-6) {
		t.Errorf("1 psi is %g Pa", p)
	}
	if u := PeelUse(440); !within(u, 0.5, 1e-12) {
		t.Errorf("peel %g", u)
	}
	for want, b := range map[StructuralBed]Butt{
		{}:                         {0.012, 0.006},
		{Narrow: true, Thin: true}: {0.004, 0.003},
		{Thin: true, Flat: true}:   {0.01, 0.001},
		{Deep: true}:               {0.007, 0.008},
	} {
		if got := b.Structural(); got != want {
			t.Errorf("%+v: %+v", b, got)
		}
	}
}

// An equal fillet's throat is leg/sqrt(2), a long one's tends to its short leg;
// none has a throat over either leg.
func TestThroat(t *testing.T) {
	if h := (Fillet{1, 1e6}).Throat(); !within(h, 1, 1e-9) {
		t.Errorf("long fillet %g", h)
	}
	if h := (Fillet{0.01, 0}).Throat(); h != 0 {
		t.Errorf("no fillet %g", h)
	}
	r := rand.New(rand.NewPCG(1, 1))
	for range 100 {
		f := Fillet{r.Float64(), r.Float64()}
		if h := f.Throat(); h > min(f.A, f.B) || !within(h, Fillet{f.B, f.A}.Throat(), 1e-12) || h < min(f.A, f.B)/math.Sqrt2 {
			t.Errorf("%+v: %g", f, h)
		}
	}
}

// With no turning peel is the mean. A thick bed bends like rubber that draws in
// freely, a thin one like a film between plates, whose peak by hand is
// E s b^3/(18 sqrt(3) e^3) (the largest of x b^2/4 - x^3 is b^3/(12 sqrt 3)). The
// sum is never less than either, and rises with slope, modulus and bite.
func TestPeel(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 500 {
		b := Butt{0.002 + 0.02*r.Float64(), 0.0005 + 0.006*r.Float64()}
		line, slope, e := 1000*r.Float64(), 0.01*r.Float64(), 1e6*r.Float64()
		p := b.Peel(line, slope, e)
		free := 4. / 3 * e * slope * b.Bite / (2 * b.Thickness)
		ratio := b.Bite / b.Thickness
		held := e * slope * ratio * ratio * ratio / (18 * math.Sqrt(3))
		if p.Peak < p.Mean+max(free, held)*(1-1e-12) || p.Peak > p.Mean+free+held {
			t.Fatalf("%+v: %+v, free %g, held %g", b, p, free, held)
		}
		if !within(p.Gap, slope*b.Bite/2, 1e-12) || p.At > b.Bite/2 || p.At < 0.57*b.Bite/2 {
			t.Fatalf("%+v: %+v", b, p)
		}
		if b.Peel(line, 2*slope, e).Peak < p.Peak || b.Peel(line, slope, 2*e).Peak < p.Peak || b.Peel(line, -slope, e) != p {
			t.Fatalf("%+v falls", b)
		}
		// Twice the size, load and all, bears the same.
		if q := (Butt{2 * b.Bite, 2 * b.Thickness}).Peel(2*line, slope, e); !within(q.Peak, p.Peak, 1e-12) {
			t.Fatalf("scaled %+v, %+v", p, q)
		}
	}
	thick := Butt{0.001, 1}.Peel(0, 0.01, 1e6)
	if !within(thick.Peak, 2./3*1e6*0.01*0.001, 1e-5) {
		t.Errorf("thick %g", thick.Peak)
	}
	thin := Butt{1, 1e-4}.Peel(0, 1e-9, 1e6)
	if !within(thin.Peak, 1e-3*1e12/(18*math.Sqrt(3)), 1e-5) {
		t.Errorf("thin %g", thin.Peak)
	}
	if p := (Butt{0.01, 0.001}).Peel(100, 0, 1e6); p.Peak != p.Mean || !within(p.Mean, 1e4, 1e-12) {
		t.Errorf("no slope %+v", p)
	}
}

// A strip of unit load q bows 5 q L^4/(384 EI) and slopes q L^3/(24 EI) at its
// ends (any handbook of beams): 16/5 of bow over length.
func TestEndSlope(t *testing.T) {
	if s := EndSlope(5./384*81, 3); !within(s, 27./24, 1e-12) {
		t.Errorf("slope %g", s)
	}
}

// A fillet with a flat face lies between two quarters of a ring, one up to its
// throat and one up to the end of its legs, so that it is as stiff as something
// between the two (what is cut off a conductor never lets more through). Thinner
// beds and smaller fillets leave more to the bed; size and which leg is which
// change nothing.
func TestBedShare(t *testing.T) {
	stiff := func(b Butt, share float64) float64 { return b.Bite / b.Thickness * (1/share - 1) }
	r := rand.New(rand.NewPCG(4, 4))
	for range 300 {
		b := Butt{0.003 + 0.01*r.Float64(), 0.0003 + 0.001*r.Float64()}
		f := Fillet{0.003 + 0.01*r.Float64(), 0}
		f.B = f.A
		s := BedShare(b, f)
		if !(s > 0 && s < 1) {
			t.Fatalf("%+v, %+v: %g", b, f, s)
		}
		ring := func(out float64) float64 { return 2 / math.Pi * math.Log(out/b.Thickness) }
		if k := stiff(b, s); k < ring(f.A/math.Sqrt2) || k > ring(f.A+b.Thickness)*(1+1e-9) {
			t.Fatalf("%+v, %+v: stiff as %g, not from %g to %g", b, f, k, ring(f.A/math.Sqrt2), ring(f.A+b.Thickness))
		}
		if BedShare(Butt{b.Bite, b.Thickness / 2}, f) <= s || BedShare(b, Fillet{2 * f.A, 2 * f.A}) >= s {
			t.Fatalf("%+v, %+v turns round", b, f)
		}
		if !within(BedShare(Butt{2 * b.Bite, 2 * b.Thickness}, Fillet{2 * f.A, 2 * f.B}), s, 1e-12) || BedShare(b, Fillet{f.A, 3 * f.A}) != BedShare(b, Fillet{3 * f.A, f.A}) {
			t.Fatalf("%+v, %+v: not by shape alone", b, f)
		}
	}
	if s := BedShare(Butt{0.006, 0.001}, Fillet{0.006, 0}); s != 1 {
		t.Errorf("no fillet: %g", s)
	}
	// By hand: a bed of 6 by 1 mm beside legs of 6 mm, 6/(6 + 0.6366 ln 7).
	if s := BedShare(Butt{0.006, 0.001}, Fillet{0.006, 0.006}); !within(s, 0.8289, 1e-4) {
		t.Errorf("6 mm: %g", s)
	}
}
