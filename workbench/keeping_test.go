package workbench

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"rillwright/examples"
)

// height sets the height of the dam in the form.
func (p *page) height(to string) {
	p.t.Helper()
	p.view("File")
	p.press("Form")
	p.set("Find a value", "dam.height")
	p.until(`document.querySelectorAll(".form .value").length === 1`)
	p.set("height", to)
}

// reopen ends the page without a word and opens it again.
func (p *page) reopen(design string) {
	p.t.Helper()
	p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(p.url+"#"+design))
	p.until(`document.querySelectorAll(".answer").length > 5`)
}

func (p *page) draft() string {
	text, _ := os.ReadFile(filepath.Join(p.folder, ".wall.yaml.draft")) // "" if there is none
	return string(text)
}

// wait polls what is no expression of the page.
func (p *page) wait(what string, ok func() bool) {
	p.t.Helper()
	for range 1000 { // 20 s and more: other tests share the machine
		if ok() {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	p.t.Fatal("never: ", what)
}

const offered = `[...document.querySelectorAll("button")].some(b => b.textContent === "Take it up")`

// A text that was found stays until it is decided on, however often the page dies,
// and whatever is typed meanwhile.
func TestPageDraftStays(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.reopen("demo") // nothing is kept beside the file of a built-in one
	p.height("231 mm")
	p.until(`document.querySelector(".pulse") && localStorage.getItem("rillwright:draft:demo")?.includes("231 mm")`)
	for range 2 {
		p.reopen("demo")
		p.until(offered)
		time.Sleep(300 * time.Millisecond) // the stream of changes is open by then
	}
	p.height("232 mm")
	p.until(`localStorage.getItem("rillwright:draft:demo")?.includes("232 mm")`)
	p.reopen("demo")
	p.until(offered)
	for _, want := range []string{"232 mm", "231 mm"} {
		p.press("Take it up")
		p.view("File")
		p.press("Form")
		p.set("Find a value", "dam.height")
		p.until(fmt.Sprintf(`document.querySelector(".form .value input").value === %q`, want))
	}
	p.until(`!(` + offered + `)`)
	p.clean()
}

// A text typed on a file that somebody changed since is brought together with it.
func TestPageDraftOnOlder(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	p.height("230 mm")
	p.wait("a draft", func() bool { return strings.Contains(p.draft(), "230 mm") })
	p.do(chromedp.Navigate("about:blank"))
	put(t, filepath.Join(p.folder, "wall.yaml"), strings.Replace(before, "name: Clinic corridor cabinet", "name: Their cabinet", 1))
	p.reopen("wall.yaml")
	p.press("Take it up")
	p.press("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	if text := p.file(); !strings.Contains(text, "name: Their cabinet") || !strings.Contains(text, "height: 230 mm") {
		t.Error("one of the changes is lost")
	}
	p.clean()
}

// What was taken back is not offered again.
func TestPageDraftUndone(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.height("230 mm")
	p.wait("a draft", func() bool { return strings.Contains(p.draft(), "230 mm") })
	p.press("Undo")
	p.wait("no draft", func() bool { return p.draft() == "" })
	p.reopen("wall.yaml")
	if js[bool](p, offered) {
		t.Error("offered")
	}
	p.clean()
}

// What is typed while the program is away is there, and answered, when it is back.
func TestPageTypedWhileAway(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("File")
	p.press("Form")
	p.set("Find a value", "dam.height")
	p.until(`document.querySelectorAll(".form .value").length === 1`)
	address := strings.TrimSuffix(strings.TrimPrefix(p.url, "http://"), "/")
	p.stop()
	p.until(`document.querySelector(".notice.bad")?.textContent.includes("does not answer")`)
	p.set("height", "230 mm")
	time.Sleep(200 * time.Millisecond)
	if v := js[string](p, `document.querySelector(".form .value input").value`); v != "230 mm" {
		t.Errorf("the field shows %q", v)
	}
	p.press("Text")
	p.until(`document.querySelector(".cm-content") !== null`)
	js[bool](p, `(document.querySelector(".cm-content").focus(), true)`)
	p.do(chromedp.KeyEvent(kb.Home, chromedp.KeyModifiers(2)), chromedp.KeyEvent("name: Away\n"))
	again, err := New(Options{Folder: p.folder})
	if err != nil {
		t.Fatal(err)
	}
	p.serve(again, address)
	p.until(`document.querySelector(".notice.bad")?.textContent.includes("to mend")`) // "name" is there twice
}

// A program that empties a file before it fills it is no reason to choose.
func TestPageHalfWritten(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	p.height("230 mm")
	p.until(`document.querySelector(".tools .main").textContent === "Keep"`)
	path := filepath.Join(p.folder, "wall.yaml")
	put(t, path, "")
	p.until(`[...document.querySelectorAll("button")].some(b => b.textContent === "Take theirs")`)
	put(t, path, strings.Replace(before, "name: Clinic corridor cabinet", "name: Their cabinet", 1))
	p.until(`document.querySelector(".pulse").textContent.includes("Their cabinet") && ![...document.querySelectorAll("button")].some(b => b.textContent === "Take theirs")`)
	p.clean()
}

// The editor keeps the ends of lines that a file has.
func TestPageLineEnds(t *testing.T) {
	p := openPage(t, 1440, 900)
	text := strings.ReplaceAll(string(examples.CorridorCabinet), "\n", "\r\n")
	put(t, filepath.Join(p.folder, "wall.yaml"), text)
	p.reopen("wall.yaml")
	p.view("File")
	p.press("Text")
	p.until(`document.querySelector(".cm-content") !== null`)
	js[bool](p, `(document.querySelector(".cm-content").focus(), true)`)
	p.do(chromedp.KeyEvent(kb.End, chromedp.KeyModifiers(2)), chromedp.KeyEvent("# end"))
	p.press("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	if got := p.file(); got != text+"# end" {
		t.Errorf("%d bytes became %d, %d of them line ends", len(text), len(got), strings.Count(got, "\r\n"))
	}
	p.clean()
}

// What has no meaning is shown as it was typed, also in a design that has a mistake
// from the start, and can be mended there.
func TestPageWrongValue(t *testing.T) {
	p := openPage(t, 1440, 900)
	put(t, filepath.Join(p.folder, "wrong.yaml"), strings.Replace(string(examples.CorridorCabinet), "\n  height: 200 mm", "\n  height: 200", 1))
	p.height("230")
	p.until(`document.querySelector(".form .wrong") !== null && document.querySelector(".form .value input").value === "230"`)
	p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(p.url+"#wrong.yaml"))
	p.until(`document.querySelector(".notice.bad")?.textContent.includes("to mend")`)
	p.height("200 mm")
	p.until(`document.querySelector(".notice.bad") === null && document.querySelectorAll(".answer").length > 5`)
	p.clean()
}

// A valve that is turned takes the answers along, asks no more than is answered, and
// is one step back.
func TestPageDrag(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.reopen("demo-us")
	p.view("Curves")
	p.until(`document.querySelector(".valve input") !== null`)
	seen := js[int](p, `(async () => {
		const f = document.querySelector(".valve input"), lead = document.querySelector(".curves .lead"), seen = new Set()
		f.focus()
		for (let i = 0; i < 300; i++) {
			f.value = 20 + Math.floor(i / 5)
			f.dispatchEvent(new Event("input", {bubbles: true}))
			await new Promise(r => setTimeout(r, 10))
			seen.add(lead.textContent)
		}
		f.dispatchEvent(new Event("change", {bubbles: true}))
		return seen.size
	})()`)
	if seen < 4 {
		t.Errorf("%d pictures while it was turned", seen)
	}
	p.until(`document.querySelector(".valve label").textContent.includes("79 %")`)
	p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(2)))
	p.until(`document.querySelector(".valve label").textContent.includes("60 %")`)
	if js[bool](p, `document.querySelector(".notice.bad") !== null`) {
		t.Error(js[string](p, `document.querySelector(".notice.bad").textContent`))
	}
	p.clean()
}

