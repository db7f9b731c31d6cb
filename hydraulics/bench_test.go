package hydraulics

import "testing"

// sink keeps the compiler from dropping the measured call.
var sink float64

func BenchmarkFrictionFactor(b *testing.B) {
	regimes := []struct {
		name string
		re   float64
	}{{"laminar", 1200}, {"transition", 3000}, {"turbulent", 12000}}
	for _, r := range regimes {
		b.Run(r.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := range b.N {
				f, d := FrictionFactor(r.re+float64(i&63), 1e-4)
				sink = f + d
			}
		})
		b.Run(r.name+" prepared", func(b *testing.B) {
			b.ReportAllocs()
			fr := NewFriction(1e-4)
			for i := range b.N {
				f, d := fr.At(r.re + float64(i&63))
				sink = f + d
			}
		})
	}
}

func BenchmarkThinHoleCd(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		c, d := ThinHoleCd(1500 + float64(i&63))
		sink = c + d
	}
}
