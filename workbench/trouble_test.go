package workbench

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/google/go-cmp/cmp"

	"rillwright"
	"rillwright/asbuilt"
	"rillwright/examples"
	"rillwright/internal/logbook"
	"rillwright/internal/wire"
	"rillwright/layout"
	"rillwright/record"
)

// noteDays notes lines in the log of wall.yaml, each so many days ago.
func noteDays(t *testing.T, folder string, ago []int, lines ...string) {
	t.Helper()
	names := record.Names{Pumps: []string{"main pump"}, Manifolds: []string{"drip bar"}}
	for i, line := range lines {
		r, err := record.Typed(line, names)
		if err != nil {
			t.Fatal(err)
		}
		r.Time = time.Now().Truncate(time.Second).Add(-time.Duration(ago[i]) * 24 * time.Hour)
		if err := logbook.Add(filepath.Join(folder, "wall.log"), r); err != nil {
			t.Fatal(err)
		}
	}
}

// clogged is a log in which the bare pump has come to give less, and still lifts as
// high: its strainer, barb or rotor.
func clogged(t *testing.T, folder string) {
	t.Helper()
	noteDays(t, folder, []int{120, 120, 120, 1, 1, 1},
		"bare 10 L in 31 s, 31 s, 30 s", "shut-off 2.35 m", "manifold 5 L in 51 s, 50 s, 51 s",
		"bare 10 L in 42 s, 41 s, 42 s", "shut-off 2.35 m", "manifold 5 L in 54 s, 53 s, 54 s")
}

// The page's diagnosis is that of the command: same suspects, same figures.
func TestTrouble(t *testing.T) {
	b, folder := bench(t)
	look := func(q troubleRequest) (r troubleReply) {
		t.Helper()
		code, data := ask(t, b, "POST", "/api/trouble", q)
		if err := json.Unmarshal(data, &r); err != nil || code != http.StatusOK {
			t.Fatalf("%d, %v: %.300s", code, err, data)
		}
		return r
	}
	text := string(examples.CorridorCabinet)
	if r := look(troubleRequest{"wall.yaml", text, ""}); r.Found != nil || r.Log != "/log/wall.yaml" || len(r.Choices) < 10 || !strings.Contains(r.Says[0], "Nothing is noted") {
		t.Errorf("%+v", r)
	}
	if r := look(troubleRequest{"demo", text, ""}); r.Found != nil || r.Log != "" || len(r.Says) != 1 {
		t.Errorf("%+v", r)
	}
	clogged(t, folder)
	got := look(troubleRequest{"wall.yaml", text, ""})
	rep, err := rillwright.Build("wall.yaml", []byte(text), rillwright.Options{NoFixes: true})
	if err != nil {
		t.Fatal(err)
	}
	l, _, err := logbook.Read(filepath.Join(folder, "wall.log"))
	if err != nil {
		t.Fatal(err)
	}
	before, now := asbuilt.Split(l.Readings, time.Time{})
	f, err := asbuilt.Of(rep.Enclosure, before)
	if err != nil {
		t.Fatal(err)
	}
	d, err := asbuilt.Diagnose(f, before, now)
	if err != nil {
		t.Fatal(err)
	}
	want := wire.DiagnosisOf("wall.yaml", d, rep.Enclosure.Units)
	if diff := cmp.Diff(&want, got.Found); diff != "" {
		t.Error(diff)
	}
	first := got.Found.Suspects[0].ID
	if !slices.Contains([]string{"strainer[main pump]", "barb[main pump]", "scale[main pump]"}, first) || len(got.Suspects) != len(want.Suspects) || got.Worth < 2 {
		t.Errorf("%s is first of %d, %d worth a look", first, len(got.Suspects), got.Worth)
	}
	if m := got.Measure; m == nil || len(m.Tells) < 2 || m.How == "" || !slices.ContainsFunc(got.Choices, func(c logChoice) bool { return c.Value == m.Value }) {
		t.Errorf("%+v", m)
	}
	// A day since when there are readings of both kinds is another question.
	if r := look(troubleRequest{"wall.yaml", text, time.Now().AddDate(0, 0, -200).Format(time.DateOnly)}); r.Found == nil || r.Found.Used <= got.Found.Used {
		t.Errorf("%+v", r.Found)
	}
	for _, q := range []troubleRequest{{"wall.yaml", text, "soon"}, {"wall.yaml", "x", ""}, {"gone.yaml", text, ""}} {
		if code, data := ask(t, b, "POST", "/api/trouble", q); code < 400 || code >= 500 {
			t.Errorf("%v: %d %s", q.Name, code, data)
		}
	}
}

