// Package hydraulics is a library of formulas for small water circuits: pipe
// friction and fittings, orifices and drip outlets, falling films, pumps,
// gravity drains, weirs, siphons, wicks, and the closed forms for slow transients.
//
// Every function takes and returns plain float64 in SI units: m, m2, m3/s,
// m/s, Pa, s, kg/m3. "Head" is always metres of the flowing water. A loss
// coefficient K is dimensionless, h = K V^2/(2g), and belongs to the velocity
// in a named bore. The package is pure: no I/O, no clock, no state.
//
// Formulas live here; limits (what is too fast, too loud, too full) do not.
// Where a formula is used outside its published range the function says so
// with a second result, ok = false, and still returns the figure, unless its
// comment says otherwise.
package hydraulics

// G is the standard acceleration of gravity, m/s2 (ISO 80000-3; CGPM 1901).
const G = 9.80665
