package workbench

import (
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// A text that hangs on a choice is not kept, by no button, until the choice is made:
// the file would lose, unseen, what the other program wrote.
func TestPageKeepWhileClash(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	openWithFixes(p)
	p.tries(0)
	p.press("Take it")
	p.height("230 mm")
	p.wait("a draft", func() bool { return strings.Contains(p.draft(), "230 mm") })
	theirs := strings.Replace(before, "\n  height: 200 mm\n  thickness: 6 mm\n  set-back", "\n  height: 260 mm\n  thickness: 6 mm\n  set-back", 1)
	put(t, filepath.Join(p.folder, "wall.yaml"), theirs)
	const told = `document.querySelector(".notice.bad")?.textContent.startsWith("Nothing is written yet")`
	for _, opened := range []bool{true, false} { // while the page is open, and from a draft on the older file
		if !opened {
			p.reopen("wall.yaml")
			p.press("Take it up")
		}
		p.until(`[...document.querySelectorAll("button")].some(b => b.textContent === "Take theirs")`)
		p.press("Keep")
		p.until(told)
		if p.file() != theirs {
			t.Fatal("their text is gone")
		}
	}
	p.press("Go on with mine")
	p.until(`document.querySelector(".notice.bad") === null`)
	if got := p.kept(); !strings.Contains(got, "\n  height: 230 mm\n") || strings.Contains(got, "\n  height: 260 mm\n") {
		t.Error("not the text that was chosen")
	}
	p.clean()
}

// The scale of a figure tells by words and by the way its bracket opens whether its
// limit is the most or the least.
func TestPageSides(t *testing.T) {
	p := openPage(t, 360, 740)
	for id, want := range map[string]string{"lift": "at least", "too-strong": "at most"} {
		js[bool](p, fmt.Sprintf(`(document.querySelector("[aria-controls=answer-%s]").click(), true)`, id))
		got := js[[]string](p, fmt.Sprintf(`(async () => {
			const d = document.getElementById("answer-%s")
			while (!d.querySelector(".bound")) await new Promise(requestAnimationFrame)
			const [, x, back] = d.querySelector(".bound").getAttribute("d").match(/^M([\d.-]+) 0.5H([\d.-]+)/)
			return [d.querySelector("dd .about").textContent, Number(x) > Number(back) ? "at least" : "at most"]
		})()`, id))
		if !strings.HasPrefix(got[0], want+" ") || got[1] != want {
			t.Errorf("%s: %q, wanted %q", id, got, want)
		}
	}
	p.clean()
}

// The log is one link away, and so is the way back.
func TestPageToLogAndBack(t *testing.T) {
	p := openPage(t, 360, 740)
	name := "wall (2), +é.yaml"
	text, err := os.ReadFile(filepath.Join(p.folder, "wall.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(p.folder, name), string(text))
	p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(p.url+"#"+url.PathEscape(name)))
	p.until(fmt.Sprintf(`document.querySelector(".pick select")?.value === %q && document.querySelectorAll(".answer").length > 5`, name))
	js[bool](p, `([...document.querySelectorAll("a")].find(a => a.textContent === "Log").click(), true)`)
	p.until(`document.querySelector("h1")?.textContent.endsWith(": log")`)
	p.axe("the log")
	js[bool](p, `([...document.querySelectorAll("a")].find(a => a.textContent === "To the design").click(), true)`)
	p.until(fmt.Sprintf(`document.querySelector(".pick select")?.value === %q && document.querySelectorAll(".answer").length > 5`, name))
	p.clean()
}
