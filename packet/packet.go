// Package packet gathers what the builder carries to the bench and the shop: all
// sheets of a design in the order in which they are bound, and its tables. The same
// input gives the same bytes: there is no clock in it.
package packet

import (
	"bytes"
	"fmt"
	"strings"

	"rillwright/answers"
	"rillwright/commission"
	"rillwright/drawing"
	"rillwright/drawing/dxf"
	"rillwright/drawing/pdf"
	"rillwright/drawing/svg"
	"rillwright/sheets"
	"rillwright/works"
)

// Input is what a packet is made of.
type Input struct {
	Survey  *answers.Survey
	Faults  *answers.FaultReport // nil if they were not followed: then there is no card
	Answers []answers.Answer     // in the order in which the cover lists them
	Print   sheets.Print
	// CutLayouts and Shopping are sheets, and Tables tables, that are made elsewhere
	// and bound where they belong. All may be nil.
	CutLayouts, Shopping []drawing.Sheet
	Tables               []Table
	// Work and Lines are the plan of the build, in the order of a list by day; nil
	// leaves its papers out.
	Work  *works.Work
	Lines []works.Line
	// Upkeep are the sheets of what is done again and again; nil leaves them out.
	Upkeep []drawing.Sheet
}

// Packet is a set of papers.
type Packet struct {
	Name   string
	Sheets []drawing.Sheet // in order, numbered
	Tables []Table
}

// File is one file of a packet, its name without a folder.
type File struct {
	Name string
	Data []byte
}

// PDFName is the name of the file that holds all sheets.
const PDFName = "packet.pdf"

// Of gathers the papers of a design: cover, contents, cautions, views, plumbing,
// panes, templates, cell maps, cut layouts, shopping list, order of work, tests,
// upkeep, curves, emergency card. The error is of a plot that cannot be drawn.
func Of(in Input) (*Packet, error) {
	s, p := in.Survey, in.Print
	plan := commission.Of(s, in.Faults)
	curves, err := sheets.Curves(s, in.Faults, p)
	if err != nil {
		return nil, fmt.Errorf("packet: %w", err)
	}
	cover := sheets.Cover(s, in.Answers, p)
	var rest []drawing.Sheet
	for _, part := range [][]drawing.Sheet{
		sheets.Cautions(s, p),
		sheets.Views(s, p), sheets.Plumbing(s, p), sheets.PaneSheets(s.E, p), sheets.Templates(s.E, p), sheets.CellMaps(s.E, p),
		in.CutLayouts, in.Shopping,
		sheets.PlanSheets(s.E, in.Work, in.Lines, p),
		sheets.LeakSheet(s.E, plan.Leak, p), sheets.TrialSheets(s.E, plan.Stages, p),
		in.Upkeep, curves,
	} {
		rest = append(rest, part...)
	}
	if in.Faults != nil {
		rest = append(rest, sheets.Card(s, in.Faults, p)...)
	}
	out := &Packet{Name: s.E.Name, Sheets: bound(s, cover, rest, p)}
	drawing.Number(out.Sheets)
	out.Tables = append([]Table{answersTable(in.Answers), testsTable(plan)}, in.Tables...)
	if len(in.Lines) > 0 {
		out.Tables = append(out.Tables, Table{Name: "plan", Rows: works.Rows(in.Lines)})
	}
	return out, nil
}

// bound puts the contents behind the cover. How many sheets they take depends on how
// many titles there are, not on the page numbers.
func bound(s *answers.Survey, cover, rest []drawing.Sheet, p sheets.Print) []drawing.Sheet {
	list := func(contents int) []sheets.Entry {
		var out []sheets.Entry
		for i := range rest {
			out = append(out, sheets.Entry{Group: rest[i].Group, Title: rest[i].Title, Page: len(cover) + contents + i + 1})
		}
		return out
	}
	n := len(sheets.Contents(s.E, list(0), p))
	out := append(cover[:len(cover):len(cover)], sheets.Contents(s.E, list(n), p)...)
	return append(out, rest...)
}

// PDF returns all sheets as one file, with bookmarks.
func (p *Packet) PDF() ([]byte, error) {
	var b bytes.Buffer
	if err := pdf.Write(&b, p.Name, p.Sheets); err != nil {
		return nil, fmt.Errorf("packet: %w", err)
	}
	return b.Bytes(), nil
}

// Files calls write for each file: the PDF, each sheet as SVG, those with a scale as
// DXF too, each table as CSV. It ends at the first error, which it returns.
func (p *Packet) Files(write func(File) error) error {
	data, err := p.PDF()
	if err != nil {
		return err
	}
	if err := write(File{PDFName, data}); err != nil {
		return err
	}
	for i := range p.Sheets {
		s := &p.Sheets[i]
		name := fmt.Sprintf("%02d-%s", i+1, plain(s.Title))
		var b bytes.Buffer
		if err := svg.Write(&b, s); err != nil {
			return fmt.Errorf("packet: %s: %w", s.Title, err)
		}
		if err := write(File{name + ".svg", b.Bytes()}); err != nil {
			return err
		}
		if s.Scale == 0 {
			continue // words: nothing to cut by
		}
		var d bytes.Buffer
		if err := dxf.Write(&d, s); err != nil {
			return fmt.Errorf("packet: %s: %w", s.Title, err)
		}
		if err := write(File{name + ".dxf", d.Bytes()}); err != nil {
			return err
		}
	}
	for i := range p.Tables {
		data, err := p.Tables[i].CSV()
		if err != nil {
			return err
		}
		if err := write(File{p.Tables[i].Name + ".csv", data}); err != nil {
			return err
		}
	}
	return nil
}

// longest is the most characters that a file's name takes of a sheet's title: names
// of panes and parts are the builder's own.
const longest = 60

// plain is a title as part of a file's name.
func plain(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(c rune) bool { return (c < 'a' || c > 'z') && (c < '0' || c > '9') })
	name := strings.Join(words, "-")
	return strings.Trim(name[:min(len(name), longest)], "-")
}
