package workbench

import (
	"context"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/google/go-cmp/cmp"

	"rillwright"
	"rillwright/examples"
	"rillwright/internal/wire"
)

// One browser serves all tests of this file; each has a page and a server of its
// own. CHROMIUM names the program if it is not in the path.
var browser = sync.OnceValues(func() (context.Context, error) {
	bin := os.Getenv("CHROMIUM")
	if bin == "" {
		var err error
		if bin, err = exec.LookPath("chromium"); err != nil {
			return nil, err
		}
	}
	ctx, _ := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(bin), chromedp.Headless, chromedp.NoSandbox, chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck,
		chromedp.Flag("enable-unsafe-swiftshader", true), chromedp.Flag("disable-gpu", true), chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
	ctx, _ = chromedp.NewContext(ctx)
	return ctx, chromedp.Do(ctx) // starts it
})

func TestMain(m *testing.M) {
	code := m.Run()
	if ctx, err := browser(); err == nil && ctx != nil {
		_ = chromedp.Cancel(ctx) // the tests are over
	}
	os.Exit(code)
}

// page is a browser's tab on a bench.
type page struct {
	t      *testing.T
	ctx    context.Context
	url    string
	folder string
	stop   func() // the server
	bad    func() []string
}

// openPage serves a folder with wall.yaml and opens it in a tab of some size.
func openPage(t *testing.T, width, height int64) *page {
	t.Helper()
	if testing.Short() {
		t.Skip("drives a browser")
	}
	root, err := browser()
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") != "" {
			t.Fatal("chromium is missing: ", err)
		}
		t.Skip("chromium is missing: ", err)
	}
	p := &page{t: t}
	var b *Bench
	b, p.folder = bench(t)
	p.serve(b, "127.0.0.1:0")
	ctx, done := chromedp.NewContext(root)
	t.Cleanup(done)
	ctx, cancel := context.WithTimeout(ctx, 60*time.Second)
	t.Cleanup(cancel)
	p.ctx = ctx
	var mu sync.Mutex
	var bad []string
	p.bad = func() []string {
		mu.Lock()
		defer mu.Unlock()
		return slices.Clone(bad)
	}
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return // the page is closed
			}
			if strings.Contains(m.Text, "GL Driver Message") {
				continue // of the drawing in software, about its own speed
			}
			if m.Type == "error" || m.Type == "warning" || m.Type == chromedp.ConsoleException {
				mu.Lock()
				bad = append(bad, fmt.Sprintf("%s: %s", m.Type, m.Text))
				mu.Unlock()
			}
		}
	}()
	p.do(chromedp.EmulateViewport(width, height), chromedp.Navigate(p.url+"#wall.yaml"))
	p.until(`document.querySelectorAll(".answer").length > 5`)
	return p
}

// serve begins to serve at an address, and ends with the test if not before.
func (p *page) serve(b *Bench, address string) {
	p.t.Helper()
	var l net.Listener
	var err error
	for range 50 { // the port of a server that just ended may take a moment
		if l, err = net.Listen("tcp", address); err == nil {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	if err != nil {
		p.t.Fatal(err)
	}
	s := b.Server()
	go func() { _ = s.Serve(l) }()
	p.url = "http://" + l.Addr().String() + "/"
	p.stop = func() {
		_ = b.Close()
		_ = s.Close()
	}
	p.t.Cleanup(p.stop)
}

func (p *page) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, steps...); err != nil {
		p.t.Fatalf("%v; %q", err, p.bad())
	}
}

// js evaluates an expression.
func js[T any](p *page, expression string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		p.t.Fatalf("%s: %v; %q", expression, err, p.bad())
	}
	return v
}

