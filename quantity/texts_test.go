package quantity

import (
	"encoding"
	"testing"
)

// Package document reads every type through this interface; a failed reading
// leaves the value alone.
func TestUnmarshalText(t *testing.T) {
	into := []struct {
		v    encoding.TextUnmarshaler
		text string
	}{
		{new(Length), "1 m"},
		{new(Area), "1 m2"},
		{new(Volume), "1 m3"},
		{new(Flow), "1 m3/s"},
		{new(FlowPerWidth), "1 m2/s"},
		{new(Speed), "1 m/s"},
		{new(Duration), "1 s"},
		{new(Temperature), "1 C"},
		{new(Mass), "1 kg"},
		{new(Power), "1 W"},
		{new(Pressure), "1 Pa"},
		{new(Angle), "1 rad"},
		{new(Ratio), "1"},
		{new(Money), "1 EUR"},
		{new(Band[Length]), "1 m"},
		{new(Band[Temperature]), "1 C"},
		{new(Band[Ratio]), "1"},
	}
	for _, c := range into {
		if err := c.v.UnmarshalText([]byte(c.text)); err != nil {
			t.Errorf("%T %q: %v", c.v, c.text, err)
		}
	}
	if l := *into[0].v.(*Length); l != 1 {
		t.Errorf("length %v, want 1", l)
	}
	for _, c := range into {
		if err := c.v.UnmarshalText([]byte("soon")); err == nil {
			t.Errorf("%T: read %q", c.v, "soon")
		}
	}
	if l, b := *into[0].v.(*Length), *into[14].v.(*Band[Length]); l != 1 || b != Exactly(Length(1)) {
		t.Errorf("a failed reading changed the value: %v %v", l, b)
	}
}
