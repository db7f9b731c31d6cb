// Package svg writes sheets as SVG 1.1 files that stand alone: no scripts, no
// style sheets, nothing fetched. The same sheet gives the same bytes.
//
// Source: W3C Recommendation, Scalable Vector Graphics (SVG) 1.1 (Second
// Edition), 2011.
package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"

	"rillwright/drawing"
)

// Write writes a sheet. Its units are mm, rounded to 0.01 mm. The error is that
// of Sheet.Check, or of w.
func Write(w io.Writer, s *drawing.Sheet) error {
	if err := s.Check(); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	p := &page{}
	p.text(xml.Header)
	p.text(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1"`)
	p.attr("width", number(s.Width)+"mm")
	p.attr("height", number(s.Height)+"mm")
	p.attr("viewBox", "0 0 "+number(s.Width)+" "+number(s.Height))
	p.attr("font-family", "'"+drawing.FontFamily+"', Verdana, Geneva, sans-serif")
	p.text(" fill=\"none\" stroke-linejoin=\"round\">\n")
	p.element("title", s.Title)
	p.element("desc", s.Description)
	p.text(`<rect x="0" y="0"`)
	p.length("width", s.Width)
	p.length("height", s.Height)
	p.text(" fill=\"#ffffff\"/>\n")
	s.Draw(p)
	p.text("</svg>\n")
	_, err := p.WriteTo(w)
	return err
}

// page implements drawing.Writer.
type page struct{ bytes.Buffer }

// Path implements drawing.Writer.
func (p *page) Path(d *drawing.Path) {
	switch {
	case d.Closed:
		p.text("<polygon")
	case len(d.Points) == 2:
		a, b := d.Points[0], d.Points[1]
		p.text("<line")
		p.length("x1", a.X)
		p.length("y1", a.Y)
		p.length("x2", b.X)
		p.length("y2", b.Y)
	default:
		p.text("<polyline")
	}
	if d.Closed || len(d.Points) > 2 {
		p.text(` points="`)
		for i, q := range d.Points {
			if i > 0 {
				p.text(" ")
			}
			p.text(number(q.X) + "," + number(q.Y))
		}
		p.text(`"`)
	}
	p.style(d.Pen, d.Fill)
	p.text("/>\n")
}

// Circle implements drawing.Writer.
func (p *page) Circle(c *drawing.Circle) {
	p.text("<circle")
	p.length("cx", c.Centre.X)
	p.length("cy", c.Centre.Y)
	p.length("r", c.Radius)
	p.style(c.Pen, c.Fill)
	p.text("/>\n")
}

// Text implements drawing.Writer.
func (p *page) Text(t *drawing.Text) {
	p.text("<text")
	p.length("x", t.At.X)
	p.length("y", t.At.Y)
	p.length("font-size", drawing.EmSize(t.Height))
	switch t.Anchor {
	case drawing.Middle:
		p.attr("text-anchor", "middle")
	case drawing.Right:
		p.attr("text-anchor", "end")
	}
	if t.Rotation != 0 {
		p.attr("transform", "rotate("+number(-t.Rotation)+" "+number(t.At.X)+" "+number(t.At.Y)+")")
	}
	p.text(` fill="#000000">`)
	p.escaped(t.Text)
	p.text("</text>\n")
}

func (p *page) style(pen drawing.Pen, fill drawing.Fill) {
	if ink, ok := fill.Ink(); ok {
		p.attr("fill", colour(ink))
	}
	if pen == drawing.NoPen {
		return
	}
	s := pen.Stroke()
	p.attr("stroke", colour(s.Ink))
	p.length("stroke-width", s.Width)
	for i, d := range s.Dash {
		if i == 0 {
			p.text(` stroke-dasharray="` + number(d))
		} else {
			p.text("," + number(d))
		}
	}
	if len(s.Dash) > 0 {
		p.text(`"`)
	}
}

func (p *page) text(s string) { p.WriteString(s) }

func (p *page) attr(name, value string) { p.text(" " + name + `="` + value + `"`) }

func (p *page) length(name string, v float64) { p.attr(name, number(v)) }

func (p *page) element(name, content string) {
	if content == "" {
		return
	}
	p.text("<" + name + ">")
	p.escaped(content)
	p.text("</" + name + ">\n")
}

// escaped writes words. Characters that XML cannot hold become U+FFFD.
func (p *page) escaped(s string) {
	// A bytes.Buffer takes all it is given.
	_ = xml.EscapeText(&p.Buffer, []byte(s))
}

func colour(i drawing.Ink) string { return fmt.Sprintf("#%02x%02x%02x", i.R, i.G, i.B) }

// number prints a figure to two decimals, without needless zeros or a minus on
// nothing.
func number(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