// until waits for an expression to become true.
func (p *page) until(expression string) {
	p.t.Helper()
	poll := func() error {
		_, err := chromedp.Run(p.ctx, chromedp.Poll[bool](expression, chromedp.WithPollingTimeout(15*time.Second)))
		return err
	}
	err := poll()
	for range 20 {
		// A page that is on its way to another has no place to look in.
		if err == nil || !strings.Contains(err.Error(), "context") && !strings.Contains(err.Error(), "navigated") || p.ctx.Err() != nil {
			break
		}
		time.Sleep(50 * time.Millisecond)
		err = poll()
	}
	if err != nil {
		p.t.Fatalf("%s did not come true: %v; %q\n%s", expression, err, p.bad(), js[string](p, "document.body.innerText"))
	}
}

// view changes to a view by its name on the page.
func (p *page) view(name string) {
	p.t.Helper()
	p.press(name)
	p.until(fmt.Sprintf(`document.querySelector(".views [aria-current]").textContent === %q`, name))
	p.until(`document.querySelector("main .wait") === null`)
}

// press clicks the button with some words.
func (p *page) press(words string) {
	p.t.Helper()
	p.until(fmt.Sprintf(`[...document.querySelectorAll("button")].some(b => b.textContent === %q && !b.disabled && b.ariaDisabled !== "true" && b.offsetParent)`, words))
	js[bool](p, fmt.Sprintf(`[...document.querySelectorAll("button")].find(b => b.textContent === %q && !b.disabled && b.ariaDisabled !== "true" && b.offsetParent).click(), true`, words))
}

// set types into the field with some label and leaves it.
func (p *page) set(label, text string) {
	p.t.Helper()
	js[bool](p, fmt.Sprintf(`(() => {
		const l = [...document.querySelectorAll("label")].find(l => l.textContent.trim().startsWith(%q))
		const f = l.control ?? l.querySelector("input, select")
		f.focus()
		f.value = %q
		f.dispatchEvent(new Event("input", {bubbles: true}))
		f.dispatchEvent(new Event("change", {bubbles: true}))
		f.blur()
		return true
	})()`, label, text))
}

func (p *page) clean() {
	p.t.Helper()
	if bad := p.bad(); len(bad) > 0 {
		p.t.Errorf("the page complains: %q", bad)
	}
}

func (p *page) file() string {
	p.t.Helper()
	text, err := os.ReadFile(filepath.Join(p.folder, "wall.yaml"))
	if err != nil {
		p.t.Fatal(err)
	}
	return string(text)
}

// The page tells what the command line tells: same answers, same order, same words.
func TestPageEqualsReport(t *testing.T) {
	p := openPage(t, 1440, 900)
	r, err := rillwright.Build("wall.yaml", examples.CorridorCabinet, rillwright.Options{Structure: true, Living: true, Faults: rillwright.MainFaults})
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, a := range wire.Of(r, r.Answers).Answers {
		first := ""
		if len(a.Figures) > 0 {
			first = a.Figures[0].Text
		}
		want = append(want, a.Question+" | "+first)
	}
	got := js[[]string](p, `[...document.querySelectorAll(".answer")].map(a => a.querySelector(".question").textContent + " | " + a.querySelector(".first").textContent)`)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	// One opened shows all of it.
	p.until(`document.querySelector(".answer h3 button") !== null`)
	js[bool](p, `(document.querySelector(".answer h3 button").click(), true)`)
	p.until(`document.querySelector(".answer.open .figures") !== null`)
	text := strings.Join(strings.Fields(js[string](p, `document.querySelector(".answer.open").textContent`)), " ")
	a := r.Answers[0]
	for _, s := range []string{a.Say, a.Limit.Text, a.Margin} {
		if s = strings.Join(strings.Fields(s), " "); !strings.Contains(text, s) {
			t.Errorf("%q is not in %q", s, text)
		}
	}
	p.clean()
}

