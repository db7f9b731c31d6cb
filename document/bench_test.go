package document

import (
	"fmt"
	"strings"
	"testing"
)

// longShed is a sound file of about 300 lines.
func longShed() []byte {
	var b strings.Builder
	b.WriteString(strings.Split(soundShed, "shelf:")[0] + "shelf:\n")
	for i := range 75 {
		fmt.Fprintf(&b, "  - name: plank %d   # as bought\n    length: 300 mm\n    holes:\n      - { size: 1/2 in }\n", i)
	}
	return []byte(b.String())
}

func BenchmarkDecode(b *testing.B) {
	data := longShed()
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		var s shed
		if list := Decode("shed.yaml", data, &s); len(list) > 0 {
			b.Fatal(list)
		}
	}
}

func BenchmarkSet(b *testing.B) {
	data := longShed()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Set(data, "shelf[plank 40].length", "12 mm"); err != nil {
			b.Fatal(err)
		}
	}
}
