package commission

import (
	"testing"

	"rillwright/quantity"
	"rillwright/record"
)

func TestShowReading(t *testing.T) {
	n := record.Names{Pumps: []string{"p"}, Manifolds: []string{"m"}}
	for line, want := range map[string]string{
		"bare 10 L in 36 s": "1000 L/h", "shut-off 1.5 m": "1.50 m", "rise 12 mm, 14 mm": "13 mm", "cups 50 %": "50 %",
		"restart 40 s": "40 s", "top-up 2 L in 4 days": "500 ml a day", "breaker ok": "", "cleaned strainer": "",
		"cups 0 0 0 ml in 30 s": "",
	} {
		r, err := record.Typed(line, n)
		if err != nil {
			t.Fatal(err)
		}
		if got := ShowReading(&r, quantity.Metric); got != want {
			t.Errorf("%q is shown as %q, want %q", line, got, want)
		}
	}
}