// A value changed in the form changes that value in the file and nothing else,
// comments and all; undo takes it back; keep writes it.
func TestPageForm(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	p.view("File")
	p.press("Form")
	p.set("Find a value", "dam.height")
	p.until(`document.querySelectorAll(".form .value").length === 1`)
	p.set("height", "230 mm")
	p.until(`document.querySelector(".tools .main").textContent === "Keep"`)
	p.press("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	want := strings.Replace(before, "\ndam:\n  width: 886 mm\n  height: 200 mm", "\ndam:\n  width: 886 mm\n  height: 230 mm", 1)
	if diff := cmp.Diff(want, p.file()); diff != "" {
		t.Error(diff)
	}
	p.press("Undo")
	p.until(`document.querySelector(".tools .main").textContent === "Keep"`)
	p.press("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	if diff := cmp.Diff(before, p.file()); diff != "" {
		t.Error(diff)
	}
	// What has no meaning is said beside the field, and the file keeps it.
	p.set("height", "230")
	p.until(`document.querySelector(".form .wrong")?.textContent.includes("no unit")`)
	p.until(`document.querySelector(".notice.bad")?.textContent.includes("to mend")`)
	p.press("Undo")
	p.until(`document.querySelector(".form .wrong") === null && document.querySelector(".notice.bad") === null`)
	p.clean()
}

// Typing in the text moves the answers, mistakes show in place, and undo goes
// through text and form alike.
func TestPageText(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("File")
	p.press("Text")
	p.until(`document.querySelector(".cm-content") !== null`)
	first := js[string](p, `document.querySelector(".answer .first").textContent`)
	js[bool](p, `(document.querySelector(".cm-content").focus(), true)`)
	p.do(chromedp.KeyEvent(kb.End, chromedp.KeyModifiers(2)), chromedp.KeyEvent("assume: { hole-discharge: 60"))
	p.until(`document.querySelector(".notice.bad") !== null && document.querySelector(".cm-lintRange-error, .cm-lint-marker-error") !== null`)
	p.do(chromedp.KeyEvent(" % }"))
	p.until(`document.querySelector(".notice.bad") === null`)
	p.until(fmt.Sprintf(`[...document.querySelectorAll(".answer")].some(a => a.querySelector(".question").textContent.includes("reach the top") && a.querySelector(".first").textContent !== %q)`, first))
	p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(2)))
	p.do(chromedp.KeyEvent("z", chromedp.KeyModifiers(2)))
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	p.clean()
}

// What another program writes is shown; with changes of one's own it is brought
// together, or offered where both touched the same line.
func TestPageOutsideChange(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	path := filepath.Join(p.folder, "wall.yaml")
	theirs := strings.Replace(before, "name: Clinic corridor cabinet", "name: Their cabinet", 1)
	put(t, path, theirs)
	p.until(`document.querySelector(".pulse").textContent.includes("Their cabinet")`)
	p.view("File")
	p.press("Form")
	p.set("Find a value", "dam.height")
	p.until(`document.querySelectorAll(".form .value").length === 1`)
	p.set("height", "230 mm")
	p.until(`document.querySelector(".tools .main").textContent === "Keep"`)
	put(t, path, strings.Replace(theirs, "name: Their cabinet", "name: Another", 1))
	p.until(`document.querySelector(".pulse").textContent.includes("Another") && document.querySelector(".tools .main").textContent === "Keep"`)
	if v := js[string](p, `document.querySelector(".form .value input").value`); v != "230 mm" {
		t.Errorf("mine is %q", v)
	}
	// The same line: both are there to choose from.
	put(t, path, strings.Replace(before, "\n  height: 200 mm\n  thickness: 6 mm\n  set-back", "\n  height: 260 mm\n  thickness: 6 mm\n  set-back", 1))
	p.until(`[...document.querySelectorAll("button")].some(b => b.textContent === "Take theirs")`)
	p.press("Take theirs")
	p.until(`document.querySelector(".form .value input").value === "260 mm"`)
	p.press("Undo")
	p.until(`document.querySelector(".form .value input").value === "230 mm"`)
	p.clean()
}

