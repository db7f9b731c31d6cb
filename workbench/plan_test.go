package workbench

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rillwright"
	"rillwright/design"
	"rillwright/examples"
	"rillwright/schedule"
	"rillwright/works"
)

// The page's plan is that of the command: the same steps at the same times, the same
// end; and each step that closes off anything of either demo shows what.
func TestPlan(t *testing.T) {
	b, _ := bench(t)
	lit := map[string]bool{}
	for name, text := range map[string][]byte{"demo": examples.CorridorCabinet, "demo-us": examples.CounterWall} {
		code, data := ask(t, b, "POST", "/api/plan", planRequest{name, string(text), "2026-03-02"})
		var got planReply
		if err := json.Unmarshal(data, &got); err != nil || code != http.StatusOK {
			t.Fatalf("%d, %v: %.300s", code, err, data)
		}
		rep, err := rillwright.Build(name, text, rillwright.Options{NoFixes: true})
		if err != nil {
			t.Fatal(err)
		}
		today, _ := schedule.ParseDay("2026-03-02")
		want, err := planOf(rep, today)
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Steps) < 20 || len(got.Steps) != len(want.Steps) || len(got.Next) != 3 || len(got.Says) < 2 || got.Days < 20 {
			t.Fatalf("%d steps, next %q, %q, %g days", len(got.Steps), got.Next, got.Says, got.Days)
		}
		fields := map[string]bool{}
		for _, p := range sceneOf(rep.Survey).Parts {
			fields[p.Kind+p.Field+p.Name] = true
		}
		sets, last := 0, math.Inf(-1)
		for _, s := range got.Steps {
			if s.Sets {
				sets++
			}
			worked := len(s.Pieces) > 0
			if worked && math.Abs(s.Pieces[len(s.Pieces)-1][1]-s.End) > 1e-9 || s.Finish < s.End || s.Finish > got.Days {
				t.Errorf("%s: %+v", s.ID, s)
			}
			if !worked && !s.Comes && s.Finish == s.End { // nothing is done: then something is waited for
				t.Errorf("%s is neither work, nor delivered, nor waited for", s.ID)
			}
			if !s.Comes {
				if from := begin(s); from < last {
					t.Errorf("%s stands after a step that begins later", s.ID)
				} else {
					last = from
				}
			}
			if rule, _, _ := strings.Cut(s.ID, ":"); s.Closes != "" && len(s.Lost) > 0 {
				lit[rule] = true
			}
			for _, p := range s.Lost {
				if !fields[p.Kind+p.Field+p.Name] {
					t.Errorf("%s closes off %v, which is not in the picture", s.ID, p)
				}
			}
		}
		if sets < 3 {
			t.Errorf("%d steps set the end", sets)
		}
	}
	rules, err := works.Read(works.Usual())
	if err != nil {
		t.Fatal(err)
	}
	inDemos := []string{"order", "drill", "bond", "dam", "bond-grid", "foam"} // none has a solvent joint
	for _, r := range rules {
		if _, known := closings()[r.ID]; r.Closes != "" && !known {
			t.Errorf("%s closes something off, and closings does not say what", r.ID)
		}
		if slices.Contains(inDemos, r.ID) && !lit[r.ID] {
			t.Errorf("nothing is shown up for %s", r.ID)
		}
	}
	for _, q := range []planRequest{{"demo", string(examples.CorridorCabinet), "soon"}, {"demo", "x", "2026-03-02"}} {
		if code, data := ask(t, b, "POST", "/api/plan", q); code != http.StatusBadRequest && code != http.StatusUnprocessableEntity {
			t.Errorf("%d: %s", code, data)
		}
	}
}

// begin is when a step's work begins; for what merely stands, when that does.
func begin(s planStep) float64 {
	if len(s.Pieces) == 0 {
		return s.End
	}
	return s.Pieces[0][0]
}

// orange is how much of the picture has the colour of what is shown up.
const orange = `(() => {
	const c = document.querySelector("canvas.space"), d = document.createElement("canvas")
	const [w, h] = [d.width, d.height] = [c.width, c.height]
	const g = d.getContext("2d")
	g.drawImage(c, 0, 0)
	const px = g.getImageData(0, 0, w, h).data
	let n = 0
	for (let i = 0; i < px.length; i += 4) if (px[i] > px[i + 2] + 60 && px[i] > 120) n++
	return n / w / h
})()`

