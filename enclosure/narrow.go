package enclosure

// Narrow changes the band of a doubt, SI, and with it the likely value of every
// figure that carries it: of a Clone, for readings tell more than the file does. A
// band without width stays a doubt, of one value.
func (e *Enclosure) Narrow(doubt int, low, likely, high float64, why string) {
	d := &e.Doubts[doubt]
	d.Low, d.Likely, d.High, d.Why = low, likely, high, why
	e.figures(func(f *Figure) {
		if f.doubt == doubt+1 {
			f.Value = likely
		}
	})
}

// figures calls f for every figure that may be in doubt.
func (e *Enclosure) figures(f func(*Figure)) {
	for _, x := range []*Figure{
		&e.WaterTemperature, &e.Friction, &e.Fittings, &e.TeeLoss, &e.WallTap, &e.StrainerDirt, &e.WaterLost,
		&e.FilmHoldUp, &e.PumpWear, &e.Evaporation, &e.Pool.Displaced,
	} {
		f(x)
	}
	for i := range e.Pool.Zones {
		f(&e.Pool.Zones[i].Displaced)
	}
	for i := range e.Pumps {
		f(&e.Pumps[i].Curve.Shape)
	}
	for i := range e.Manifolds {
		m := &e.Manifolds[i]
		f(&m.Bore)
		f(&m.LevelError)
		for k := range m.Groups {
			f(&m.Groups[k].Hole)
			f(&m.Groups[k].Discharge)
		}
	}
	for i := range e.Runs {
		for k := range e.Runs[i].Pieces {
			f(&e.Runs[i].Pieces[k].Bore)
		}
	}
	for i := range e.Drains {
		d := &e.Drains[i]
		f(&d.LipBore)
		f(&d.Bulkhead)
		f(&d.Intake)
		for k := range d.Pieces {
			f(&d.Pieces[k].Bore)
		}
	}
}
