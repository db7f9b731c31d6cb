// Package dxf writes sheets as DXF files of release 12 (AC1009), the oldest that
// every program still reads: lines, circles, arcs, polylines, solids and texts on layers,
// one for each pen. Units are mm of what is drawn: a sheet at 1:5 is written five
// times as large as its paper, so that a pane can be cut from it.
//
// Source: Autodesk, AutoCAD Release 12 DXF reference (group codes, from memory);
// checked with another reader.
package dxf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"rillwright/drawing"
)

// Write writes a sheet. Lengths are rounded to 1e-6 mm. Fills other than solid ones
// are left out, and letters beyond ASCII are written as the format has them or in
// words that are. The error is that of Sheet.Check, or of w.
func Write(w io.Writer, s *drawing.Sheet) error {
	if err := s.Check(); err != nil {
		return fmt.Errorf("dxf: %w", err)
	}
	f := &file{high: s.Height, by: 1}
	if s.Scale > 0 {
		f.by = 1 / s.Scale
	}
	f.header(s)
	f.tables()
	f.put(0, "SECTION", 2, "ENTITIES")
	s.Draw(f)
	f.put(0, "ENDSEC", 0, "EOF")
	_, err := f.WriteTo(w)
	return err
}

// file implements drawing.Writer.
type file struct {
	bytes.Buffer
	high, by float64 // of the sheet, and by which lengths grow
}

// put writes pairs of a group code and its value.
func (f *file) put(pairs ...any) {
	for i := 0; i+1 < len(pairs); i += 2 {
		fmt.Fprintf(&f.Buffer, "%3d\r\n", pairs[i])
		switch v := pairs[i+1].(type) {
		case float64:
			f.WriteString(number(v))
		default:
			fmt.Fprint(&f.Buffer, v)
		}
		f.WriteString("\r\n")
	}
}

func (f *file) header(s *drawing.Sheet) {
	f.put(0, "SECTION", 2, "HEADER",
		9, "$ACADVER", 1, "AC1009",
		9, "$INSUNITS", 70, 4,
		9, "$MEASUREMENT", 70, 1,
		9, "$EXTMIN", 10, 0.0, 20, 0.0, 30, 0.0,
		9, "$EXTMAX", 10, s.Width*f.by, 20, s.Height*f.by, 30, 0.0,
		9, "$LTSCALE", 40, 1.0,
		0, "ENDSEC")
}

// textLayer is where words are.
const textLayer = "WORDS"

func (f *file) tables() {
	f.put(0, "SECTION", 2, "TABLES")
	pens := drawing.Pens()
	types := 1
	for _, p := range pens {
		if len(p.Stroke().Dash) > 0 {
			types++
		}
	}
	f.put(0, "TABLE", 2, "LTYPE", 70, types)
	f.put(0, "LTYPE", 2, "CONTINUOUS", 70, 0, 3, "Solid line", 72, 65, 73, 0, 40, 0.0)
	for _, p := range pens {
		dash := p.Stroke().Dash
		if len(dash) == 0 {
			continue
		}
		long := 0.0
		for _, d := range dash {
			long += d * f.by
		}
		f.put(0, "LTYPE", 2, layer(p), 70, 0, 3, p.Stroke().Name, 72, 65, 73, len(dash), 40, long)
		for i, d := range dash {
			if i%2 == 1 { // a gap
				d = -d
			}
			f.put(49, d*f.by)
		}
	}
	f.put(0, "ENDTAB")
	f.put(0, "TABLE", 2, "LAYER", 70, len(pens)+2)
	f.put(0, "LAYER", 2, "0", 70, 0, 62, 7, 6, "CONTINUOUS")
	for _, p := range pens {
		kind := "CONTINUOUS"
		if len(p.Stroke().Dash) > 0 {
			kind = layer(p)
		}
		f.put(0, "LAYER", 2, layer(p), 70, 0, 62, colour(p), 6, kind)
	}
	f.put(0, "LAYER", 2, textLayer, 70, 0, 62, 7, 6, "CONTINUOUS")
	f.put(0, "ENDTAB")
	f.put(0, "TABLE", 2, "STYLE", 70, 1,
		0, "STYLE", 2, "STANDARD", 70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 2.5, 3, "txt", 4, "",
		0, "ENDTAB", 0, "ENDSEC")
}

// layer is a pen's layer, in the letters that names of this release may have.
func layer(p drawing.Pen) string {
	return strings.ToUpper(strings.ReplaceAll(p.Stroke().Name, " ", "-"))
}

// colour is the number of a pen's colour: 7 is black on white paper, 8 grey.
func colour(p drawing.Pen) int {
	switch p {
	case drawing.Fade:
		return 8
	case drawing.CurveA:
		return 5
	case drawing.CurveB:
		return 30
	}
	return 7
}

func (f *file) at(p drawing.Point) (x, y float64) { return p.X * f.by, (f.high - p.Y) * f.by }

