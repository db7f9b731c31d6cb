package catalogue

import (
	"bytes"
	"encoding"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"rillwright/finding"
	"rillwright/quantity"
)

const curveHeading = "begin with a heading that carries the units, as: flow L/h, head m"

// ReadCurve reads a pump curve from CSV text: a heading "flow L/h, head m" with
// any flow and length units in either order, then at least two rows of plain
// numbers. Columns may be parted by commas, semicolons or tabs; lines that begin
// with # are comments. It returns the points by rising flow, and everything that
// is wrong, in the order of the file. Head must fall as flow rises; flows and
// heads must not be negative. With findings the points are not to be used.
func ReadCurve(file string, data []byte) ([]Point, finding.List) {
	c := curveReader{lines: newLines(file, data)}
	c.read(bytes.TrimPrefix(data, []byte("\ufeff")))
	return sortCurve(c.points), c.list
}

// placedPoint is a point of a curve and where it was written.
type placedPoint struct {
	Point
	place finding.Place
	text  string // the flow as typed
}

type curveReader struct {
	lines
	flowAt, headAt     int
	flowUnit, headUnit string
	points             []placedPoint
}

func (c *curveReader) read(data []byte) {
	if !utf8.Valid(data) {
		c.report(finding.Place{File: c.file}, "curve", "the file is not plain UTF-8 text", "save it as CSV in UTF-8")
		return
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comment = '#'
	r.Comma = separator(data)
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = r.Comma != '\t'
	row := 0
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			c.report(c.place(bad.Line, bad.Column, 1), "curve", "the quotes are not right: "+bad.Err.Error(), "write plain numbers, without quotes")
			return
		}
		if err != nil {
			c.report(finding.Place{File: c.file}, "curve", err.Error(), "")
			return
		}
		if row++; row == 1 {
			if !c.heading(r, cells) {
				return
			}
			continue
		}
		c.row(r, cells)
	}
	if row == 0 {
		c.report(finding.Place{File: c.file}, "curve", "the file has no rows", curveHeading)
		return
	}
	c.list = append(c.list, checkCurve(&c.lines, c.points, finding.Place{File: c.file})...)
}

// separator returns what parts the columns: whatever the first line that is no
// comment uses.
func separator(data []byte) rune {
	for line := range bytes.Lines(data) {
		if len(bytes.TrimSpace(line)) == 0 || line[0] == '#' {
			continue
		}
		switch {
		case bytes.ContainsRune(line, ';'):
			return ';'
		case bytes.ContainsRune(line, '\t') && !bytes.ContainsRune(line, ','):
			return '\t'
		}
		break
	}
	return ','
}

// heading reads the row that names columns and units; false if the rows below
// it cannot be understood.
func (c *curveReader) heading(r *csv.Reader, cells []string) bool {
	c.flowAt, c.headAt = -1, -1
	before := len(c.list)
	for i, cell := range cells {
		cell = strings.TrimSpace(cell)
		line, column := r.FieldPos(i)
		place := c.place(line, column, utf8.RuneCountInString(cell))
		name, unit, _ := strings.Cut(strings.Map(spaceOut, cell), " ")
		unit = strings.TrimSpace(unit)
		var probe encoding.TextUnmarshaler
		var at *int
		var example string
		switch strings.ToLower(name) {
		case "flow":
			probe, at, example = new(quantity.Flow), &c.flowAt, "flow L/h"
			c.flowUnit = unit
		case "head", "lift":
			probe, at, example = new(quantity.Length), &c.headAt, "head m"
			c.headUnit = unit
		default:
			c.report(place, "curve", fmt.Sprintf("a column is headed %q", cell), "the columns here are flow and head: "+curveHeading)
			continue
		}
		if *at >= 0 {
			c.report(place, "curve", fmt.Sprintf("a second column %q", name), "keep one of the two")
			continue
		}
		*at = i
		if unit == "" {
			c.report(place, "curve", fmt.Sprintf("the column %q has no unit", name), "write the unit behind it, as: "+example)
		} else if err := probe.UnmarshalText([]byte("1 " + unit)); err != nil {
			c.report(place, "curve", fmt.Sprintf("%q is not a unit for %s", unit, name), "write it as: "+example)
		}
	}
	if c.flowAt < 0 || c.headAt < 0 {
		missing := "flow"
		if c.flowAt >= 0 {
			missing = "head"
		}
		line, column := r.FieldPos(0)
		c.report(c.place(line, column, 1), "curve", fmt.Sprintf("the column %q is missing", missing), curveHeading)
	}
	return len(c.list) == before
}

