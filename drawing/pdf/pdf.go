// Package pdf writes sheets as the pages of one PDF file, each of its own size,
// with the typeface inside and nothing fetched. The same sheets give the same
// bytes: the file holds no date of its own.
package pdf

import (
	"fmt"
	"io"
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-fonts/dejavu/dejavusans"
	"codeberg.org/go-pdf/fpdf"

	"rillwright/drawing"
)

// Write writes sheets as one file under a title. Each sheet has a bookmark of its
// own title, below one of its Group where that changes. Lengths are written to
// 0.01 pt, 0.0035 mm. Characters that the typeface's tables cannot hold become
// U+FFFD. The error is that of Sheet.Check, of no sheets, or of w.
func Write(w io.Writer, title string, sheets []drawing.Sheet) error {
	if len(sheets) == 0 {
		return fmt.Errorf("pdf: no sheets")
	}
	for i := range sheets {
		if err := sheets[i].Check(); err != nil {
			return fmt.Errorf("pdf: sheet %d: %w", i+1, err)
		}
	}
	f := fpdf.New("P", "mm", "A4", "")
	f.SetCatalogSort(true)
	// The library wants dates: it would take the clock's otherwise.
	f.SetCreationDate(time.Unix(0, 0).UTC())
	f.SetModificationDate(time.Unix(0, 0).UTC())
	f.SetTitle(plain(title), true)
	f.SetCreator("rillwright", true)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.AddUTF8FontFromBytes(face, "", dejavusans.TTF)
	f.SetFont(face, "", 10)
	f.SetLineJoinStyle("round")
	p := &page{f: f}
	group := ""
	for i := range sheets {
		s := &sheets[i]
		f.AddPageFormat("P", fpdf.SizeType{Wd: s.Width, Ht: s.Height})
		if s.Group != "" && s.Group != group {
			f.Bookmark(plain(s.Group), 0, 0)
		}
		group = s.Group
		level := 0
		if group != "" {
			level = 1
		}
		f.Bookmark(plain(s.Title), level, 0)
		s.Draw(p)
	}
	if err := f.Output(w); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

const face = "sheet"

// page implements drawing.Writer.
type page struct{ f *fpdf.Fpdf }

// Path implements drawing.Writer.
func (p *page) Path(d *drawing.Path) {
	style := p.style(d.Pen, d.Fill)
	if style == "" {
		return
	}
	for i, q := range d.Points {
		if i == 0 {
			p.f.MoveTo(q.X, q.Y)
		} else {
			p.f.LineTo(q.X, q.Y)
		}
	}
	if d.Closed {
		p.f.ClosePath()
	}
	p.f.DrawPath(style)
}

// Circle implements drawing.Writer.
func (p *page) Circle(c *drawing.Circle) {
	style := p.style(c.Pen, c.Fill)
	if style == "" {
		return
	}
	// The library's own circles are up to 0.3 % too small between the ends of their
	// arcs, which is 0.13 mm on a hole of 44 mm. Eighths of a circle with handles of
	// 4/3 tan(angle/4) are true to 4e-6 of the radius.
	const parts = 8
	angle := 2 * math.Pi / parts
	handle := c.Radius * 4 / 3 * math.Tan(angle/4)
	at := func(k int) (x, y, along, down float64) {
		sin, cos := math.Sincos(float64(k) * angle)
		return c.Centre.X + c.Radius*cos, c.Centre.Y + c.Radius*sin, -handle * sin, handle * cos
	}
	x, y, dx, dy := at(0)
	p.f.MoveTo(x, y)
	for k := 1; k <= parts; k++ {
		u, v, du, dv := at(k)
		p.f.CurveBezierCubicTo(x+dx, y+dy, u-du, v-dv, u, v)
		x, y, dx, dy = u, v, du, dv
	}
	p.f.ClosePath()
	p.f.DrawPath(style)
}

// Text implements drawing.Writer.
func (p *page) Text(t *drawing.Text) {
	text := plain(t.Text)
	if text == "" {
		return
	}
	p.f.SetFontUnitSize(drawing.EmSize(t.Height))
	x := t.At.X
	switch t.Anchor {
	case drawing.Middle:
		x -= drawing.TextWidth(text, t.Height) / 2
	case drawing.Right:
		x -= drawing.TextWidth(text, t.Height)
	}
	p.f.SetTextColor(0, 0, 0)
	if t.Rotation == 0 {
		p.f.Text(x, t.At.Y, text)
		return
	}
	p.f.TransformBegin()
	p.f.TransformRotate(t.Rotation, t.At.X, t.At.Y)
	p.f.Text(x, t.At.Y, text)
	p.f.TransformEnd()
}

// style sets pen and fill and returns how to paint, "" for not at all.
func (p *page) style(pen drawing.Pen, fill drawing.Fill) string {
	style := ""
	if ink, ok := fill.Ink(); ok {
		p.f.SetFillColor(int(ink.R), int(ink.G), int(ink.B))
		style = "F"
	}
	if pen == drawing.NoPen {
		return style
	}
	s := pen.Stroke()
	p.f.SetDrawColor(int(s.Ink.R), int(s.Ink.G), int(s.Ink.B))
	p.f.SetLineWidth(s.Width)
	p.f.SetDashPattern(s.Dash, 0)
	return style + "D"
}

// plain returns a text with what the library cannot write replaced: characters
// above U+FFFF make it panic, and control characters have no shape.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF || r == utf8.RuneError || unicode.IsControl(r) || unicode.Is(unicode.Cs, r) {
			return '\uFFFD'
		}
		return r
	}, s)
}
