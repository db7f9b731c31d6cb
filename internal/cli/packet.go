package cli

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"time"

	"rillwright"
	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/finding"
	"rillwright/internal/logbook"
	"rillwright/packet"
	"rillwright/record"
	"rillwright/schedule"
	"rillwright/sheets"
	"rillwright/works"
)

type packetCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Folder string `arg:"" optional:"" help:"The folder to write into; it is made if there is none. If left out, one with the design's name and -packet behind it."`
	Paper  string `enum:"a4,letter,auto" default:"auto" help:"The paper: a4 or letter; if left out, letter for a design in US units and a4 for any other." placeholder:"a4|letter"`
	At     string `help:"The first day of the order of work, if budget.start does not say: 2026-11-26. Without either it is left out." placeholder:"DAY"`
	Date   string `help:"A date to stand on the papers, as you write it." placeholder:"DATE"`
}

// Help tells what is written.
func (*packetCommand) Help() string {
	return `Writes packet.pdf, to print and carry to the bench: the answers in brief, cautions, drawings, panes, templates, cell maps, what to buy, the order of work with a chart and a card for the bench, leak and flow tests with what passes, what to do once it runs, curves and the emergency card; and beside it each sheet as SVG, drawings as DXF, tables as CSV. Files of other names in the folder stay as they are. Print at 100 %, not fitted to the page.` + "\n" + exitHelp
}

// Run writes the packet of a design.
func (c *packetCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	begin := time.Now()
	r, err := rillwright.Build(file, data, rillwright.Options{
		Beside: beside, NoFixes: true, Structure: true, Faults: rillwright.EveryFault, Today: works.Today(begin), Progress: afterASecond(progress(std), func() time.Duration { return time.Since(begin) }),
	})
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	if r.Findings.HasErrors() {
		return (&checkCommand{}).refuseDesign(std, file, r.Findings)
	}
	if err := finding.Write(std.Err, r.Findings); err != nil {
		return err
	}
	paper := (&drawCommand{Paper: c.Paper}).paper(r.Enclosure.Units)
	on := sheets.Print{Paper: paper, Date: c.Date, Mark: mark(data)}
	w, lines, err := c.plan(std, file, r.Enclosure)
	if err != nil {
		return refuse(std, err)
	}
	upkeep, err := c.upkeep(std, r, on)
	if err != nil {
		return err
	}
	p, err := packet.Of(packet.Input{
		Work: w, Lines: lines, Upkeep: upkeep,
		Survey: r.Survey, Faults: r.Faults, Answers: r.Answers, Print: on,
		Shopping:   sheets.Shopping(r.Enclosure, r.Shopping, on),
		CutLayouts: sheets.CutLayouts(r.Enclosure, on),
		Tables:     []packet.Table{{Name: "shopping", Rows: r.Shopping.Rows(r.Enclosure.Units)}},
	})
	if err != nil {
		return err
	}
	folder := c.Folder
	if folder == "" {
		if folder = fileName(r.Name); folder != "" {
			folder += "-"
		}
		folder += "packet"
	}
	return writePacket(std, p, folder)
}

// plan makes the order of work. A packet says the same whenever it is made, so that
// there is none without a first day; what keeps it from being made is told, and the
// other papers are made all the same.
func (c *packetCommand) plan(std *Streams, file string, e *enclosure.Enclosure) (*works.Work, []works.Line, error) {
	var first schedule.Day
	if err := dayFlag("--at", c.At, &first); err != nil {
		return nil, nil, err
	}
	if c.At == "" && !e.Design.Budget.Start.Given() {
		fmt.Fprintf(std.Err, "%s: the order of work is left out, for it has no first day\n  do: write start under budget, or give --at 2026-01-31\n", file)
		return nil, nil, nil
	}
	w, _, lines, err := works.PlanLikely(e, first)
	if err != nil {
		fmt.Fprintf(std.Err, "%s: the order of work is left out: %v\n", file, err)
		return nil, nil, nil
	}
	return w, lines, nil
}

// upkeep is what is done again and again once it runs, as of the last reading of the
// log beside the design: a packet says the same whenever it is made.
func (c *packetCommand) upkeep(std *Streams, r *rillwright.Report, on sheets.Print) ([]drawing.Sheet, error) {
	var readings []record.Reading
	var now time.Time
	if name := logbook.Name(c.Design); !builtIn(c.Design) && exists(name) {
		log, found, err := logbook.Read(name)
		if err != nil {
			return nil, refuse(std, fmt.Errorf("the log cannot be read: %w", reason(err)))
		}
		if err := finding.Write(std.Err, found); err != nil {
			return nil, err
		}
		if readings = log.Readings; len(readings) > 0 {
			now = readings[len(readings)-1].Time
		}
	}
	chores, lacks := rillwright.Chores(r.Enclosure, readings, now)
	return sheets.Upkeep(r.Enclosure, chores, readings, lacks, on), nil
}

// afterASecond keeps quiet about work that is done before anybody wonders.
func afterASecond(tell func(done, of int), since func() time.Duration) func(done, of int) {
	if tell == nil {
		return nil
	}
	return func(done, of int) {
		if since() > time.Second {
			tell(done, of)
		}
	}
}

// ours is what a sheet of any packet may be called.
var ours = regexp.MustCompile(`^\d\d+-[a-z0-9-]+\.(svg|dxf)$`)

// writePacket writes the files into a folder and tells of sheets that an earlier
// packet left there, which nobody should build from.
func writePacket(std *Streams, p *packet.Packet, folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("the folder %s cannot be made: %w\n  do: name a folder that you may write into", filepath.ToSlash(folder), reason(err))
	}
	written := map[string]bool{}
	err := p.Files(func(f packet.File) error {
		path := filepath.Join(folder, f.Name)
		if err := os.WriteFile(path, f.Data, 0o644); err != nil {
			return fmt.Errorf("%s cannot be written: %w\n  do: close it where it is open, or name a folder that you may write into", filepath.ToSlash(path), reason(err))
		}
		written[f.Name] = true
		return nil
	})
	if err != nil {
		return err
	}
	fmt.Fprintf(std.Err, "wrote %s: %d pages\n", filepath.ToSlash(filepath.Join(folder, packet.PDFName)), len(p.Sheets))
	fmt.Fprintf(std.Err, "wrote %d files beside it: each sheet as SVG, drawings as DXF, tables as CSV\n", len(written)-1)
	var old []fs.DirEntry
	list, err := os.ReadDir(folder)
	if err != nil {
		return fmt.Errorf("the folder %s cannot be read: %w", filepath.ToSlash(folder), reason(err))
	}
	for _, f := range list {
		if !written[f.Name()] && ours.MatchString(f.Name()) {
			old = append(old, f)
		}
	}
	if len(old) > 0 {
		fmt.Fprintf(std.Err, "%s is not of this packet and was left as it was", filepath.ToSlash(filepath.Join(folder, old[0].Name())))
		if len(old) > 1 {
			fmt.Fprintf(std.Err, ", and so were %d more sheets", len(old)-1)
		}
		fmt.Fprintln(std.Err, "\n  do: delete what you do not know, so that nobody builds from it")
	}
	return nil
}
