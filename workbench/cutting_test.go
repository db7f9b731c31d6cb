package workbench

import (
	"bytes"
	"encoding/base64"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"

	"rillwright"
	"rillwright/design"
	"rillwright/examples"
	"rillwright/packet"
)

// The route gives what the chain gives, as a view, a table and a PDF, and refuses
// what it does not make.
func TestCutting(t *testing.T) {
	b, _ := bench(t)
	for _, text := range []string{string(examples.CorridorCabinet), string(examples.CounterWall)} {
		q := cuttingRequest{Name: "wall.yaml", Text: text}
		code, data := ask(t, b, "POST", "/api/cutting", q)
		if code != 200 {
			t.Fatalf("%d %s", code, data)
		}
		got := as[cuttingReply](t, data)
		rep, err := rillwright.Build("wall.yaml", []byte(text), rillwright.Options{NoFixes: true, Structure: true})
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		var edits []design.Edit
		for _, s := range got.Shops {
			n += len(s.Items)
			for i := range s.Items {
				it := &s.Items[i]
				pack := ""
				if it.Pack != "" {
					pack = fmt.Sprintf("pack: %q, ", it.Pack)
				}
				edits = append(edits, design.Edit{Path: "budget.prices", Kind: design.EditAppend, To: fmt.Sprintf("{ what: %q, %sprice: 8 %s }", it.Name, pack, got.Currency)})
			}
		}
		want := 0
		for i := range rep.Shopping.Items {
			if rep.Shopping.Items[i].Packs[2] > 0 {
				want++
			}
		}
		if n == 0 || n != want || len(got.Pieces.Panes) == 0 || len(got.Pieces.Lengths) == 0 || len(got.Sheets) == 0 {
			t.Errorf("%d items of %d, %d panes, %d lengths, %d sheets", n, want, len(got.Pieces.Panes), len(got.Pieces.Lengths), len(got.Sheets))
		}
		// Every line can be given a price with the words that the page writes.
		priced, err := design.Apply([]byte(text), edits)
		if err != nil {
			t.Fatal(err)
		}
		again, err := rillwright.Build("wall.yaml", priced, rillwright.Options{NoFixes: true, Structure: true})
		if err != nil || again.Findings.HasErrors() {
			t.Fatal(err, again.Findings)
		}
		if again.Shopping.Generic > rep.Shopping.Generic/2 {
			t.Errorf("with a price for each line %.0f %% are generic, before %.0f %%", 100*again.Shopping.Generic, 100*rep.Shopping.Generic)
		}
		// What the page chooses by a row is something that is drawn.
		drawn := sceneOf(rep.Survey).Parts
		lit := func(field string, line int) {
			t.Helper()
			if !slices.ContainsFunc(drawn, func(s scenePart) bool {
				return s.Field == field || strings.HasPrefix(field, s.Field+".") || line > 0 && s.Line == line
			}) {
				t.Errorf("%s, line %d, lights nothing up", field, line)
			}
		}
		for _, x := range got.Pieces.Panes {
			if x.Kind == "dam" {
				x.Field = "dam"
			}
			lit(x.Field, 0)
		}
		for _, x := range got.Pieces.Lengths {
			lit(x.Field, 0)
		}
		for _, x := range got.Pieces.Panels {
			lit("a panel", x.Line)
		}
		q.As = "list"
		code, data = ask(t, b, "POST", "/api/cutting", q)
		rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
		if code != 200 || err != nil || len(rows) != len(rep.Shopping.Rows(rep.Enclosure.Units)) {
			t.Errorf("%d %v: %d rows", code, err, len(rows))
		}
	}
	code, data := ask(t, b, "POST", "/api/cutting", cuttingRequest{Name: "wall.yaml", Text: string(examples.CorridorCabinet), As: "packet"})
	// How far it is grows, and the file stands in the last line.
	lines := bytes.Split(bytes.TrimSpace(data), []byte("\n"))
	last, far := as[progress](t, lines[len(lines)-1]), -1
	for _, l := range lines[:len(lines)-1] {
		p := as[progress](t, l)
		if p.Done < far || p.Done > p.Of || p.File != "" || p.Fault != "" {
			t.Errorf("after %d comes %s", far, l)
		}
		far = p.Done
	}
	file, err := base64.StdEncoding.DecodeString(last.File)
	if code != 200 || err != nil || len(lines) < 2 || !bytes.HasPrefix(file, []byte("%PDF-")) || len(file) > 2<<20 {
		t.Errorf("%d, %v: %d lines, %d bytes of %s", code, err, len(lines), len(file), packet.PDFName)
	}
	code, data = ask(t, b, "POST", "/api/cutting", cuttingRequest{Text: "rillwright: 1", As: "packet"})
	if p := as[progress](t, data); code != 200 || p.Fault == "" || p.File != "" {
		t.Errorf("a packet of no design: %d %s", code, data)
	}
	if code, _ := ask(t, b, "POST", "/api/cutting", cuttingRequest{As: "book"}); code != 400 {
		t.Errorf("a kind that is not made: %d", code)
	}
	if code, _ := ask(t, b, "POST", "/api/cutting", cuttingRequest{Text: "rillwright: 1"}); code != 422 {
		t.Errorf("no design: %d", code)
	}
}