// What is typed on the page goes into the log; what cannot be noted is told of.
func TestNote(t *testing.T) {
	b, folder := bench(t)
	for _, c := range []struct {
		q      noteRequest
		status int
		noted  string
	}{
		{noteRequest{"wall.yaml", "rise", "12 mm", "at  night"}, 200, "rise 12 mm"},
		{noteRequest{"wall.yaml", "rise", "12", ""}, 200, ""},
		{noteRequest{"wall.yaml", "bare[gone]", "10 L in 3 s", ""}, 200, ""},
		{noteRequest{"demo", "rise", "12 mm", ""}, 403, ""},
		{noteRequest{"gone.yaml", "rise", "12 mm", ""}, 404, ""},
	} {
		code, data := ask(t, b, "POST", "/api/note", c.q)
		var r noteReply
		if err := json.Unmarshal(data, &r); err != nil || code != c.status || r.Noted != c.noted || code == 200 && (r.Fault == "") != (c.noted != "") {
			t.Errorf("%+v: %d, %v: %s", c.q, code, err, data)
		}
	}
	l, found, err := logbook.Read(filepath.Join(folder, "wall.log"))
	if err != nil || len(found) > 0 || len(l.Readings) != 1 || l.Readings[0].Note != "at night" {
		t.Errorf("%+v, %v, %v", l, found, err)
	}
}

// Every suspect but that nothing is wrong is in some part of the picture, in either
// demo; outlets that a row of cups names are those lit.
func TestSuspectParts(t *testing.T) {
	for name, text := range map[string][]byte{"demo": examples.CorridorCabinet, "demo-us": examples.CounterWall} {
		rep, err := rillwright.Build(name, text, rillwright.Options{NoFixes: true})
		if err != nil {
			t.Fatal(err)
		}
		e := rep.Enclosure
		place := layout.Of(e)
		r, err := record.Typed("rise 12 mm", record.Names{})
		if err != nil {
			t.Fatal(err)
		}
		r.Time = time.Unix(1.7e9, 0)
		f, err := asbuilt.Of(e, nil)
		if err != nil {
			t.Fatal(err)
		}
		d, err := asbuilt.Diagnose(f, nil, []record.Reading{r})
		if err != nil {
			t.Fatal(err)
		}
		fields := map[lostPart]bool{}
		for _, p := range sceneOf(rep.Survey).Parts {
			fields[lostPart{p.Kind, p.Name, p.Field}] = true
		}
		for i := range d.Suspects {
			s := &d.Suspects[i]
			parts := suspectParts(e, place, &s.Fault)
			if (len(parts) == 0) != (s.ID == "nothing") {
				t.Errorf("%s: %s is in %v", name, s.ID, parts)
			}
			for _, p := range parts {
				if !fields[p] {
					t.Errorf("%s: %s is in %v, which is not in the picture", name, s.ID, p)
				}
			}
			if strings.HasPrefix(s.ID, "blocked[") {
				if len(parts) < 3 {
					t.Errorf("%s: %v", name, parts)
				}
				s.Outlets = []int{1}
				if p := suspectParts(e, place, &s.Fault); len(p) != 1 || !strings.HasSuffix(p[0].Name, "outlet 2") {
					t.Errorf("%s: %v", name, p)
				}
			}
		}
	}
}

// Suspects are ranked with their part lit; another one is opened by the keyboard; the
// measurement that was asked for is noted on the spot and ranks them anew.
func TestPageTrouble(t *testing.T) {
	p := openPage(t, 1440, 900)
	clogged(t, p.folder)
	p.do(chromedp.Navigate("about:blank"), chromedp.Navigate(p.url+"#wall.yaml/trouble"))
	p.until(`document.querySelectorAll(".suspects > li").length > 1 && Number(document.querySelector("canvas.space")?.dataset.drawn) > 0`)
	p.until(`document.querySelector(".suspects [aria-expanded=true] + div").textContent.includes("Lit in the picture: main pump")`)
	p.until(orange + ` > 0.0005`)
	lit := js[float64](p, orange)
	js[bool](p, `(document.querySelector(".suspects [aria-expanded=true]").focus(), true)`)
	p.do(chromedp.KeyEvent(kb.Enter))
	p.until(`document.querySelector(".suspects [aria-expanded=true]") === null`)
	p.until(fmt.Sprintf(`%s < %g`, orange, lit/2))
	p.do(chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent(kb.Enter))
	p.until(`document.querySelector(".suspects > li:nth-child(2) [aria-expanded=true]") !== null`)
	p.axe("a suspect that is opened")
	before := js[string](p, `document.querySelector(".suspects").textContent`)
	if v := js[string](p, `document.querySelector(".noting select").value`); v != "no-strainer[main pump]" {
		t.Fatalf("%q is asked for", v)
	}
	p.set("Figures", "10 L in")
	p.press("Note it")
	p.until(`document.querySelector(".noting .wrong") !== null`)
	p.set("Figures", "10 L in 30 s, 31 s, 31 s")
	p.press("Note it")
	p.until(fmt.Sprintf(`document.querySelector(".suspects").textContent !== %q`, before))
	p.until(`document.querySelector(".suspects > li").textContent.includes("strainer of the main pump is clogged")`)
	log, err := os.ReadFile(filepath.Join(p.folder, "wall.log"))
	if err != nil || !strings.Contains(string(log), "no-strainer[main pump]") {
		t.Errorf("%v: %s", err, log)
	}
	p.clean()
}
