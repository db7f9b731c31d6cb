package catalogue

import (
	"math"
	"os"
	"strings"
	"testing"

	"rillwright/finding"
)

func show(list finding.List) string {
	var b strings.Builder
	for _, f := range list {
		b.WriteString("\n  ")
		b.WriteString(f.Field + ": " + f.What + " | " + f.Do)
	}
	return b.String()
}

// exampleFile returns the example of docs/parts.md, which must stay true.
func exampleFile(t testing.TB) []byte {
	t.Helper()
	text, err := os.ReadFile("../docs/parts.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(text), "```yaml\nrillwright-parts: 1")
	body, _, closed := strings.Cut(rest, "```")
	if !ok || !closed {
		t.Fatal("no example in docs/parts.md")
	}
	return []byte("rillwright-parts: 1" + body)
}

func TestReadPartsExample(t *testing.T) {
	parts, list := ReadParts("my-parts.yaml", exampleFile(t))
	if len(list) > 0 {
		t.Fatalf("findings:%s", show(list))
	}
	kinds := map[Kind]bool{}
	for _, p := range parts {
		kinds[p.Kind] = true
	}
	for _, k := range Kinds() {
		if !kinds[k] {
			t.Errorf("no example of a %s", k)
		}
	}
	c := builtin(t).With(parts)
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: %g, want %g", what, got, want)
		}
	}
	hose := find(t, c, "Grey hose 17mm")
	near("hose bore low", float64(hose.Bore.Low), 0.0168)
	near("hose bore high", float64(hose.Bore.High), 0.0172)
	near("hose wall", float64(hose.Wall), 0.0025)
	if len(hose.Ends) != 2 || hose.Price.Per != "m" || hose.Price.Currency != "EUR" || hose.Mark != Measured || len(hose.Stock) != 2 {
		t.Errorf("hose: %+v", hose)
	}
	near("pipe bore from outside and wall", float64(find(t, c, "white pipe 22 mm").Bore.Likely), 0.0192)
	if l := find(t, c, "brass elbow 1/2 in").Loss; l.Method != LossConstant || l.KInf != 1.4 {
		t.Errorf("elbow loss: %+v", l)
	}
	valve := find(t, c, "blue valve")
	if valve.Loss.Method != LossKv {
		t.Errorf("valve loss: %+v", valve.Loss)
	}
	near("valve kv", float64(valve.Loss.Kv), 3.2/3600)
	if tee := find(t, c, "Y piece 16 mm"); len(tee.Ends) != 3 || tee.Through.Mark != Assumed {
		t.Errorf("tee: %+v", tee)
	}
	bulkhead := find(t, c, "green bulkhead")
	near("hole", float64(bulkhead.Hole.Low), 0.041)
	near("flange", float64(bulkhead.Flange), 0.058)
	pump := find(t, c, "second-hand pump")
	if len(pump.Curve) != 3 || pump.Curve[0].Flow != 0 {
		t.Errorf("pump curve: %v", pump.Curve)
	}
	near("pump label", float64(pump.Label.Flow), 1.3/3600)
	if e := find(t, c, "brown dripper").Emitter; e.Exponent != 0.5 || e.Cv != 0.07 {
		t.Errorf("emitter: %+v", e)
	}
	near("strainer", float64(find(t, c, "coarse cage").Strainer.OpenArea), 5)
}

