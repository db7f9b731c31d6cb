package workbench

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/google/go-cmp/cmp"

	"rillwright/design"
)

const (
	strip   = `document.querySelector(".trial")?.textContent ?? ""`
	stands  = `(e => e === document.body || e === null ? "nothing" : e.textContent.trim() || e.id || e.tagName)(document.activeElement)`
	tryable = `[...document.querySelectorAll(".answer.open .fixes button")].filter(b => b.textContent.startsWith("Try"))`
)

// openWithFixes opens the answer about the dam, which has several fixes to try.
func openWithFixes(p *page) {
	p.t.Helper()
	p.until(`[...document.querySelectorAll(".answer h3 button")].length > 5`)
	js[bool](p, `([...document.querySelectorAll(".answer h3 button")].find(b => b.textContent.includes("Will the drain gurgle") || b.textContent.includes("Will this pump reach")).click(), true)`)
	p.until(tryable + `.length > 1`)
}

// tries presses the button of one fix and says what it is about.
func (p *page) tries(k int) string {
	p.t.Helper()
	p.until(fmt.Sprintf(tryable+`.length > %d`, k))
	what := js[string](p, fmt.Sprintf(`(b => { const what = b.closest("li").querySelector("p").textContent; b.focus(); b.click(); return what })(`+tryable+`[%d])`, k))
	p.until(fmt.Sprintf(`(%s).includes(%q)`, strip, what))
	return what
}

// text is that of the editor's design as it would be kept.
func (p *page) kept() string {
	p.t.Helper()
	p.press("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	return p.file()
}

// A second fix that is tried takes the place of the first, says so, and both go back
// to the file as it was; undo and redo go through them with the strip that belongs.
func TestPageTrySecond(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	openWithFixes(p)
	first := p.tries(0)
	if got := js[string](p, `[...document.querySelectorAll(".trial button")].map(b => b.textContent).join()`); got != "Take it,Put it back" {
		t.Errorf("offered: %s", got)
	}
	p.until(`[...document.querySelectorAll(".answer.open .fixes button")].some(b => b.textContent === "Try this instead")`)
	p.until(`![...document.querySelectorAll("button")].some(b => b.textContent === "Try it")`)
	// The fixes are those of the design with the first in it: it is not among them.
	p.until(fmt.Sprintf(tryable+`.every(b => b.closest("li").querySelector("p").textContent !== %q)`, first))
	js[bool](p, `(f => { window.fetch = (to, o) => { if (to === "/api/set") window.asked = o.body; return f(to, o) }; return true })(window.fetch)`)
	second := p.tries(0)
	if second == first {
		t.Fatalf("the first is still offered: %s", first)
	}
	if got := js[string](p, strip); !strings.Contains(got, "takes the place of") || !strings.Contains(got, first) {
		t.Errorf("the strip says %q", got)
	}
	p.press("Undo")
	p.until(fmt.Sprintf(`(%s).includes("Tried: " + %q)`, strip, first))
	p.press("Redo")
	p.until(fmt.Sprintf(`(%s).includes("Tried: " + %q)`, strip, second))
	p.press("Back to before the first")
	p.until(`document.querySelector(".trial") === null`)
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	if p.file() != before {
		t.Error("the file changed")
	}
	// Taken, the second alone is in the file.
	p.press("Undo")
	p.until(fmt.Sprintf(`(%s).includes("Tried: " + %q)`, strip, second))
	p.press("Take it")
	got := p.kept()
	asked := as[setRequest](t, []byte(js[string](p, `window.asked`)))
	if asked.Text != before {
		t.Error("the second was not made in the file as it was before the first")
	}
	want, err := design.Apply([]byte(before), asked.Edits)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Error(diff)
	}
	p.clean()
}

// What is typed after a fix was tried stays when the fix is put back.
func TestPageTryThenType(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	openWithFixes(p)
	p.tries(0)
	p.view("File")
	p.press("Form")
	p.set("Find a value", "dam.height")
	p.until(`document.querySelectorAll(".form .value").length === 1`)
	p.set("height", "230 mm")
	p.until(`document.querySelector(".form .value input").value === "230 mm"`)
	p.press("Put it back")
	p.until(`document.querySelector(".trial") === null`)
	want := strings.Replace(before, "\ndam:\n  width: 886 mm\n  height: 200 mm", "\ndam:\n  width: 886 mm\n  height: 230 mm", 1)
	if got := p.kept(); got != want {
		t.Errorf("not the file with that value alone: %d bytes, %d wanted", len(got), len(want))
	}
	p.clean()
}

// The keyboard stands on something after every button that goes away.
func TestPageFocus(t *testing.T) {
	p := openPage(t, 1440, 900)
	on := func(after, want string) {
		t.Helper()
		p.until(fmt.Sprintf(`(%s).includes(%q)`, stands, want))
		if got := js[string](p, stands); !strings.Contains(got, want) {
			t.Errorf("after %s the keyboard stands on %q, not on %q", after, got, want)
		}
	}
	// by presses a button as the keyboard does.
	by := func(words string) {
		t.Helper()
		p.until(fmt.Sprintf(`[...document.querySelectorAll("button")].some(b => b.textContent === %q && b.offsetParent)`, words))
		js[bool](p, fmt.Sprintf(`([...document.querySelectorAll("button")].find(b => b.textContent === %q && b.offsetParent).focus(), true)`, words))
		p.do(chromedp.KeyEvent(kb.Enter))
	}
	openWithFixes(p)
	p.tries(0)
	on("a fix is tried", "Take it")
	p.do(chromedp.KeyEvent(kb.Enter))
	p.until(`document.querySelector(".trial") === null`)
	question := js[string](p, `document.querySelector(".answer.open .question").textContent`)
	on("it is taken", question)
	by("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	on("it is kept", "Kept")
	by("Close")
	p.until(`document.querySelector(".notice") === null`)
	on("a message is closed", question)
	// With no answer open it is the content.
	js[bool](p, `(document.querySelector(".answer.open h3 button").click(), true)`)
	p.until(`document.querySelector(".answer.open") === null`)
	p.height("231 mm")
	by("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	by("Close")
	p.until(`document.activeElement.id === "main"`)
	// A draft that is taken up or dropped.
	p.height("232 mm")
	p.wait("a draft", func() bool { return strings.Contains(p.draft(), "232 mm") })
	p.reopen("wall.yaml")
	by("Drop it")
	p.until(`document.activeElement.id === "main"`)
	// Who clicks beside everything is left there.
	js[bool](p, `(document.querySelector(".tools button").focus(), document.activeElement.blur(), true)`)
	put(t, filepath.Join(p.folder, "wall.yaml"), strings.Replace(p.file(), "name: Clinic corridor cabinet", "name: Theirs", 1))
	p.until(`document.querySelector(".pulse").textContent.includes("Theirs")`)
	if got := js[string](p, stands); got != "nothing" {
		t.Errorf("the keyboard was taken to %q", got)
	}
	if _, err := os.Stat(filepath.Join(p.folder, ".wall.yaml.draft")); err == nil {
		t.Error("a draft is left")
	}
	p.clean()
}
