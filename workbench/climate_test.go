package workbench

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"path/filepath"
	"strings"
	"testing"

	"rillwright"
	"rillwright/answers"
	"rillwright/examples"
	"rillwright/study"
)

// foggy is a demo in a cold place, closed at the top, so that its front fogs, with a
// lamp.
func foggy(t *testing.T) string {
	t.Helper()
	text := strings.NewReplacer(
		"air: 18 to 24 C", "air: 8 to 24 C",
		"at: top, width: 886 mm, height: 260 mm", "at: top, width: 886 mm, height: 432 mm",
	).Replace(string(examples.CorridorCabinet)) + "\nlights:\n  - { name: lamp, power: 24 W, lumens: 2600, hours: 11 h, kind: strip, sits: on the top, length: 800 mm }\n"
	if strings.Count(text, "432 mm") == 0 || strings.Count(text, "8 to 24 C") == 0 {
		t.Fatal("the demo is not what it was")
	}
	return text
}

// The page's day is the one that the answers of the command are taken from, and the
// painted light the one that is computed: step by step, and in shares.
func TestClimate(t *testing.T) {
	b, _ := bench(t)
	text := foggy(t)
	code, data := ask(t, b, "POST", "/api/climate", textRequest{"wall.yaml", text})
	var got climateReply
	if err := json.Unmarshal(data, &got); err != nil || code != http.StatusOK || len(got.Seasons) != 2 || got.Light == nil {
		t.Fatalf("%d, %v: %.300s", code, err, data)
	}
	rep, err := rillwright.Build("wall.yaml", []byte(text), rillwright.Options{NoFixes: true})
	if err != nil {
		t.Fatal(err)
	}
	list, err := answers.Living(rep.Enclosure, answers.LivingOptions{})
	if err != nil {
		t.Fatal(err)
	}
	figure := func(id string, k int) float64 {
		for i := range list.Answers {
			if list.Answers[i].ID == id {
				return list.Answers[i].Figures[k].Likely
			}
		}
		t.Fatalf("no answer %s", id)
		return 0
	}
	for i, s := range got.Seasons {
		fog := 0.0
		for _, at := range s.Fog {
			fog += at[1] - at[0]
		}
		if want := figure("fog", i); math.Abs(fog/3600-want) > 1e-6 {
			t.Errorf("%s: fogged for %g h, in the answer %g", s.Name, fog/3600, want)
		}
		if want := figure("evaporation", 2+i); want <= 0 {
			t.Errorf("nothing evaporates: %g", want)
		}
		if len(s.Time) != 289 || len(s.Fogged) != len(s.Time) || len(s.Lit) != 1 || s.Lit[0] != [2]float64{23400, 63000} {
			t.Errorf("%s: %d points, lit %v", s.Name, len(s.Time), s.Lit)
		}
	}
	if figure("fog", 0) <= figure("fog", 1) || figure("fog", 1) == 0 { // else the test is of little
		t.Errorf("fogged %v when cold, %v when warm", got.Seasons[0].Fog, got.Seasons[1].Fog)
	}
	lit, err := study.Shine(rep.Enclosure)
	if err != nil {
		t.Fatal(err)
	}
	wall, sum := got.Light.Faces[0], 0.0
	ends := []float64{0, 0.5, 1.5, 4, 8, math.Inf(1)} // the steps that growers know
	for i, k := range wall.Step {
		if v := lit.Wall.DLI[i]; v < ends[k] || v >= ends[k+1] {
			t.Fatalf("%g is painted as step %d", v, k)
		}
	}
	for _, s := range got.Light.Steps {
		sum += s.Share
	}
	if wall.Across*wall.Up != len(wall.Step) || math.Abs(sum-1) > 0.03 || len(got.Light.Faces) != 2 {
		t.Errorf("%d by %d cells, %d steps, shares of %g, %d faces", wall.Across, wall.Up, len(wall.Step), sum, len(got.Light.Faces))
	}
	if code, _ := ask(t, b, "POST", "/api/climate", textRequest{Text: "x"}); code != http.StatusUnprocessableEntity {
		t.Error(code)
	}
}

// shown is the mean shade of what the picture shows, and how much of it is of the
// dark blue that paint begins with.
const shown = `(() => {
	const c = document.querySelector("canvas.space"), d = document.createElement("canvas")
	const [w, h] = [d.width, d.height] = [c.width, c.height]
	const g = d.getContext("2d")
	g.drawImage(c, 0, 0)
	const px = g.getImageData(0, 0, w, h).data
	let sum = 0, n = 0, blue = 0
	for (let i = 0; i < px.length; i += 4) if (px[i + 3] > 0) {
		n++
		sum += px[i] + px[i + 1] + px[i + 2]
		if (px[i + 2] - px[i] > 60 && px[i] < 60) blue++
	}
	return [sum / n / 3, blue / n]
})()`

// Moving through the day fogs the front in the picture when it fogs; the light is
// painted on demand; all of it is told in words.
func TestPageClimate(t *testing.T) {
	p := openPage(t, 1440, 900)
	put(t, filepath.Join(p.folder, "wall.yaml"), foggy(t))
	p.until(`document.querySelector(".notices")?.textContent.includes("changed by another program")`)
	p.view("Climate")
	p.until(`document.querySelector(".climate .now")?.textContent.includes("is fogged")`)
	look := func() []float64 {
		t.Helper()
		before := js[int](p, `Number(document.querySelector("canvas.space").dataset.drawn)`)
		p.press("front")
		p.until(fmt.Sprintf(`Number(document.querySelector("canvas.space").dataset.drawn) > %d`, before))
		return js[[]float64](p, shown)
	}
	p.until(`Number(document.querySelector("canvas.space")?.dataset.drawn) > 0`)
	fogged := look()
	p.press("With the room warm")
	p.until(`document.querySelector(".climate .now").textContent.includes("clear")`)
	dry := look()
	if fogged[0] < dry[0]+5 {
		t.Errorf("fogged the picture is %.0f bright, clear %.0f", fogged[0], dry[0])
	}
	p.press("Paint it on the picture")
	p.until(fmt.Sprintf(`%s[1] > %g`, shown, dry[1]+0.02))
	at := js[string](p, `document.querySelector(".climate .now").textContent`)
	js[bool](p, `(r => { r.value = 48; r.dispatchEvent(new Event("input", {bubbles: true})); return true })(document.querySelector(".climate .scrub input"))`)
	p.until(fmt.Sprintf(`document.querySelector(".climate .now").textContent !== %q && document.querySelector(".climate .time").textContent.startsWith("04:00")`, at))
	p.press("Take the paint off")
	p.until(fmt.Sprintf(`%s[1] < %g`, shown, dry[1]+0.005))
	p.clean()
}