// The line that is written stays in sight when a strip appears above it.
func TestPageLineInSight(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("File")
	p.press("Text")
	p.until(`document.querySelector(".cm-content") !== null`)
	js[bool](p, `(document.querySelector(".cm-content").focus(), true)`)
	p.do(chromedp.KeyEvent(kb.End, chromedp.KeyModifiers(2)), chromedp.KeyEvent("\nassu"))
	p.until(`document.querySelector(".notice.bad") !== null`)
	p.until(`(l => l && l.getBoundingClientRect().bottom <= innerHeight)(document.querySelector(".cm-activeLine"))`)
	p.clean()
}

// All flat views are to one scale: a height is as long in each.
func TestPageOneScale(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("Look")
	p.press("Flat, with sizes")
	p.until(`document.querySelectorAll(".flat svg").length === 2`)
	long := js[[]float64](p, `[...document.querySelectorAll(".flat svg")].map(s => s.querySelector(".size:last-of-type line, .size + .size line").getBoundingClientRect().height)`)
	if len(long) != 2 || long[0] < 50 || math.Abs(long[0]-long[1]) > 1 {
		t.Errorf("the height is %v pixels long", long)
	}
	p.clean()
}

// killed ends program and page at once and starts another program on the folder; the
// page that is then opened is that of another browser, which has no draft of its own.
func (p *page) killed() {
	p.t.Helper()
	address := strings.TrimSuffix(strings.TrimPrefix(p.url, "http://"), "/")
	p.stop()
	js[bool](p, `(localStorage.clear(), true)`)
	p.do(chromedp.Navigate("about:blank"))
	again, err := New(Options{Folder: p.folder})
	if err != nil {
		p.t.Fatal(err)
	}
	p.serve(again, address)
}

