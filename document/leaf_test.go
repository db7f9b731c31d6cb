package document

import (
	"testing"

	"rillwright/quantity"
)

// What a message offers as an example must itself be readable.
func TestDescribeExamplesAreRead(t *testing.T) {
	for _, l := range []Leaf{
		new(Field[string]), new(Field[int]), new(Field[bool]), new(Field[quantity.Length]), new(Field[quantity.Area]), new(Field[quantity.Volume]),
		new(Field[quantity.Flow]), new(Field[quantity.FlowPerWidth]), new(Field[quantity.Speed]), new(Field[quantity.Duration]),
		new(Field[quantity.Temperature]), new(Field[quantity.Mass]), new(Field[quantity.Power]), new(Field[quantity.Pressure]),
		new(Field[quantity.Angle]), new(Field[quantity.Ratio]), new(Field[quantity.Money]), new(Field[quantity.Band[quantity.Length]]),
		new(Field[quantity.Band[quantity.Flow]]), new(Field[quantity.Band[quantity.Ratio]]), new(Field[quantity.Band[quantity.Temperature]]),
		new(Field[quantity.Band[quantity.Speed]]),
	} {
		what, examples := l.Describe()
		if what == "a value" || what == "" {
			t.Errorf("%T is not described", l)
		}
		for _, e := range examples {
			if err := l.Read(e, Pos{1, 1, 1}); err != nil {
				t.Errorf("%T: example %q: %v", l, e, err)
			}
		}
	}
}

func TestReadWholeAndYesNo(t *testing.T) {
	var n Field[int]
	for text, want := range map[string]int{"3": 3, "7\n": 7, "-2": -2, "0": 0, "999999999": 999999999} {
		if err := n.Read(text, Pos{}); err != nil || n.Value != want {
			t.Errorf("%q: %d, %v", text, n.Value, err)
		}
	}
	for _, text := range []string{"", "-", "+3", "3.0", "1e3", "0x3", "007", "1 2", "١", "1000000000", "--1"} {
		if err := n.Read(text, Pos{}); err == nil || n.Value != 0 || n.Text != text {
			t.Errorf("%q was read as %d", text, n.Value)
		}
	}
	var b Field[bool]
	for text, want := range map[string]bool{"yes": true, "Yes": true, "true": true, "no": false, "FALSE": false} {
		if err := b.Read(text, Pos{}); err != nil || b.Value != want {
			t.Errorf("%q: %v, %v", text, b.Value, err)
		}
	}
	if err := b.Read("1", Pos{}); err == nil {
		t.Error("1 was read as yes or no")
	}
}

type secret struct{ kept string }

func (s *secret) UnmarshalText(b []byte) error { s.kept = string(b); return nil }

func (*secret) Describe() (what string, examples []string) { return "a secret", []string{"x"} }

// A type of another package can bring its own reading and its own words.
func TestOwnType(t *testing.T) {
	var f Field[secret]
	if err := f.Read("hush", Pos{}); err != nil || f.Value.kept != "hush" {
		t.Errorf("%+v, %v", f, err)
	}
	if what, ex := f.Describe(); what != "a secret" || len(ex) != 1 {
		t.Errorf("%q, %q", what, ex)
	}
	var c Field[complex128]
	if err := c.Read("1", Pos{}); err == nil {
		t.Error("a type that cannot be read from text was read")
	}
}
