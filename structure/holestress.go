package structure

import "math"

// WideHoleStress returns the largest stress (Pa) beside a round hole much wider
// than the pane is thick, in a pane whose bending stresses at that place, without
// the hole, are s1 and s2 (principal, of one face, Pa, in any order, tension
// positive):
//
//	s1 + s2 + 2 (1 + nu)/(3 + nu) (s1 - s2), s1 >= s2
//
// Far from edges and other holes.
// Source: Goodier 1936, from memory.
func WideHoleStress(s1, s2, poisson float64) float64 {
	return s1 + s2 + 2*(1+poisson)/(3+poisson)*math.Abs(s1-s2)
}

// NarrowHoleStress returns the same for a hole much narrower than the pane is
// thick, and for a sheet that is pulled: 3 s1 - s2, s1 >= s2.
// Source: Kirsch 1898, from memory.
func NarrowHoleStress(s1, s2 float64) float64 {
	return 3*max(s1, s2) - min(s1, s2)
}

// HoleStress returns the largest stress (Pa) beside a round hole of any diameter
// (m, over 0) in a pane of thickness t (m, over 0) that is bent, between
// NarrowHoleStress and WideHoleStress: the stress of the wide hole plus a share of
// the difference,
//
//	share = w(d/t)/w(0), w(x) = 0.25/(0.39 + x) + 0.81/(1 + x^2) - 0.26/(1 + x^3)
//
// Far from edges and other holes; see EdgeFactor. Both ends are known; the step
// between them is Roark's curve for bending one way at nu 0.3, from memory.
func HoleStress(s1, s2, poisson, d, t float64) float64 {
	wide := WideHoleStress(s1, s2, poisson)
	return wide + holeStep(d/t)*(NarrowHoleStress(s1, s2)-wide)
}

// holeStep falls from 1 for a narrow hole to 0 for a wide one.
func holeStep(x float64) float64 {
	w := func(x float64) float64 { return 0.25/(0.39+x) + 0.81/(1+x*x) - 0.26/(1+x*x*x) }
	return w(x) / w(0)
}

// EdgeFactor returns by how much the stress beside a hole of diameter d (m, over
// 0) rises because its centre lies only some distance (m) from a free edge, along
// which the stress runs, 1 or more, with r = (d/2)/distance:
//
//	(2 + (1 - r)^3)/(3 (1 - r))
//
// +Inf where the hole touches or cuts the edge. This is the rise in a strip that
// has such an edge on both sides of the hole, which bounds that of one edge: the
// true rise for one is up to 14 % less at r = 0.5, 38 % at 0.7, for a pulled
// sheet; bending is taken to be no worse (assumed). Another hole counts as an
// edge half-way to it (assumed).
//
// Source: Heywood 1952, from memory; checked against a solution for one edge.
func EdgeFactor(d, distance float64) float64 {
	r := d / 2 / distance
	if !(r >= 0 && r < 1-1e-9) { // a hair, from sums of lengths, is no glass
		return math.Inf(1)
	}
	s := 1 - r
	return (2 + s*s*s) / (3 * s)
}
