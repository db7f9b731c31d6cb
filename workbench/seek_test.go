package workbench

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rillwright"
	"rillwright/examples"
	"rillwright/internal/wire"
	"rillwright/seek"
	"rillwright/works"
)

// weak is the first demo with a pump that is too weak.
func weak(t *testing.T, text string) string {
	t.Helper()
	out := strings.Replace(text, "label: { flow: 1200 L/h, head: 2.4 m }", "label: { flow: 700 L/h, head: 1.9 m }", 1)
	if out == text {
		t.Fatal("the demo has another pump")
	}
	return out
}

// The page finds what the command does, ends when the page goes, and refuses what cannot
// be looked for.
func TestSought(t *testing.T) {
	b, _ := bench(t)
	text := weak(t, string(examples.CorridorCabinet))
	q := seekRequest{Name: "demo", Text: text, Open: []string{"pump", "holes"}, For: "cheapest"}
	_, data := ask(t, b, "POST", "/api/seek", q)
	lines := bytes.Split(bytes.TrimSpace(data), []byte("\n"))
	var got struct{ Sought json.RawMessage }
	if err := json.Unmarshal(lines[len(lines)-1], &got); err != nil || got.Sought == nil {
		t.Fatalf("%s, %v", lines[len(lines)-1], err)
	}
	res, rep, err := rillwright.Seek(t.Context(), "demo", []byte(text), nil, works.Today(time.Now()), q.Open, seek.Options{Workers: 2, Most: mostSought})
	if err != nil || res.Best == nil {
		t.Fatal(err, res)
	}
	want, err := json.Marshal(wire.SoughtOf(rep.Enclosure, res))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got.Sought)); diff != "" {
		t.Error(diff)
	}
	for _, bad := range []seekRequest{{Name: "demo", Text: text, Open: []string{"pump"}, For: "dearest"}, {Name: "demo", Text: text, For: "cheapest"}, {Name: "demo", Text: text, Open: make([]string, 13), For: "cheapest"}} {
		if code, data := ask(t, b, "POST", "/api/seek", bad); code != http.StatusBadRequest {
			t.Errorf("%v: %d %s", bad.Open, code, data)
		}
	}
	q.Open = []string{"pumb"}
	if _, data := ask(t, b, "POST", "/api/seek", q); !bytes.Contains(data, []byte("write pump")) {
		t.Errorf("%s", data)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 150*time.Millisecond)
	defer cancel()
	q.Open = []string{"pump", "hose", "holes", "outlets", "drain"}
	ask(t, b, "POST", "/api/seek", q, func(r *http.Request) { *r = *r.WithContext(ctx) })
	select {
	case b.slow <- struct{}{}:
		<-b.slow
	case <-time.After(20 * time.Second):
		t.Error("the room is still taken")
	}
}

// On the page a weak pump is replaced by what is found, which is tried like any fix.
func TestPageChoices(t *testing.T) {
	p := openPage(t, 360, 740)
	put(t, p.folder+"/wall.yaml", weak(t, p.file()))
	p.reopen("wall.yaml")
	p.view("Choices")
	js[bool](p, `([...document.querySelectorAll(".choices .open label")].find(l => l.textContent.includes("with its fittings")).querySelector("input").click(), true)`)
	js[bool](p, `([...document.querySelectorAll(".choices .goal")].find(l => l.textContent.includes("what more money gives")).querySelector("input").click(), true)`)
	p.press("Look for it")
	p.until(`document.querySelector(".choices h3")?.textContent.includes("EUR")`)
	if w := js[int64](p, `document.scrollingElement.scrollWidth`); w > 360 {
		t.Errorf("%d wide", w)
	}
	p.axe("what was found")
	p.press("Try it")
	p.until(`document.querySelector(".trial, [role=status]") !== null && !document.body.textContent.includes("700 L/h")`)
	p.clean()
}
