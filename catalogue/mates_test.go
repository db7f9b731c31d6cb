package catalogue

import "testing"

// Whatever joins is of forms that meet: Adapters looks at no other.
func TestFormsMeet(t *testing.T) {
	c := builtin(t)
	var ends []End
	for _, p := range c.Parts() {
		ends = append(ends, p.Ends...)
	}
	joined := 0
	for i, a := range ends {
		for _, b := range ends[i:] {
			if ok, _ := Mates(a, b); ok {
				joined++
				if !formsMeet(a, b) || !formsMeet(b, a) {
					t.Fatalf("%v and %v join", a, b)
				}
			}
		}
	}
	if joined == 0 {
		t.Error("nothing joins")
	}
}