// A draft beside the file knows the text it was typed on: after a kill and a change
// by another program both are in the text; where both changed one line there is a
// choice, and that outlives another kill.
func TestPageDraftKnowsItsBase(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	p.height("230 mm")
	p.wait("a draft", func() bool { return strings.Contains(p.draft(), "230 mm") })
	p.killed()
	path := filepath.Join(p.folder, "wall.yaml")
	theirs := strings.Replace(before, "name: Clinic corridor cabinet", "name: Their cabinet", 1)
	put(t, path, theirs)
	p.reopen("wall.yaml")
	p.press("Take it up")
	p.press("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	if text := p.file(); text != strings.Replace(theirs, "\n  height: 200 mm\n  thickness: 6 mm\n  set-back", "\n  height: 230 mm\n  thickness: 6 mm\n  set-back", 1) {
		t.Error("one of the changes is lost")
	}
	// Now the same line.
	p.height("240 mm")
	p.wait("a draft", func() bool { return strings.Contains(p.draft(), "240 mm") })
	p.killed()
	put(t, path, strings.Replace(p.file(), "height: 230 mm", "height: 260 mm", 1))
	const choice = `[...document.querySelectorAll("button")].some(b => b.textContent === "Take theirs")`
	for range 2 {
		p.reopen("wall.yaml")
		p.press("Take it up")
		p.until(choice)
		js[bool](p, `(document.querySelector(".views button").focus(), true)`)
		p.wait("a draft", func() bool { return strings.Contains(p.draft(), "240 mm") })
		time.Sleep(600 * time.Millisecond) // the draft is written anew
		p.killed()
	}
	p.reopen("wall.yaml")
	p.press("Take it up")
	p.until(choice)
	p.press("Take theirs")
	p.height("260 mm")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
}
