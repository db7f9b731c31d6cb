package plate

import "testing"

// One pane, both meshes, errors estimated.
func BenchmarkSolve(b *testing.B) {
	brim := Load{Inner: 0.4, Weight: waterWeight}
	held := glass(0.8, 0.4, 0.006, Held)
	braced := glass(1.2, 0.4, 0.008, Free)
	braced.Braces = []Brace{{Top, 0.55, 0.65, 4e6}}
	bare := glass(1.2, 0.4, 0.008, Free)
	bare.Braces = []Brace{{Top, 0.55, 0.65, 0}}
	floor := glass(0.8, 0.4, 0.006, Free)
	floor.Edges = [4]Support{}
	for _, x := range []float64{0, 0.7} {
		for _, y := range []float64{0, 0.3} {
			floor.Beds = append(floor.Beds, Bed{x, x + 0.1, y, y + 0.1, 1e7})
		}
	}
	for _, c := range []struct {
		name string
		p    *Pane
		l    Load
		s    Settings
	}{
		{"held bending alone", held, brim, Settings{Linear: true}},
		{"free bending alone", glass(0.8, 0.4, 0.006, Free), brim, Settings{Linear: true}},
		{"held", held, brim, Settings{}},
		{"held thin", glass(0.8, 0.4, 0.003, Held), brim, Settings{}},
		{"dam", glass(0.8, 0.4, 0.006, Free), Load{Inner: 0.3, Weight: waterWeight}, Settings{}},
		{"uneven", &Pane{Width: 0.8, Height: 0.4, Thickness: 0.006, Young: 70e9, Poisson: 0.23, Edges: [4]Support{Held, Held, Held, Free}}, brim, Settings{}},
		{"braced", braced, brim, Settings{}},
		{"braced hard", bare, brim, Settings{}},
		{"on four pads", floor, Load{Uniform: 3000}, Settings{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				mustSolve(b, c.p, c.l, c.s)
			}
		})
	}
}