// Nothing typed is lost when the program dies, nor when the page does.
func TestPageKillAndRestart(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("File")
	p.press("Form")
	p.set("Find a value", "dam.height")
	p.until(`document.querySelectorAll(".form .value").length === 1`)
	p.set("height", "230 mm")
	p.until(`document.querySelector(".tools .main").textContent === "Keep"`)
	address := strings.TrimSuffix(strings.TrimPrefix(p.url, "http://"), "/")
	p.stop()
	p.until(`document.querySelector(".notice.bad")?.textContent.includes("does not answer")`)
	again, err := New(Options{Folder: p.folder})
	if err != nil {
		t.Fatal(err)
	}
	p.serve(again, address)
	p.until(`document.querySelector(".notice.bad") === null`)
	// Now the page dies, without a word.
	p.do(chromedp.Navigate("about:blank"))
	p.do(chromedp.Navigate(p.url + "#wall.yaml"))
	p.until(`[...document.querySelectorAll("button")].some(b => b.textContent === "Take it up")`)
	p.press("Take it up")
	p.until(`document.querySelector(".tools .main").textContent === "Keep"`)
	p.press("Keep")
	p.until(`document.querySelector(".tools .main").textContent === "Kept"`)
	if !strings.Contains(p.file(), "height: 230 mm") {
		t.Error("the value was lost")
	}
}

// Moving through the time of a fault moves the water, in the section and in space.
func TestPageScrub(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("What if")
	p.until(`document.querySelectorAll(".events li").length > 1 && document.querySelector(".section .water") !== null`)
	before := js[string](p, `document.querySelector(".section").innerHTML`)
	p.until(`document.querySelector("select option") !== null`)
	js[bool](p, `(() => { const s = document.querySelector(".whatif select"); s.value = [...s.options].find(o => o.text.includes("blocks?")).value; s.dispatchEvent(new Event("change", {bubbles: true})); return true })()`)
	p.until(`document.querySelector(".whatif .lead")?.textContent.includes("reach the floor")`)
	p.until(`Number(document.querySelector(".whatif canvas")?.dataset.drawn) > 0`)
	time.Sleep(300 * time.Millisecond)
	drawn := js[int](p, `Number(document.querySelector(".whatif canvas").dataset.drawn)`)
	js[bool](p, `(() => { const r = document.querySelector(".scrub input"); r.value = r.max / 2; r.dispatchEvent(new Event("input", {bubbles: true})); return true })()`)
	p.until(fmt.Sprintf(`document.querySelector(".section").innerHTML !== %q`, before))
	p.until(fmt.Sprintf(`Number(document.querySelector(".whatif canvas").dataset.drawn) > %d`, drawn))
	p.clean()
}

// Long work tells how far it is, ends with a list, and can be called off.
func TestPageEverything(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("What if")
	p.press("Follow them all")
	p.press("Call it off")
	p.press("Follow them all")
	p.until(`document.querySelectorAll("ul.all li").length > 5 && document.querySelectorAll("ol.all li").length > 3`)
	p.clean()
}

// Two boxes are compared as soon as their figures are typed.
func TestPageAisle(t *testing.T) {
	p := openPage(t, 360, 740)
	p.view("Aisle")
	for i, v := range [][2]string{{"1200", "2.4"}, {"3000", "4"}} {
		for k, id := range []string{"f", "h"} {
			js[bool](p, fmt.Sprintf(`(() => { const f = document.getElementById("box-%d-%s"); f.value = %q; f.dispatchEvent(new Event("input", {bubbles: true})); return true })()`, i, id, v[k]))
			time.Sleep(30 * time.Millisecond)
		}
	}
	p.until(`document.querySelectorAll(".box .verdict").length >= 4`)
	if small := js[[]string](p, `[...document.querySelectorAll(".box input, .box select, .box button")].filter(e => e.offsetParent && e.getBoundingClientRect().height < 44).map(e => e.id || e.textContent)`); len(small) > 0 {
		t.Errorf("too small for a thumb: %q", small)
	}
	p.clean()
}
