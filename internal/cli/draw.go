package cli

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"

	"rillwright"
	"rillwright/drawing"
	"rillwright/drawing/dxf"
	"rillwright/drawing/pdf"
	"rillwright/finding"
	"rillwright/quantity"
	"rillwright/sheets"
)

type drawCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Folder string `arg:"" help:"The folder to write into; it is made if there is none."`
	Paper  string `enum:"a4,letter,auto" default:"auto" help:"The paper: a4 or letter; if left out, letter for a design in US units and a4 for any other." placeholder:"a4|letter"`
	Format string `enum:"all,pdf,svg,dxf" default:"all" help:"Write one PDF of all sheets, or each as SVG or as DXF; all three if left out." placeholder:"pdf|svg|dxf"`
	Date   string `help:"A date to stand on the sheets, as you write it." placeholder:"DATE"`
}

// Help tells how to print templates.
func (*drawCommand) Help() string {
	return `Print templates at 100 %, not fitted to the page, and measure both bars on each before you mark glass. DXF is in mm of the thing itself, whatever the scale of its sheet. The same file gives the same bytes; what stands under "design" on the sheets changes with the file.` + "\n" + exitHelp
}

// Run writes the drawings of a design.
func (c *drawCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, NoFixes: true})
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	if r.Findings.HasErrors() {
		return (&checkCommand{}).refuseDesign(std, file, r.Findings)
	}
	if err := finding.Write(std.Err, r.Findings); err != nil {
		return err
	}
	list := sheets.Drawings(r.Survey, sheets.Print{Paper: c.paper(r.Enclosure.Units), Date: c.Date, Mark: mark(data)})
	drawing.Number(list)
	return c.write(std, r.Name, list)
}

func (c *drawCommand) paper(units quantity.System) drawing.Format {
	if c.Paper == "letter" || c.Paper == "auto" && units == quantity.US {
		return drawing.Letter()
	}
	return drawing.A4()
}

// mark tells one state of a design file from another.
func mark(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:4])
}

// write writes the sheets in the formats asked for.
func (c *drawCommand) write(std *Streams, name string, list []drawing.Sheet) error {
	write, err := svgWriter(std, c.Folder)
	if err != nil {
		return err
	}
	if c.wants("pdf") {
		var b bytes.Buffer
		if err := pdf.Write(&b, name, list); err != nil {
			return err
		}
		if err := save(std, filepath.Join(c.Folder, "drawings.pdf"), b.Bytes()); err != nil {
			return err
		}
	}
	for i := range list {
		file := sheetName(i, &list[i])
		if c.wants("svg") {
			if err := write(file+".svg", &list[i]); err != nil {
				return err
			}
		}
		if c.wants("dxf") {
			var b bytes.Buffer
			if err := dxf.Write(&b, &list[i]); err != nil {
				return err
			}
			if err := save(std, filepath.Join(c.Folder, file+".dxf"), b.Bytes()); err != nil {
				return err
			}
		}
	}
	return nil
}

func (c *drawCommand) wants(format string) bool { return c.Format == "all" || c.Format == format }

// sheetName is a sheet's file name: its number, so that files stand in order, and
// what it shows.
func sheetName(i int, s *drawing.Sheet) string {
	return fmt.Sprintf("%02d-%s", i+1, fileName(s.Title))
}
