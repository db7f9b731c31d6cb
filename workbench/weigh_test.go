package workbench

import (
	"bytes"
	"context"
	"encoding/json"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rillwright"
	"rillwright/examples"
	"rillwright/weigh"
)

// The page weighs what the command does, says how far it is, and ends when the page
// goes.
func TestWeighed(t *testing.T) {
	b, _ := bench(t)
	q := textRequest{Name: "demo", Text: string(examples.CorridorCabinet)}
	_, data := ask(t, b, "POST", "/api/weigh", q)
	lines := bytes.Split(bytes.TrimSpace(data), []byte("\n"))
	var got progress
	if err := json.Unmarshal(lines[len(lines)-1], &got); err != nil || len(lines) < 2 {
		t.Fatalf("%d lines, %v", len(lines), err)
	}
	rep, err := rillwright.Build("demo", examples.CorridorCabinet, rillwright.Options{NoFixes: true})
	if err != nil {
		t.Fatal(err)
	}
	want, err := weigh.Weigh(t.Context(), rep.Enclosure, weigh.Options{Draws: 10000, Rows: 256, Seed: 1, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got.Weighed); diff != "" {
		t.Error(diff)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 100*time.Millisecond)
	defer cancel()
	began := time.Now()
	if _, data := ask(t, b, "POST", "/api/weigh", q, within(ctx)); bytes.Contains(data, []byte(`"weighed"`)) {
		t.Errorf("a result after the page went: %.200s", data)
	}
	t.Logf("ended %v after it was called", time.Since(began))
	if _, data := ask(t, b, "POST", "/api/weigh", textRequest{Text: "x"}); !bytes.Contains(data, []byte(`"fault":"`)) {
		t.Errorf("%s", data)
	}
	if len(b.slow) > 0 || len(b.work) > 0 {
		t.Error("the room is still taken")
	}
}

// Weighing goes on while another view is looked at, can be called off, and tells in
// words what its bars show.
func TestPageChances(t *testing.T) {
	p := openPage(t, 360, 740)
	p.view("Chances")
	p.press("Weigh it")
	p.press("Call it off")
	p.press("Weigh it")
	p.view("Answers")
	p.view("Chances")
	p.until(`document.querySelectorAll(".chances .parts").length > 5 && document.querySelector(".ranked li") !== null`)
	got := js[[]string](p, `[...document.querySelectorAll(".chances details[open]")].map(d => d.querySelector("summary b").textContent + d.querySelectorAll(".ranked li").length)`)
	if len(got) == 0 {
		t.Error("nothing is open, of a demo of which something is")
	}
	if w := js[int64](p, `document.scrollingElement.scrollWidth`); w > 360 {
		t.Errorf("%d wide", w)
	}
	p.axe("what was weighed")
	p.clean()
}
