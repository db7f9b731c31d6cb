package workbench

import (
	"encoding/json"
	"fmt"
	"os"
	"runtime/debug"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

var viewNames = []string{"Answers", "Look", "Curves", "What if", "Climate", "Chances", "Choices", "File", "Plan", "Cut and buy", "Aisle", "Bench"}

// Nothing is cut off or pushes the page wider than the screen.
func TestPageWidths(t *testing.T) {
	for _, width := range []int64{360, 768, 1440} {
		p := openPage(t, width, 800)
		for _, v := range viewNames {
			p.view(v)
			if w := js[int64](p, `document.scrollingElement.scrollWidth`); w > width {
				t.Errorf("%s at %d is %d wide", v, width, w)
			}
			cut := js[[]string](p, `[...document.querySelectorAll("button, label, h1, h2, h3, p, dt, dd, li, legend")].filter(e => e.offsetParent && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX !== "visible" && getComputedStyle(e).display !== "inline").map(e => e.textContent.slice(0, 60))`)
			if len(cut) > 0 {
				t.Errorf("%s at %d cuts off %q", v, width, cut)
			}
		}
		p.clean()
	}
}

// All can be reached and worked with the keyboard alone.
func TestPageKeyboard(t *testing.T) {
	p := openPage(t, 1440, 900)
	reach := func(want string) {
		t.Helper()
		for range 120 {
			p.do(chromedp.KeyEvent(kb.Tab))
			if js[bool](p, fmt.Sprintf(`document.activeElement.matches(%q)`, want)) {
				if !js[bool](p, `(s => s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2)(getComputedStyle(document.activeElement))`) {
					t.Errorf("%s shows no focus", want)
				}
				return
			}
		}
		t.Fatalf("%s cannot be reached", want)
	}
	reach(".answer h3 button")
	p.do(chromedp.KeyEvent(kb.Enter))
	p.until(`document.querySelector(".answer.open .say") !== null`)
	js[bool](p, `(document.activeElement.blur(), window.scrollTo(0, 0), document.querySelector(".skip").focus(), true)`)
	reach(`.views button:nth-child(7)`)
	p.do(chromedp.KeyEvent(kb.Enter))
	p.until(`document.querySelector(".cm-content, .form") !== null`)
	// Out of the editor again.
	js[bool](p, `(document.querySelector(".cm-content").focus(), true)`)
	p.do(chromedp.KeyEvent(kb.Escape), chromedp.KeyEvent(kb.Tab))
	if js[bool](p, `document.activeElement.matches(".cm-content")`) {
		t.Errorf("no way out of the editor: %s", js[string](p, `document.activeElement.outerHTML.slice(0, 200)`))
	}
	p.clean()
}

// axe holds what is shown against axe-core, a general checker of accessibility.
func (p *page) axe(what string) {
	p.t.Helper()
	text, err := os.ReadFile("web/node_modules/axe-core/axe.min.js")
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") != "" {
			p.t.Fatal("run npm ci in workbench/web: ", err)
		}
		p.t.Skip("axe-core is missing: run npm ci in workbench/web")
	}
	if !js[bool](p, `"axe" in window`) {
		js[int](p, string(text)+";0")
	}
	found := js[string](p, `axe.run({resultTypes: ["violations"]}).then(r => JSON.stringify(r.violations.map(v => v.id + ": " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120) + " " + n.failureSummary).join(" | "))))`)
	var list []string
	if err := json.Unmarshal([]byte(found), &list); err != nil {
		p.t.Fatal(err)
	}
	for _, s := range list {
		p.t.Errorf("%s: %s", what, s)
	}
}