// A step that is opened tells all of it and shows up what it closes off.
func TestPagePlan(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.view("Plan")
	p.until(`document.querySelectorAll(".steps > li").length > 20 && Number(document.querySelector("canvas.space")?.dataset.drawn) > 0`)
	before := js[float64](p, orange)
	js[bool](p, `([...document.querySelectorAll(".steps button")].find(b => b.textContent.startsWith("Bond the panes")).click(), true)`)
	p.until(`document.querySelector(".steps .caution")?.textContent.includes("back (pane)")`)
	p.until(fmt.Sprintf(`%s > %g`, orange, before+0.01))
	p.axe("a step that is opened")
	p.view("Bench")
	p.until(`document.querySelector(".benchmode h2")?.textContent === "Order the glass" && document.querySelector(".benchmode .caution") !== null`)
	p.view("Look")
	p.until(fmt.Sprintf(`Number(document.querySelector("canvas.space")?.dataset.drawn) > 0 && %s < %g`, orange, before+0.01))
	p.clean()
}

// A step that is ticked is marked in the file with all that comes before it, comments
// kept; bench mode goes on with the next one; a tick is taken back by the same button.
func TestPageTick(t *testing.T) {
	p := openPage(t, 360, 740)
	before := p.file()
	p.view("Bench")
	p.until(`document.querySelector(".benchmode h2")?.textContent === "Order the glass"`)
	p.press("It is done")
	p.until(`document.querySelector(".benchmode h2")?.textContent !== "Order the glass"`)
	day := js[string](p, `(d => d.getFullYear() + "-" + String(d.getMonth() + 1).padStart(2, "0") + "-" + String(d.getDate()).padStart(2, "0"))(new Date())`)
	text := p.kept()
	want := strings.TrimRight(before, "\n") + "\n\ndone:\n  - { step: order, on: " + day + " }"
	if diff := cmp.Diff(want, strings.TrimRight(text, "\n")); diff != "" {
		t.Error(diff)
	}
	p.view("Plan")
	open := func(step string) {
		t.Helper()
		p.until(fmt.Sprintf(`[...document.querySelectorAll(".steps button")].some(b => b.textContent.startsWith(%q))`, step))
		js[bool](p, fmt.Sprintf(`([...document.querySelectorAll(".steps button")].find(b => b.textContent.startsWith(%q)).click(), true)`, step))
	}
	open("Bond the panes")
	p.press("Done, and all before it")
	p.until(`[...document.querySelectorAll(".steps .past")].length > 4`)
	marks := strings.Count(p.kept(), "- { step:")
	if marks < 5 {
		t.Errorf("%d marks", marks)
	}
	p.press("It is not done after all")
	p.until(`[...document.querySelectorAll("button")].some(b => b.textContent === "It is done")`)
	if n := strings.Count(p.kept(), "- { step:"); n != marks-1 {
		t.Errorf("%d marks after one of %d was taken back", n, marks)
	}
	if w := js[int64](p, `document.scrollingElement.scrollWidth`); w > 360 {
		t.Errorf("%d wide", w)
	}
	p.clean()
}

// A measured fact is noted at the bench, in the file and nowhere else; the answers go by
// it, and a value that the figure cannot have is refused with what to write.
func TestPageFact(t *testing.T) {
	p := openPage(t, 360, 740)
	before := p.file()
	p.view("Bench")
	p.until(`document.querySelector(".benchmode .facts") !== null`)
	fill := func(path, is string) {
		t.Helper()
		js[bool](p, fmt.Sprintf(`((...values) => {
			document.querySelector(".facts").open = true
			document.querySelectorAll(".facts input").forEach((f, i) => { f.value = values[i]; f.dispatchEvent(new Event("input", { bubbles: true })) })
			return true
		})(%q, %q)`, path, is))
		p.until(`!document.querySelector(".facts button").disabled`)
		p.press("Note it")
	}
	fill("drains[main drain].lip", "152")
	p.until(`document.body.textContent.includes("no unit")`)
	if p.file() != before {
		t.Error("a figure without unit was noted")
	}
	fill("drains[main drain].lip", "152 mm")
	p.until(`[...document.querySelectorAll(".facts li")].some(l => l.textContent === "drains[main drain].lip: 152 mm (planned 150 mm)")`)
	p.axe("a fact noted at the bench")
	day := js[string](p, `(d => d.getFullYear() + "-" + String(d.getMonth() + 1).padStart(2, "0") + "-" + String(d.getDate()).padStart(2, "0"))(new Date())`)
	d, list := design.Read("kept", []byte(p.kept()))
	if o := d.Overrides(); list.HasErrors() || len(o) != 1 || o[0].Measured != "152 mm" || d.AsBuilt[0].On.Value != day {
		t.Errorf("%+v, %v", o, list)
	}
	if w := js[int64](p, `document.scrollingElement.scrollWidth`); w > 360 {
		t.Errorf("%d wide", w)
	}
	// The browser tells of the value that was refused, and of nothing else.
	if bad := p.bad(); len(bad) != 1 || !strings.Contains(bad[0], "422") {
		t.Errorf("the page complains: %q", bad)
	}
}
