package workbench

import "testing"

// mostFirst is what the page may load of scripts for its first view, packed: 350 KiB,
// as tools/bundle holds it by what files say that they need. Here a browser tells what
// it really loaded.
const mostFirst = 350 << 10

func TestPageWeighs(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.until(`Number(document.querySelector("canvas.space")?.dataset.drawn) > 0`)
	type script struct {
		Name string
		Size int
	}
	loaded := js[[]script](p, `performance.getEntriesByType("resource").filter(r => r.name.endsWith(".js")).map(r => ({Name: r.name, Size: r.encodedBodySize}))`)
	total := 0
	for _, s := range loaded {
		if s.Size == 0 {
			t.Errorf("%s has no size", s.Name)
		}
		total += s.Size
	}
	t.Logf("%d scripts, %d bytes packed, of %d", len(loaded), total, mostFirst)
	if len(loaded) < 3 || total > mostFirst {
		t.Errorf("%d scripts of %d bytes: %v", len(loaded), total, loaded)
	}
	p.clean()
}