// A row lights its part; a price and an offcut typed beside what they are of go into
// the file, and undo takes them out again.
func TestPageCutting(t *testing.T) {
	p := openPage(t, 1440, 900)
	before := p.file()
	p.view("Cut and buy")
	p.until(`document.querySelectorAll(".cutting li > button").length > 5`)
	p.until(`Number(document.querySelector("canvas.space")?.dataset.drawn) > 0`)
	drawn := js[int](p, `Number(document.querySelector("canvas.space").dataset.drawn)`)
	js[bool](p, `(document.querySelector(".cutting li > button").click(), true)`)
	p.until(`document.querySelector(".cutting li > button").getAttribute("aria-pressed") === "true"`)
	p.until(fmt.Sprintf(`Number(document.querySelector("canvas.space").dataset.drawn) > %d`, drawn))
	item := js[string](p, `document.querySelector(".bought input").getAttribute("aria-label").split(": ").slice(1).join(": ")`)
	js[bool](p, `(e => { e.value = "7.35"; e.dispatchEvent(new Event("change", {bubbles: true})); return true })(document.querySelector(".bought input"))`)
	p.until(`document.querySelector(".cutting .bought")?.textContent.includes("yours") || [...document.querySelectorAll(".bought")].some(e => e.textContent.includes("yours"))`)
	priced := p.kept()
	if !strings.Contains(priced, "7.35 EUR") || len(priced) < len(before)+len(item) {
		t.Errorf("no price of %q in the file", item)
	}
	p.set("An offcut on hand", "grid sheet")
	p.set("Its size", "500 x 300 mm")
	p.press("Use it")
	p.until(`document.querySelector(".hand input").value === ""`)
	if got := p.kept(); !strings.Contains(got, "{ what: grid sheet, count: 1, size: 500 x 300 mm }") {
		t.Error("no offcut in the file")
	}
	// The packet is handed over when it is made, which can be called off.
	js[bool](p, `(window.got = [], HTMLAnchorElement.prototype.click = function () {}, URL.createObjectURL = (b) => (b.text().then(s => window.got.push(b.type + " " + s.slice(0, 5))), "about:blank"), true)`)
	p.press("Packet, PDF")
	p.press("Call it off")
	p.until(`[...document.querySelectorAll("button")].some(b => b.textContent === "Packet, PDF" && !b.disabled)`)
	p.press("Packet, PDF")
	p.until(`window.got.length > 0`)
	if got := js[[]string](p, `window.got`); len(got) != 1 || got[0] != "application/pdf %PDF-" {
		t.Errorf("handed over: %q", got)
	}
	p.press("Undo")
	if got := p.kept(); got != priced {
		t.Error("undo left the offcut")
	}
	p.press("Undo")
	if got := p.kept(); got != before {
		t.Error("undo left the price")
	}
	p.clean()
}