// spaceOut turns what may stand round a unit into blanks: "flow (L/h)".
func spaceOut(r rune) rune {
	if strings.ContainsRune("()[]_\t", r) {
		return ' '
	}
	return r
}

func (c *curveReader) row(r *csv.Reader, cells []string) {
	line, column := r.FieldPos(0)
	if len(cells) != 2 {
		c.report(c.place(line, column, 1), "curve", fmt.Sprintf("this row has %d columns, and the heading 2", len(cells)), "write a flow and a head, and decimals with a point")
		return
	}
	before := len(c.list)
	var p placedPoint
	c.cell(r, cells, c.flowAt, "flow", c.flowUnit, &p.Flow, func() float64 { return float64(p.Flow) })
	c.cell(r, cells, c.headAt, "head", c.headUnit, &p.Head, func() float64 { return float64(p.Head) })
	if len(c.list) > before {
		return
	}
	line, column = r.FieldPos(c.flowAt)
	p.text = strings.TrimSpace(cells[c.flowAt]) + " " + c.flowUnit
	p.place = c.place(line, column, utf8.RuneCountInString(strings.TrimSpace(cells[c.flowAt])))
	c.points = append(c.points, p)
}

// cell reads one number in its column's unit.
func (c *curveReader) cell(r *csv.Reader, cells []string, i int, name, unit string, into encoding.TextUnmarshaler, value func() float64) {
	cell := strings.TrimSpace(cells[i])
	line, column := r.FieldPos(i)
	place := c.place(line, column, max(1, utf8.RuneCountInString(cell)))
	switch {
	case cell == "":
		c.report(place, "curve", "the "+name+" is missing", "write a number")
	case strings.HasPrefix(cell, "-"):
		c.report(place, "curve", fmt.Sprintf("%s %q is negative", name, cell), "write a number from 0 up")
	default:
		if err := into.UnmarshalText([]byte(cell + " " + unit)); err != nil || !usable(value()) {
			c.report(place, "curve", fmt.Sprintf("%s %q is not a number", name, cell), "write a plain number with a decimal point; its unit "+unit+" stands in the heading")
		}
	}
}

func usable(v float64) bool { return v >= 0 && !math.IsInf(v, 0) }

// checkCurve returns what is wrong with the points of a curve as a whole.
func checkCurve(l *lines, points []placedPoint, whole finding.Place) finding.List {
	out := lines{file: l.file, text: l.text}
	if len(points) < 2 {
		if len(l.list) == 0 {
			out.report(whole, "curve", fmt.Sprintf("a curve needs at least two points, and this has %d", len(points)), "add points")
		}
		return out.list
	}
	sorted := slices.Clone(points)
	slices.SortStableFunc(sorted, byFlow)
	for i := 1; i < len(sorted); i++ {
		a, b := &sorted[i-1], &sorted[i]
		switch {
		case a.Flow == b.Flow:
			out.report(b.place, "curve", fmt.Sprintf("two points have the flow %s", b.text), "keep one of the two")
		case b.Head >= a.Head:
			out.report(b.place, "curve", fmt.Sprintf("the head at %s is not below that at %s", b.text, a.text), "a pump's head falls as its flow rises: look for exchanged columns or a slip of the pen")
		}
	}
	return out.list
}

func byFlow(a, b placedPoint) int {
	switch {
	case a.Flow < b.Flow:
		return -1
	case a.Flow > b.Flow:
		return 1
	}
	return 0
}

func sortCurve(points []placedPoint) []Point {
	sorted := slices.Clone(points)
	slices.SortStableFunc(sorted, byFlow)
	var out []Point
	for _, p := range sorted {
		out = append(out, p.Point)
	}
	return out
}
