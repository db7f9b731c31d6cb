package hydraulics

import (
	"math"
	"testing"
)

// The tests of this file retype published worked examples and check the printed
// answer to its last printed figure.

// S. C. Chapra, Applied Numerical Methods with MATLAB (McGraw-Hill), section
// 6.7, case study "Pipe friction": air through a thin smooth tube, density 1.23
// kg/m3, viscosity 1.79e-5 Pa s, bore 5 mm, 40 m/s, roughness 0.0015 mm. The
// root of Colebrook's equation is given as 0.0289678 and Re as 13 743.
func TestChapraPipeFriction(t *testing.T) {
	const re = 1.23 * 40 * 0.005 / 1.79e-5
	if math.Abs(re-13743) > 0.5 {
		t.Fatalf("Re %.1f", re)
	}
	f, _ := FrictionFactor(re, 0.0015e-3/0.005)
	// Printed by bisection to seven decimals, with an error stated as 6e-5 %
	// (2e-8) in its own last step: half a unit of the last figure covers both.
	if math.Abs(f-0.0289678) > 5e-8 {
		t.Errorf("f = %.9f, want 0.0289678", f)
	}
}

// Y. A. Cengel & J. M. Cimbala, Fluid Mechanics: Fundamentals and Applications
// (McGraw-Hill), example 8-1, p. 349, read as a companion notebook to the book
// rather than in print: glycerine, 1252 kg/m3, 0.3073
// Pa s, 70 m of pipe of 20 mm radius, 6 m/s on the axis, so 3 m/s in the mean.
// Pressure difference 1291 kPa, power 4.87 kW.
func TestCengelLaminarPipe(t *testing.T) {
	const rho, mu = 1252.0, 0.3073
	p, err := NewPipe(70, 0.04, 0, mu/rho, KModel{})
	if err != nil {
		t.Fatal(err)
	}
	q := 3 * CircleArea(0.04)
	h, _ := p.HeadLoss(q)
	if dp := rho * G * h / 1e3; math.Abs(dp-1291) > 0.5 {
		t.Errorf("pressure difference %.1f kPa, want 1291", dp)
	}
	if kw := HydraulicPower(rho, q, h) / 1e3; math.Abs(kw-4.87) > 0.005 {
		t.Errorf("power %.4f kW, want 4.87", kw)
	}
}

// F. M. White, Fluid Mechanics (McGraw-Hill), example 6.7: oil of viscosity 1e-5
// m2/s, 0.2 m3/s through 200 mm cast iron pipe, roughness 0.26 mm; Re 128 000
// and f = 0.0225 read off the Moody chart. White gives the chart itself +-15 %,
// but a reading of three figures is good to about 2 %.
func TestWhiteMoodyReading(t *testing.T) {
	re := 0.2 / CircleArea(0.2) * 0.2 / 1e-5
	if math.Abs(re-128000) > 1000 {
		t.Errorf("Re %.0f, want 128 000 to three figures", re)
	}
	f, _ := FrictionFactor(re, 0.26/200)
	if !within(f, 0.0225, 0.02) {
		t.Errorf("f = %.5f, want 0.0225", f)
	}
}