// Path implements drawing.Writer.
func (f *file) Path(d *drawing.Path) {
	if d.Fill == drawing.Solid && d.Closed && len(d.Points) <= 4 {
		f.solid(d)
	}
	if d.Pen == drawing.NoPen {
		return
	}
	if len(d.Points) == 2 {
		x, y := f.at(d.Points[0])
		u, v := f.at(d.Points[1])
		f.put(0, "LINE", 8, layer(d.Pen), 10, x, 20, y, 30, 0.0, 11, u, 21, v, 31, 0.0)
		return
	}
	if len(d.Arcs) > 0 {
		f.arcs(d)
		return
	}
	closed := 0
	if d.Closed {
		closed = 1
	}
	f.put(0, "POLYLINE", 8, layer(d.Pen), 66, 1, 10, 0.0, 20, 0.0, 30, 0.0, 70, closed)
	for _, p := range d.Points {
		x, y := f.at(p)
		f.put(0, "VERTEX", 8, layer(d.Pen), 10, x, 20, y, 30, 0.0)
	}
	f.put(0, "SEQEND", 8, layer(d.Pen))
}

// arcs writes a path with arcs in it as lines and arcs.
func (f *file) arcs(d *drawing.Path) {
	line := func(i, k int) {
		x, y := f.at(d.Points[i])
		u, v := f.at(d.Points[k])
		if math.Hypot(u-x, v-y) < 1e-6 {
			return // where two arcs meet
		}
		f.put(0, "LINE", 8, layer(d.Pen), 10, x, 20, y, 30, 0.0, 11, u, 21, v, 31, 0.0)
	}
	done := 0
	for _, a := range d.Arcs {
		for ; done < a.From; done++ {
			line(done, done+1)
		}
		done = a.To
		cx, cy := f.at(a.Centre)
		angle := func(i int) float64 {
			x, y := f.at(d.Points[i])
			return math.Mod(math.Atan2(y-cy, x-cx)*180/math.Pi+360, 360)
		}
		from, to := angle(a.From), angle(a.To)
		// The format goes round counter-clockwise, the points may not.
		if math.Mod(angle(a.From+1)-from+360, 360) > 180 {
			from, to = to, from
		}
		f.put(0, "ARC", 8, layer(d.Pen), 10, cx, 20, cy, 30, 0.0, 40, a.Radius*f.by, 50, from, 51, to)
	}
	for ; done < len(d.Points)-1; done++ {
		line(done, done+1)
	}
	if d.Closed {
		line(len(d.Points)-1, 0)
	}
}

// solid fills a triangle or a quadrilateral. Its third and fourth corners change
// places in the format.
func (f *file) solid(d *drawing.Path) {
	c := append([]drawing.Point(nil), d.Points...)
	if len(c) == 3 {
		c = append(c, c[2])
	} else {
		c[2], c[3] = c[3], c[2]
	}
	name := drawing.Thin
	if d.Pen != drawing.NoPen {
		name = d.Pen
	}
	f.put(0, "SOLID", 8, layer(name))
	for i, p := range c {
		x, y := f.at(p)
		f.put(10+i, x, 20+i, y, 30+i, 0.0)
	}
}

// Circle implements drawing.Writer.
func (f *file) Circle(c *drawing.Circle) {
	pen := c.Pen
	if pen == drawing.NoPen {
		if c.Fill != drawing.Solid {
			return
		}
		pen = drawing.Thin
	}
	x, y := f.at(c.Centre)
	f.put(0, "CIRCLE", 8, layer(pen), 10, x, 20, y, 30, 0.0, 40, c.Radius*f.by)
}

// Text implements drawing.Writer.
func (f *file) Text(t *drawing.Text) {
	text := ascii(t.Text)
	if text == "" {
		return
	}
	x, y := f.at(t.At)
	f.put(0, "TEXT", 8, textLayer, 10, x, 20, y, 30, 0.0, 40, t.Height*f.by, 1, text, 50, t.Rotation, 7, "STANDARD")
	if t.Anchor != drawing.Left {
		f.put(72, int(t.Anchor), 11, x, 21, y, 31, 0.0)
	}
}

// ascii writes what this release has no letter for as its own codes or in words.
func ascii(s string) string {
	var b strings.Builder
	for _, r := range s {
		w, ok := letters(r)
		// Two per cent signs begin a code.
		if n := b.Len(); n > 0 && b.String()[n-1] == '%' && (r == '%' || strings.HasPrefix(w, "%")) {
			b.WriteByte(' ')
		}
		switch {
		case r >= ' ' && r <= '~':
			b.WriteRune(r)
		default:
			if !ok {
				w = "?"
			}
			b.WriteString(w)
		}
	}
	return b.String()
}

func letters(r rune) (string, bool) {
	w, ok := map[rune]string{
		'⌀': "%%c", '°': "%%d", '±': "%%p", '×': "x", '−': "-", '–': "-", '…': "...", '≤': "<=", '≥': ">=",
		'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '″': "\"", '′': "'",
		'²': "2", '³': "3", '→': "->", '’': "'", '‘': "'", '“': "\"", '”': "\"", '\u00a0': " ",
		'ä': "ae", 'ö': "oe", 'ü': "ue", 'Ä': "Ae", 'Ö': "Oe", 'Ü': "Ue", 'ß': "ss", 'é': "e", 'è': "e", 'ê': "e", 'à': "a", 'á': "a", 'ç': "c", 'ñ': "n", 'ø': "o", 'å': "a",
	}[r]
	return w, ok
}

func number(v float64) string {
	v = math.Round(v*1e6) / 1e6
	if v == 0 {
		return "0.0"
	}
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}
