package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"rillwright/drawing"
)

func sample() *drawing.Sheet {
	s := &drawing.Sheet{Title: `Wall & "pool" <1>`, Description: "A <test>.", Width: 210, Height: 148.5}
	s.Add(
		drawing.Line(drawing.Point{X: 1.23456, Y: -0.001}, drawing.Point{X: 10, Y: 20.005}, drawing.Dashed),
		&drawing.Path{Points: []drawing.Point{{X: 1, Y: 2}, {X: 3, Y: 4}, {X: 5, Y: 6}}, Pen: drawing.CurveA},
		drawing.Rectangle(drawing.Box{Left: 1, Top: 2, Right: 3, Bottom: 4}, drawing.NoPen, drawing.Pale),
		&drawing.Circle{Centre: drawing.Point{X: 9, Y: 9}, Radius: 2, Pen: drawing.Thin, Fill: drawing.Paper},
		&drawing.Text{At: drawing.Point{X: 50, Y: 60}, Text: "a < b & \"c\" \x00 ½″", Height: 2.5, Anchor: drawing.Middle, Rotation: 90},
	)
	return s
}

// What is written, checked against the elements' definitions in SVG 1.1 by
// hand: chapters 9 (shapes), 10 (text), 11 (painting), 7 (units, transforms).
const want = `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="210mm" height="148.5mm" viewBox="0 0 210 148.5" font-family="'DejaVu Sans', Verdana, Geneva, sans-serif" fill="none" stroke-linejoin="round">
<title>Wall &amp; &#34;pool&#34; &lt;1&gt;</title>
<desc>A &lt;test&gt;.</desc>
<rect x="0" y="0" width="210" height="148.5" fill="#ffffff"/>
<line x1="1.23" y1="0" x2="10" y2="20.01" stroke="#000000" stroke-width="0.35" stroke-dasharray="1.5,1.2"/>
<polyline points="1,2 3,4 5,6" stroke="#0072b2" stroke-width="0.7"/>
<polygon points="1,2 3,2 3,4 1,4" fill="#e2e2e2"/>
<circle cx="9" cy="9" r="2" fill="#ffffff" stroke="#000000" stroke-width="0.25"/>
<text x="50" y="60" font-size="3.43" text-anchor="middle" transform="rotate(-90 50 60)" fill="#000000">a &lt; b &amp; &#34;c&#34; ` + "\uFFFD" + ` ½″</text>
</svg>
`

func TestWrite(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample()); err != nil {
		t.Fatal(err)
	}
	if b.String() != want {
		t.Errorf("wrote\n%s\nwant\n%s", b.String(), want)
	}
}

// The file is well-formed, its words come back, and it fetches and runs nothing.
func TestStandsAlone(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample()); err != nil {
		t.Fatal(err)
	}
	words := ""
	allowed := map[string]bool{"svg": true, "title": true, "desc": true, "rect": true, "line": true, "polyline": true, "polygon": true, "circle": true, "text": true}
	for d := xml.NewDecoder(&b); ; {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if !allowed[tok.Name.Local] || tok.Name.Space != "http://www.w3.org/2000/svg" {
				t.Errorf("element %v", tok.Name)
			}
			for _, a := range tok.Attr {
				if strings.Contains(a.Name.Local, "href") || strings.HasPrefix(a.Name.Local, "on") || strings.Contains(a.Value, "url(") {
					t.Errorf("attribute %v=%q", a.Name, a.Value)
				}
			}
		case xml.CharData:
			words += string(tok)
		}
	}
	for _, w := range []string{`Wall & "pool" <1>`, "A <test>.", `a < b & "c"`, "½″"} {
		if !strings.Contains(words, w) {
			t.Errorf("%q was lost in %q", w, words)
		}
	}
}

func TestWriteRefuses(t *testing.T) {
	s := sample()
	s.Add(drawing.Line(drawing.Point{X: math.NaN()}, drawing.Point{}, drawing.Thin))
	var b bytes.Buffer
	if err := Write(&b, s); err == nil || b.Len() > 0 {
		t.Errorf("err = %v, wrote %d bytes", err, b.Len())
	}
	if err := Write(full{}, sample()); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("a full disk gave %v", err)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", -0.004: "0", 0.005: "0.01", 1: "1", 12.3456: "12.35", -2.5: "-2.5", 1e6: "1000000", 99.999: "100",
	} {
		if got := number(v); got != want {
			t.Errorf("number(%g) = %s, want %s", v, got, want)
		}
	}
}
