package quantity

// Every type shows itself in three ways: Show rounds for people, In gives the
// unrounded number and its unit for programs, ShowIn prints every digit in a
// unit of one's choice (and panics on a unit that does not fit the type).

// Show returns the amount rounded for people, in the system's usual unit.
func (l Length) Show(sys System) string { return show(float64(l), dimLength, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (l Length) In(sys System) (value float64, unit string) { return in(float64(l), dimLength, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (l Length) ShowIn(unit string) string { return exactly(float64(l), dimLength, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (a Area) Show(sys System) string { return show(float64(a), dimArea, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (a Area) In(sys System) (value float64, unit string) { return in(float64(a), dimArea, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (a Area) ShowIn(unit string) string { return exactly(float64(a), dimArea, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (v Volume) Show(sys System) string { return show(float64(v), dimVolume, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (v Volume) In(sys System) (value float64, unit string) { return in(float64(v), dimVolume, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (v Volume) ShowIn(unit string) string { return exactly(float64(v), dimVolume, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (f Flow) Show(sys System) string { return show(float64(f), dimFlow, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (f Flow) In(sys System) (value float64, unit string) { return in(float64(f), dimFlow, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (f Flow) ShowIn(unit string) string { return exactly(float64(f), dimFlow, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (f FlowPerWidth) Show(sys System) string { return show(float64(f), dimFlowPerWidth, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (f FlowPerWidth) In(sys System) (value float64, unit string) {
	return in(float64(f), dimFlowPerWidth, sys)
}

// ShowIn returns the amount with every digit in the named unit.
func (f FlowPerWidth) ShowIn(unit string) string { return exactly(float64(f), dimFlowPerWidth, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (s Speed) Show(sys System) string { return show(float64(s), dimSpeed, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (s Speed) In(sys System) (value float64, unit string) { return in(float64(s), dimSpeed, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (s Speed) ShowIn(unit string) string { return exactly(float64(s), dimSpeed, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (d Duration) Show(sys System) string { return show(float64(d), dimDuration, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (d Duration) In(sys System) (value float64, unit string) {
	return in(float64(d), dimDuration, sys)
}

// ShowIn returns the amount with every digit in the named unit.
func (d Duration) ShowIn(unit string) string { return exactly(float64(d), dimDuration, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (t Temperature) Show(sys System) string { return show(float64(t), dimTemperature, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (t Temperature) In(sys System) (value float64, unit string) {
	return in(float64(t), dimTemperature, sys)
}

// ShowIn returns the amount with every digit in the named unit.
func (t Temperature) ShowIn(unit string) string { return exactly(float64(t), dimTemperature, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (m Mass) Show(sys System) string { return show(float64(m), dimMass, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (m Mass) In(sys System) (value float64, unit string) { return in(float64(m), dimMass, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (m Mass) ShowIn(unit string) string { return exactly(float64(m), dimMass, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (p Power) Show(sys System) string { return show(float64(p), dimPower, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (p Power) In(sys System) (value float64, unit string) { return in(float64(p), dimPower, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (p Power) ShowIn(unit string) string { return exactly(float64(p), dimPower, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (p Pressure) Show(sys System) string { return show(float64(p), dimPressure, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (p Pressure) In(sys System) (value float64, unit string) {
	return in(float64(p), dimPressure, sys)
}

// ShowIn returns the amount with every digit in the named unit.
func (p Pressure) ShowIn(unit string) string { return exactly(float64(p), dimPressure, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (a Angle) Show(sys System) string { return show(float64(a), dimAngle, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (a Angle) In(sys System) (value float64, unit string) { return in(float64(a), dimAngle, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (a Angle) ShowIn(unit string) string { return exactly(float64(a), dimAngle, unit) }

// Show returns the amount rounded for people, in the system's usual unit.
func (r Ratio) Show(sys System) string { return show(float64(r), dimRatio, sys) }

// In returns the amount, unrounded, as a number in the system's usual unit.
func (r Ratio) In(sys System) (value float64, unit string) { return in(float64(r), dimRatio, sys) }

// ShowIn returns the amount with every digit in the named unit.
func (r Ratio) ShowIn(unit string) string { return exactly(float64(r), dimRatio, unit) }

// Show returns the band rounded for people, "294 to 444 L/h", both ends in the
// unit that suits the higher one, or one figure if the ends look alike.
func (b Band[T]) Show(sys System) string {
	dim := dimensionOf[T]()
	size := max(float64(b.High), -float64(b.Low))
	name, decimals := shown(size, dim, sys)
	low, high := showAs(float64(b.Low), dim, name, decimals), showAs(float64(b.High), dim, name, decimals)
	if low == high {
		return high
	}
	return low[:len(low)-len(name)-1] + " to " + high
}

// ShowLikely returns the likely figure in the unit and rounding of Show.
func (b Band[T]) ShowLikely(sys System) string {
	dim := dimensionOf[T]()
	name, decimals := shown(max(float64(b.High), -float64(b.Low)), dim, sys)
	return showAs(float64(b.Likely), dim, name, decimals)
}

// ShowThree returns low, likely and high, "2.6 - 2.9 - 3.2 m/s", in the unit and
// rounding of Show, or one figure if all three look alike.
func (b Band[T]) ShowThree(sys System) string {
	dim := dimensionOf[T]()
	name, decimals := shown(max(float64(b.High), -float64(b.Low)), dim, sys)
	bare := func(v T) string {
		s := showAs(float64(v), dim, name, decimals)
		return s[:len(s)-len(name)-1]
	}
	low, likely, high := bare(b.Low), bare(b.Likely), bare(b.High)
	if low == high {
		return high + " " + name
	}
	return low + " - " + likely + " - " + high + " " + name
}

// Reading returns an amount, SI, as a number in a unit named as In names it.
func Reading[T ~float64](v T, unit string) float64 { return inUnit(float64(v), unit) }

// In returns the three figures, unrounded, in the unit that suits the likely
// one.
func (b Band[T]) In(sys System) (low, likely, high float64, unit string) {
	likely, unit = in(float64(b.Likely), dimensionOf[T](), sys)
	return inUnit(float64(b.Low), unit), likely, inUnit(float64(b.High), unit), unit
}