func TestReadPartsFaults(t *testing.T) {
	for _, c := range []struct {
		name, body string
		says       string
		line       int // of the finding; 0 not checked
	}{
		{"no unit", "- {part: a, kind: hose, bore: 13}", "unit", 3},
		{"unknown kind", "- {part: a, kind: hosepipe, bore: 13 mm}", "hosepipe", 3},
		{"unknown key", "- {part: a, kind: hose, boar: 13 mm}", "boar", 3},
		{"bad end", "- part: a\n  kind: hose\n  bore: 13 mm\n  ends: [nozzle 13 mm]", "nozzle", 6},
		{"no bore", "- part: a\n  kind: hose", "needs it", 4},
		{"bore of nothing", "- part: a\n  kind: hose\n  bore: 0 mm", "not above 0", 5},
		{"bore outside", "- part: a\n  kind: pipe\n  bore: 20 mm\n  outside: 16 mm", "not smaller than the outside", 5},
		{"walls meet", "- part: a\n  kind: pipe\n  outside: 20 mm\n  wall: 10 mm", "no bore", 6},
		{"tee with two ends", "- part: a\n  kind: tee\n  bore: 10 mm\n  ends: [barb 13 mm, barb 13 mm]", "3 ends", 6},
		{"two losses", "- part: a\n  kind: valve\n  bore: 10 mm\n  loss:\n    k: 2\n    kv: 3 m3/h", "both k and kv", 8},
		{"negative k", "- part: a\n  kind: valve\n  bore: 10 mm\n  loss:\n    k: -2", "negative", 7},
		{"kv of nothing", "- part: a\n  kind: valve\n  bore: 10 mm\n  loss:\n    kv: 0 m3/h", "not above 0", 7},
		{"pump without figures", "- part: a\n  kind: pump", "label or its curve", 4},
		{"rising curve", "- part: a\n  kind: pump\n  curve:\n    - {flow: 0 L/h, head: 1 m}\n    - {flow: 100 L/h, head: 2 m}", "not below", 7},
		{"short curve", "- part: a\n  kind: pump\n  curve:\n    - {flow: 0 L/h, head: 1 m}", "at least two", 6},
		{"curve twice", "- part: a\n  kind: pump\n  curve-file: a.csv\n  curve:\n    - {flow: 0 L/h, head: 2 m}\n    - {flow: 9 L/h, head: 1 m}", "both curve", 5},
		{"label on hose", "- part: a\n  kind: hose\n  bore: 9 mm\n  label: {flow: 3 L/h, head: 1 m}", "belongs to a pump", 0},
		{"hole too small", "- part: a\n  kind: bulkhead\n  bore: 25 mm\n  hole: 20 mm", "not larger", 6},
		{"emitter of nothing", "- part: a\n  kind: emitter", "needs its flow", 4},
		{"emitter exponent", "- part: a\n  kind: emitter\n  emitter: {flow: 2 L/h, at: 10 m, exponent: 7}", "from 0 to 1", 5},
		{"price of hose", "- part: a\n  kind: hose\n  bore: 9 mm\n  price: 3 EUR", "how much", 6},
		{"same name", "- {part: My hose, kind: hose, bore: 9 mm}\n- {part: my  HOSE, kind: hose, bore: 9 mm}", "second part of that name", 4},
		{"open strainer", "- part: a\n  kind: strainer\n  open-area: 0 %", "not above 0", 5},
	} {
		parts, list := ReadParts("p.yaml", []byte("rillwright-parts: 1\nparts:\n"+c.body+"\n"))
		if len(list) == 0 {
			t.Errorf("%s: no finding", c.name)
			continue
		}
		hit := false
		for _, f := range list {
			if strings.Contains(f.What+f.Do, c.says) && (c.line == 0 || f.Place.Line == c.line) {
				hit = f.Place.File == "p.yaml" && f.Excerpt != ""
			}
		}
		if !hit {
			t.Errorf("%s: want %q on line %d, got:%s (line %d)", c.name, c.says, c.line, show(list), list[0].Place.Line)
		}
		if len(parts) > 0 && c.name != "same name" {
			t.Errorf("%s: the part is kept", c.name)
		}
	}
	if _, list := ReadParts("p.yaml", []byte("rillwright-parts: 7\nparts:\n- {part: a, kind: hose, bore: 9 mm}\n")); len(list) != 1 || !strings.Contains(list[0].What, "format 1") {
		t.Errorf("format 7:%s", show(list))
	}
}

// All faults of a file come at once, in its order.
func TestReadPartsAllFaults(t *testing.T) {
	parts, list := ReadParts("p.yaml", []byte(`rillwright-parts: 1
parts:
  - part: one
    kind: hose
    bore: 13
  - part: two
    kind: pipe
    outside: 10 mm
    wall: 6 mm
  - part: three
    kind: hose
    bore: 9 mm
  - part: four
    kind: pump
`))
	if len(list) != 3 || list[0].Place.Line != 5 || list[1].Place.Line != 9 || list[2].Place.Line != 14 {
		t.Errorf("findings:%s", show(list))
	}
	if len(parts) != 1 || parts[0].Name != "three" {
		t.Errorf("parts: %v", names(parts))
	}
}

func TestReadCurve(t *testing.T) {
	want := []Point{{0, 2.1}, {0.5 / 3600, 1.6}, {1.1 / 3600, 0.3}}
	for _, text := range []string{
		"# bucket\nflow L/h, head m\n0, 2.1\n500, 1.6\n1100, 0.3\n",
		"\ufeffhead (m);flow (L/h)\r\n0.3;1100\r\n2.1;0\r\n# slow\r\n1.6;500\r\n",
		"Flow [L/h]\tHead [cm]\n500\t160\n0\t210\n1100\t30\n",
	} {
		got, list := ReadCurve("c.csv", []byte(text))
		if len(list) > 0 {
			t.Errorf("%q:%s", text, show(list))
			continue
		}
		if len(got) != len(want) {
			t.Errorf("%q: %v", text, got)
			continue
		}
		for i := range got {
			if math.Abs(float64(got[i].Flow-want[i].Flow)) > 1e-15 || math.Abs(float64(got[i].Head-want[i].Head)) > 1e-12 {
				t.Errorf("%q: point %d %v, want %v", text, i, got[i], want[i])
			}
		}
	}
}

