package quantity

// The Parse functions read a text such as a person writes. Each returns an
// *Error that tells what is wrong and what to write instead.

// ParseLength reads a length: 12 mm, 1 1/2 in, 4 ft 10 in.
func ParseLength(text string) (Length, error) { return read[Length](text, dimLength) }

// ParseArea reads an area: 0.6 m2, 6 sq ft.
func ParseArea(text string) (Area, error) { return read[Area](text, dimArea) }

// ParseVolume reads a volume: 300 ml, 3 US gal.
func ParseVolume(text string) (Volume, error) { return read[Volume](text, dimVolume) }

// ParseFlow reads a flow: 400 L/h, 100 US gal/h.
func ParseFlow(text string) (Flow, error) { return read[Flow](text, dimFlow) }

// ParseFlowPerWidth reads a flow for each width: 400 L/h per m.
func ParseFlowPerWidth(text string) (FlowPerWidth, error) {
	return read[FlowPerWidth](text, dimFlowPerWidth)
}

// ParseSpeed reads a speed: 1.5 m/s.
func ParseSpeed(text string) (Speed, error) { return read[Speed](text, dimSpeed) }

// ParseDuration reads a time: 30 min, 1 h 30 min, 2 days.
func ParseDuration(text string) (Duration, error) { return read[Duration](text, dimDuration) }

// ParseTemperature reads a temperature: 22 C, 72 F.
func ParseTemperature(text string) (Temperature, error) {
	return read[Temperature](text, dimTemperature)
}

// ParseMass reads a mass: 1.5 kg, 3 lb 4 oz.
func ParseMass(text string) (Mass, error) { return read[Mass](text, dimMass) }

// ParsePower reads a power: 20 W.
func ParsePower(text string) (Power, error) { return read[Power](text, dimPower) }

// ParsePressure reads a pressure: 2 kPa, 3 psi, 1 m of water.
func ParsePressure(text string) (Pressure, error) { return read[Pressure](text, dimPressure) }

// ParseAngle reads an angle: 45 deg.
func ParseAngle(text string) (Angle, error) { return read[Angle](text, dimAngle) }

// ParseRatio reads a share: 35 %, 0.35.
func ParseRatio(text string) (Ratio, error) { return read[Ratio](text, dimRatio) }

func read[T ~float64](text string, dim dimension) (T, error) {
	v, err := parse(text, dim)
	return T(v), err
}

func unmarshal[T ~float64](v *T, text []byte, dim dimension) error {
	x, err := parse(string(text), dim)
	if err == nil {
		*v = T(x)
	}
	return err
}

// UnmarshalText implements encoding.TextUnmarshaler, as ParseLength.
func (l *Length) UnmarshalText(text []byte) error { return unmarshal(l, text, dimLength) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseArea.
func (a *Area) UnmarshalText(text []byte) error { return unmarshal(a, text, dimArea) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseVolume.
func (v *Volume) UnmarshalText(text []byte) error { return unmarshal(v, text, dimVolume) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseFlow.
func (f *Flow) UnmarshalText(text []byte) error { return unmarshal(f, text, dimFlow) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseFlowPerWidth.
func (f *FlowPerWidth) UnmarshalText(text []byte) error { return unmarshal(f, text, dimFlowPerWidth) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseSpeed.
func (s *Speed) UnmarshalText(text []byte) error { return unmarshal(s, text, dimSpeed) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseDuration.
func (d *Duration) UnmarshalText(text []byte) error { return unmarshal(d, text, dimDuration) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseTemperature.
func (t *Temperature) UnmarshalText(text []byte) error { return unmarshal(t, text, dimTemperature) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseMass.
func (m *Mass) UnmarshalText(text []byte) error { return unmarshal(m, text, dimMass) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParsePower.
func (p *Power) UnmarshalText(text []byte) error { return unmarshal(p, text, dimPower) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParsePressure.
func (p *Pressure) UnmarshalText(text []byte) error { return unmarshal(p, text, dimPressure) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseAngle.
func (a *Angle) UnmarshalText(text []byte) error { return unmarshal(a, text, dimAngle) }

// UnmarshalText implements encoding.TextUnmarshaler, as ParseRatio.
func (r *Ratio) UnmarshalText(text []byte) error { return unmarshal(r, text, dimRatio) }
