package structure

import "testing"

func BenchmarkTiltAngle(b *testing.B) {
	s := Standing{Mass: 180, Reach: 0.22, Height: 1, Water: []FreeWater{{Length: 0.4, Depth: 0.15, Mass: 35}, {Length: 0.3, Depth: 0.2, Mass: 20}}}
	b.ReportAllocs()
	for b.Loop() {
		s.TiltAngle()
	}
}

func BenchmarkCheckHoles(b *testing.B) {
	rules, sheet := HoleRules(), Sheet{0.9, 1, 0.006}
	holes := []Hole{{0.1, 0.1, 0.044}, {0.3, 0.1, 0.03}, {0.8, 0.9, 0.02}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := CheckHoles(sheet, rules, holes...); err != nil {
			b.Fatal(err)
		}
	}
}