func TestReadCurveFaults(t *testing.T) {
	const head = "flow L/h, head m\n"
	for _, c := range []struct {
		name, text, says string
		line, column     int
	}{
		{"empty", "", "no rows", 0, 0},
		{"comments only", "# a\n", "no rows", 0, 0},
		{"not text", "flow L/h, head m\n\xff, 1\n", "UTF-8", 0, 0},
		{"no unit", "flow, head m\n0, 1\n", "no unit", 1, 1},
		{"odd unit", "flow L/h, head kg\n0, 1\n", "not a unit", 1, 11},
		{"no head", "flow L/h\n3\n", `"head" is missing`, 1, 1},
		{"two flows", "flow L/h, flow L/h\n1, 2\n", "second column", 1, 11},
		{"other column", "flow L/h, head m, power W\n", "power W", 1, 19},
		{"word", head + "0, 2\nmuch, 1\n", `"much" is not a number`, 3, 1},
		{"unit in cell", head + "0, 2\n5, 1 m\n", "stands in the heading", 3, 4},
		{"negative", head + "0, 2\n-5, 1\n", "negative", 3, 1},
		{"missing cell", head + "0, 2\n5,\n", "missing", 3, 0},
		{"decimal comma", head + "0, 2\n5, 1,5\n", "3 columns", 3, 1},
		{"one point", head + "0, 2\n", "at least two", 0, 0},
		{"rising", head + "0, 2\n100, 2.5\n", "not below", 3, 1},
		{"level", head + "0, 2\n100, 2\n", "not below", 3, 1},
		{"same flow", head + "5, 2\n5, 1\n", "two points", 3, 1},
		{"quotes", head + "0, \"2\n", "quotes", 0, 0},
	} {
		_, list := ReadCurve("c.csv", []byte(c.text))
		if len(list) == 0 {
			t.Errorf("%s: no finding", c.name)
			continue
		}
		f := list[0]
		if !strings.Contains(f.What+f.Do, c.says) || c.line > 0 && f.Place.Line != c.line || c.column > 0 && f.Place.Column != c.column || f.Place.File != "c.csv" {
			t.Errorf("%s: %+v", c.name, f)
		}
	}
	_, list := ReadCurve("c.csv", []byte(head+"0, 2\nx, 1\n7, y\n"))
	if len(list) != 2 {
		t.Errorf("want both faults:%s", show(list))
	}
}

func FuzzReadParts(f *testing.F) {
	f.Add(exampleFile(f))
	f.Add([]byte("rillwright-parts: 1\nparts:\n- {part: a, kind: pump, curve: [{flow: 1 L/h, head: 2 m}]}\n"))
	f.Add([]byte("parts: [{part: a, kind: tee, ends: [open]}]"))
	f.Fuzz(func(t *testing.T, data []byte) {
		parts, list := ReadParts("f.yaml", data)
		for _, p := range parts {
			if p.Name == "" || p.Bore.Low < 0 || needsBore(p.Kind) && !(p.Bore.Low > 0) {
				t.Errorf("part %+v came through, findings:%s", p, show(list))
			}
			checkFalling(t, p.Curve)
		}
	})
}

func FuzzReadCurve(f *testing.F) {
	f.Add([]byte("# bucket\nflow L/h, head m\n0, 2.1\n500, 1.6\n1100, 0.3\n"))
	f.Add([]byte("head (ft);flow (US gal/h)\n1;2\n\"\n"))
	f.Add([]byte("flow L/h\thead m\n1e9\t1\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		points, list := ReadCurve("f.csv", data)
		if len(list) > 0 {
			return
		}
		if len(points) < 2 {
			t.Fatalf("%d points and no finding", len(points))
		}
		checkFalling(t, points)
	})
}

func checkFalling(t *testing.T, points []Point) {
	t.Helper()
	for i, p := range points {
		if !(p.Flow >= 0 && p.Head >= 0) || math.IsInf(float64(p.Flow), 0) || math.IsInf(float64(p.Head), 0) {
			t.Errorf("point %v", p)
		}
		if i > 0 && !(p.Flow > points[i-1].Flow && p.Head < points[i-1].Head) {
			t.Errorf("points %v and %v do not fall", points[i-1], p)
		}
	}
}
