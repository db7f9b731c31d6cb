package document

import (
	"encoding"
	"fmt"
	"strconv"
	"strings"

	"rillwright/quantity"
)

// Leaf is a Field of any type, seen from outside.
type Leaf interface {
	// Given reports whether the file gives the value.
	Given() bool
	// Source returns the text as typed and its place.
	Source() (text string, pos Pos)
	// Read gives the field a text and a place. If the text has no meaning for
	// the field's type the error says why, the value is zero, and text and
	// place are kept all the same.
	Read(text string, pos Pos) error
	// Describe says what may be written, with examples, most usual first.
	Describe() (what string, examples []string)
}

// Describer is for value types that tell a reader what may be written for them.
// Types without it are described by this package.
type Describer interface {
	Describe() (what string, examples []string)
}

// Source returns the text as typed and its place.
func (f *Field[T]) Source() (text string, pos Pos) { return f.Text, f.Pos }

// Read gives the field a text and a place; see Leaf. The error is a
// *quantity.Error unless T cannot hold a text at all.
func (f *Field[T]) Read(text string, pos Pos) error {
	var v T
	err := readInto(&v, text)
	if err != nil {
		var zero T
		v = zero
	}
	f.Value, f.Text, f.Pos = v, text, pos
	return err
}

func readInto(into any, text string) error {
	switch v := into.(type) {
	case encoding.TextUnmarshaler:
		return v.UnmarshalText([]byte(text))
	case *string:
		*v = text
	case *int:
		n, err := readWhole(text)
		*v = n
		return err
	case *bool:
		switch strings.ToLower(strings.TrimSpace(text)) {
		case "yes", "true":
			*v = true
		case "no", "false":
			*v = false
		default:
			return &quantity.Error{Text: text, Problem: "neither yes nor no", Ask: "write yes or no"}
		}
	default:
		return fmt.Errorf("a %T cannot be read from text", into)
	}
	return nil
}

// readWhole reads a whole number in plain digits. A leading zero is refused,
// because YAML programs disagree on whether 010 is ten or eight.
func readWhole(text string) (int, error) {
	digits := strings.TrimSpace(text)
	plain := strings.TrimPrefix(digits, "-")
	n, err := strconv.Atoi(digits)
	switch {
	case plain == "" || strings.Trim(plain, "0123456789") != "":
		return 0, &quantity.Error{Text: text, Problem: "not a whole number", Ask: "write plain digits and nothing else, as 3"}
	case len(plain) > 1 && plain[0] == '0':
		return 0, &quantity.Error{Text: text, Problem: "a zero in front", Ask: "write it without the zero in front"}
	case err != nil || len(plain) > 9:
		return 0, &quantity.Error{Text: text, Problem: "too large", Ask: "write a smaller whole number"}
	}
	return n, nil
}

// Describe says what may be written; see Leaf.
func (f *Field[T]) Describe() (what string, examples []string) {
	return describe(any(&f.Value))
}

func describe(of any) (what string, examples []string) {
	switch v := of.(type) {
	case Describer:
		return v.Describe()
	case *string:
		return "text", nil
	case *int:
		return "a whole number", []string{"3"}
	case *bool:
		return "yes or no", []string{"yes", "no"}
	case *quantity.Length:
		return "a length with its unit", []string{"300 mm", "1.2 m", "11 3/4 in", "2 ft 6 in"}
	case *quantity.Area:
		return "an area with its unit", []string{"0.5 m2"}
	case *quantity.Volume:
		return "a volume with its unit", []string{"40 L", "10 US gal"}
	case *quantity.Flow:
		return "a flow with its unit", []string{"600 L/h", "10 L/min", "200 US gal/h"}
	case *quantity.FlowPerWidth:
		return "a flow for each width, with its unit", []string{"400 L/h per m", "3 US gal/h per in"}
	case *quantity.Speed:
		return "a speed with its unit", []string{"1.5 m/s"}
	case *quantity.Duration:
		return "a time with its unit", []string{"11 h", "15 min"}
	case *quantity.Temperature:
		return "a temperature with its unit", []string{"22 C", "72 F"}
	case *quantity.Mass:
		return "a mass with its unit", []string{"12 kg", "25 lb"}
	case *quantity.Power:
		return "a power with its unit", []string{"22 W"}
	case *quantity.Pressure:
		return "a pressure with its unit", []string{"20 kPa"}
	case *quantity.Angle:
		return "an angle with its unit", []string{"90 deg"}
	case *quantity.Ratio:
		return "a share in per cent, or a plain number", []string{"85 %", "0.85"}
	case *quantity.Money:
		return "an amount of money with its currency code", []string{"38 EUR", "45 USD"}
	case *quantity.Band[quantity.Length]:
		return "a length with its unit, or a range of them", []string{"13.2 mm", "13 to 14 mm"}
	case *quantity.Band[quantity.Flow]:
		return "a flow with its unit, or a range of them", []string{"600 L/h", "500 to 600 L/h"}
	case *quantity.Band[quantity.Ratio]:
		return "a share in per cent or a plain number, or a range of them", []string{"35 %", "30 to 40 %", "0.61 to 0.80"}
	case *quantity.Band[quantity.Speed]:
		return "a speed with its unit, or a range of them", []string{"4 mm/day", "2 to 6 mm/day", "0.1 to 0.2 in/day"}
	case *quantity.Band[quantity.Temperature]:
		return "a temperature with its unit, or a range of them", []string{"18 to 24 C", "22 C"}
	}
	return "a value", nil
}
