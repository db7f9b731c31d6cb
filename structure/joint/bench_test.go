package joint

import "testing"

// A grid's ribs: 500 short lines of sealant.
func BenchmarkBond(b *testing.B) {
	var list []Patch
	for i := range 500 {
		list = append(list, Patch{float64(i%25) * 0.03, float64(i/25) * 0.04, 0.002, 0.03})
	}
	load := Hang{Down: 100, X: 0.4, Y: 0.4, Z: 0.05}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Bond(0.5, list, load); err != nil {
			b.Fatal(err)
		}
	}
}