// axe-core finds nothing in any view, light or dark, wide or narrow.
func TestPageAccessible(t *testing.T) {
	for _, width := range []int64{360, 1440} {
		for _, theme := range []string{"light", "dark"} {
			p := openPage(t, width, 900)
			js[bool](p, fmt.Sprintf(`(localStorage.setItem("rillwright:theme", %q), true)`, theme))
			p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(p.url+"#wall.yaml"))
			p.until(`document.querySelectorAll(".answer").length > 5`)
			for _, v := range append(slices.Clone(viewNames), "a fix on trial") {
				if v == "a fix on trial" {
					p.view("Answers")
					openWithFixes(p)
					p.tries(0)
				} else {
					p.view(v)
				}
				if v == "Answers" {
					js[bool](p, `(document.querySelectorAll(".answer h3 button")[0].click(), true)`)
					p.until(`document.querySelector(".answer.open .say") !== null`)
				}
				p.axe(fmt.Sprintf("%s, %s, %d wide", v, theme, width))
			}
		}
	}
}

// While nobody does anything the picture is not drawn again.
func TestPageIdle(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("Look")
	p.until(`Number(document.querySelector("canvas")?.dataset.drawn) > 0`)
	p.until(`document.querySelector(".fixes, .pulse").textContent !== ""`)
	time.Sleep(2 * time.Second) // the second pass, with fixes, has come
	before := js[int](p, `Number(document.querySelector("canvas").dataset.drawn)`)
	time.Sleep(700 * time.Millisecond)
	if after := js[int](p, `Number(document.querySelector("canvas").dataset.drawn)`); after != before {
		t.Errorf("drawn %d times while idle", after-before)
	}
	p.press("Let it run")
	p.until(fmt.Sprintf(`Number(document.querySelector("canvas").dataset.drawn) > %d`, before+3))
	p.press("Stop the water")
	p.clean()
}

// TestPageEditTime tells, and does not judge, how long edits take.
func TestPageEditTime(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(HeapGrowth))
	p := openPage(t, 1440, 900)
	took := js[[]float64](p, `(async () => {
		const text = await (await fetch("/api/designs/wall.yaml")).json()
		const times = []
		for (let i = 0; i < 40; i++) {
			times.push(await window.rillwrightEdit(text.text.replace("height: 200 mm\n  thickness", "height: " + (200 + i % 7) + " mm\n  thickness") + "\n# " + i))
		}
		return times
	})()`)
	slices.Sort(took)
	t.Logf("an edit repaints all answers in %.0f ms (median), %.0f ms (95th percentile)", took[len(took)/2], took[len(took)*95/100])
	if len(took) != 40 || !(took[0] > 0) {
		t.Errorf("%v", took)
	}
}

// A valve is turned on the page, with the answers following, and one step of undo
// takes the whole drag back.
func TestPageValve(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	p.view("Curves")
	p.until(`document.querySelector(".valve input") !== null`)
	lead := js[string](p, `document.querySelector(".lead").textContent`)
	for _, v := range []int{80, 60, 40} {
		js[bool](p, fmt.Sprintf(`(() => { const r = document.querySelector(".valve input"); r.value = %d; r.dispatchEvent(new Event("input", {bubbles: true})); return true })()`, v))
	}
	js[bool](p, `(document.querySelector(".valve input").dispatchEvent(new Event("change", {bubbles: true})), true)`)
	p.until(fmt.Sprintf(`document.querySelector(".valve label").textContent.includes("40 %%") && document.querySelector(".lead")?.textContent !== %q`, lead))
	p.press("Undo")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	if p.file() != before {
		t.Error("the file changed")
	}
	p.clean()
}

// The running point can be dragged to a flow: the valve turns until it runs there.
func TestPagePoint(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("Curves")
	p.until(`document.querySelector(".dragged .u-over") !== null`)
	at := func(kind string, share float64) {
		js[bool](p, fmt.Sprintf(`(() => {
			const d = document.querySelector(".dragged"), o = document.querySelector(".u-over").getBoundingClientRect()
			d.setPointerCapture = () => {}
			d.hasPointerCapture = () => true
			d.dispatchEvent(new PointerEvent(%q, {bubbles: true, pointerId: 1, clientX: o.left + o.width * %g, clientY: o.top + 40}))
			return true
		})()`, kind, share))
	}
	at("pointerdown", 0.25)
	p.until(`!document.querySelector(".valve label").textContent.includes("100 %")`)
	at("pointerup", 0.25)
	p.clean()
}
