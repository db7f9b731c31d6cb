package design

import (
	"os"
	"strings"
	"testing"

	"rillwright/document"
)

// Writing any value of a file back, in any line ends, changes that value alone.
func TestSetEveryValue(t *testing.T) {
	for name, text := range map[string]string{"starter": string(starter), "starter with CRLF": strings.ReplaceAll(string(starter), "\n", "\r\n"), "sound": sound} {
		// Not Read: that puts measured facts in place of planned ones.
		var before Design
		if list := document.Decode(name, []byte(text), &before); len(list) > 0 {
			t.Fatal(show(list))
		}
		var paths, texts []string
		document.Walk(&before, func(sp document.Spot) {
			if s, _ := sp.Leaf.Source(); sp.Leaf.Given() {
				paths, texts = append(paths, sp.Path), append(texts, s)
			}
		})
		for i, path := range paths {
			changed, err := document.Set([]byte(text), path, texts[i]+" #1")
			if err != nil {
				t.Fatalf("%s: %s: %v", name, path, err)
			}
			var after Design
			document.Decode(name, changed, &after)
			n := 0
			document.Walk(&after, func(sp document.Spot) {
				if s, _ := sp.Leaf.Source(); sp.Leaf.Given() {
					want := texts[n]
					if n == i {
						want += " #1"
					}
					if s != want {
						t.Errorf("%s: setting %s made %s %q, want %q", name, path, sp.Path, s, want)
					}
					n++
				}
			})
			if n != len(paths) {
				t.Errorf("%s: setting %s left %d values of %d", name, path, n, len(paths))
			}
			back, err := document.Set(changed, strings.Replace(path, "["+texts[i]+"].name", "["+texts[i]+" #1].name", 1), texts[i])
			if err != nil || name != "sound" && string(back) != text {
				t.Errorf("%s: %s set there and back differs: %v", name, path, err)
			}
		}
	}
}

// FuzzRead looks for panics in the checks behind the decoder.
func FuzzRead(f *testing.F) {
	f.Add(starter)
	f.Add([]byte(sound))
	if data, err := os.ReadFile("testdata/many.yaml"); err == nil {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, list := Read("f", data)
		if d == nil {
			t.Fatal("no design")
		}
		for _, g := range list {
			if g.What == "" {
				t.Fatalf("a finding without words: %+v", g)
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	data, err := os.ReadFile("../examples/corridor-cabinet.yaml")
	if err != nil {
		b.Skip(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, list := Read("f", data); len(list) > 0 {
			b.Fatal(show(list))
		}
	}
}
