package workbench

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// edges tells how far the picture reaches up and to the right, as shares of the canvas,
// above the floor's lines.
const edges = `(() => {
	const c = document.querySelector("canvas.space"), d = document.createElement("canvas")
	const [w, h] = [d.width, d.height] = [c.width, c.height]
	const g = d.getContext("2d")
	g.drawImage(c, 0, 0)
	const px = g.getImageData(0, 0, w, h).data
	let top = h, right = 0
	for (let y = 0; y < h * 0.6; y++) for (let x = 0; x < w; x++) if (px[4 * (y * w + x) + 3] > 0) {
		top = Math.min(top, y)
		right = Math.max(right, x)
	}
	return [1 - top / h, right / w]
})()`

// The enclosure can be cut in three ways, by keyboard alone, and each takes away what
// it says: what is above, to the right, or to the front.
func TestPageCut(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("Look")
	p.until(`Number(document.querySelector("canvas.space")?.dataset.drawn) > 0`)
	reach := func(from string) []float64 {
		t.Helper()
		before := js[int](p, `Number(document.querySelector("canvas.space").dataset.drawn)`)
		p.press(from)
		p.until(fmt.Sprintf(`Number(document.querySelector("canvas.space").dataset.drawn) > %d`, before))
		return js[[]float64](p, edges)
	}
	whole := map[string][]float64{"front": reach("front"), "side": reach("side")}
	js[bool](p, `(window.way = document.querySelector(".reins .cut select"), window.way.focus(), true)`)
	for _, c := range []struct {
		name, from string
		side       int
	}{{"across", "front", 1}, {"front to back", "side", 1}, {"level", "front", 0}} {
		if got := js[string](p, `document.activeElement.selectedOptions[0].textContent`); got != c.name {
			t.Fatalf("%q is chosen, not %q", got, c.name)
		}
		p.do(chromedp.KeyEvent(kb.Tab)) // to how much is cut away
		if got := js[string](p, `document.activeElement.type`); got != "range" {
			t.Fatalf("after the cut's way comes a %q", got)
		}
		p.do(chromedp.KeyEvent(kb.Home))
		for range 3 {
			p.do(chromedp.KeyEvent(kb.PageUp))
		}
		left := js[float64](p, `document.activeElement.valueAsNumber`)
		if left < 10 || left > 60 {
			t.Fatalf("%g %% are left", left)
		}
		js[bool](p, `(window.range = document.activeElement, true)`)
		// The picture may be a moment behind the keys.
		all := whole[c.from][c.side]
		p.wait(c.name+" takes its part of the picture away", func() bool { return reach(c.from)[c.side] < all-0.03 })
		// All of it is there again, and the next way is chosen.
		js[bool](p, `(window.range.focus(), true)`)
		p.do(chromedp.KeyEvent(kb.End))
		p.wait(c.name+" gives it back", func() bool { return reach(c.from)[c.side] >= all-0.005 })
		js[bool](p, `(window.way.focus(), true)`)
		p.do(chromedp.KeyEvent(kb.ArrowDown))
	}
	p.clean()
}

// TestPageOrbit tells, and does not judge, how many pictures a second are drawn, here in
// software, while the enclosure is turned; and that each move of the hand is followed.
func TestPageOrbit(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("Look")
	p.until(`Number(document.querySelector("canvas.space")?.dataset.drawn) > 0`)
	for _, running := range []bool{false, true} {
		what := "the water still"
		if running {
			what = "the water running"
			p.press("Let it run")
		}
		got := js[[]float64](p, `(async () => {
			const c = document.querySelector("canvas.space"), r = c.getBoundingClientRect()
			c.setPointerCapture = c.releasePointerCapture = () => {}
			const at = (kind, k) => c.dispatchEvent(new PointerEvent(kind, {bubbles: true, pointerId: 1, pointerType: "mouse", button: 0, buttons: 1, clientX: r.left + r.width / 2 + 200 * Math.sin(k / 15), clientY: r.top + r.height / 2, pageX: 0}))
			const began = performance.now(), drawn = Number(c.dataset.drawn)
			at("pointerdown", 0)
			let moves = 0
			while (performance.now() - began < 2000) {
				at("pointermove", ++moves)
				await new Promise(requestAnimationFrame)
			}
			at("pointerup", moves)
			return [(Number(c.dataset.drawn) - drawn) * 1000 / (performance.now() - began), moves, c.width, c.height]
		})()`)
		t.Logf("turned with %s: %.0f pictures a second of %.0f by %.0f pixels, drawn in software", what, got[0], got[2], got[3])
		if got[0] == 0 || got[1] == 0 {
			t.Errorf("%v", got)
		}
	}
	p.press("Stop the water")
	p.clean()
}
