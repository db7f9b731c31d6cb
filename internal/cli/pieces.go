package cli

import (
	"bufio"
	"fmt"
	"math"
	"strings"

	"rillwright"
	"rillwright/finding"
	"rillwright/internal/wire"
	"rillwright/layout"
	"rillwright/pieces"
	"rillwright/quantity"
)

type piecesCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Format string `enum:"text,json" default:"text" help:"Print as text (if left out) or json." placeholder:"text|json"`
}

// Help tells what is listed.
func (*piecesCommand) Help() string {
	return `Lists every pane with its finished size and the rule that it follows from, every length of pipe and hose, every grid panel in cells, and how all of it is cut from stock on hand and from what is sold. Which pane covers which edge is taken as the typed sizes come nearest to. Whether the pieces fit is an answer of check: pieces.` + "\n" + `
Exit status: 0 the list was printed; 2 the command or a file is wrong; 3 anything else.
`
}

// Run prints the pieces of a design.
func (c *piecesCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, NoFixes: true})
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	if r.Findings.HasErrors() {
		return (&checkCommand{Format: c.Format}).refuseDesign(std, file, r.Findings)
	}
	if err := finding.Write(std.Err, r.Findings); err != nil {
		return err
	}
	list := pieces.Build(r.Enclosure, layout.Of(r.Enclosure))
	if c.Format == "json" {
		return printJSON(std.Out, wire.PiecesOf(r.Enclosure.Units, list))
	}
	p := piecesPrinter{w: bufio.NewWriter(std.Out), sys: r.Enclosure.Units, l: list}
	fmt.Fprintf(p.w, "%s: pieces\n", r.Name)
	p.panes()
	p.lengths()
	p.layouts()
	return p.w.Flush()
}

type piecesPrinter struct {
	w   *bufio.Writer
	sys quantity.System
	l   *pieces.List
}

func (p *piecesPrinter) show(v float64) string { return quantity.Length(v).Show(p.sys) }

func (p *piecesPrinter) panes() {
	fmt.Fprintf(p.w, "\nPANES, width x height x thickness\n")
	for i := range p.l.Pieces {
		x := &p.l.Pieces[i]
		n := ""
		if x.Count > 1 {
			n = fmt.Sprintf("%d x ", x.Count)
		}
		fmt.Fprintf(p.w, "%s%s: %s x %s x %s, %s", n, x.Name, p.show(x.Width.Cut), p.show(x.Height.Cut), p.show(x.Thickness), x.Material)
		if x.Mass.Likely > 0 {
			fmt.Fprintf(p.w, ", %s", x.Mass.ShowLikely(p.sys))
		}
		fmt.Fprintln(p.w)
		if x.Had {
			fmt.Fprintln(p.w, "      a pane of the shop tank: nothing to cut")
			continue
		}
		p.side("width", &x.Width)
		p.side("height", &x.Height)
		fmt.Fprintf(p.w, "      edges: %s\n", pieces.Finishes(x))
		for _, h := range x.Holes {
			size := p.show(h.Width)
			if !h.Round {
				size += " x " + p.show(h.Height)
			}
			fmt.Fprintf(p.w, "      opening: %s, %s\n", h.Name, size)
		}
	}
}

func (p *piecesPrinter) side(word string, s *pieces.Side) {
	fmt.Fprintf(p.w, "      %s: %s", word, s.Rule)
	if s.Fit != pieces.Agrees && s.Fit != pieces.AsTyped {
		fmt.Fprintf(p.w, "; the file has %s, which %s", p.show(s.Typed), s.Fit.Says())
		if by := math.Abs(s.By); by > 0 {
			fmt.Fprintf(p.w, " by %s", p.show(by))
		}
	}
	if s.Round != "" {
		fmt.Fprintf(p.w, "; %s", s.Round)
	}
	fmt.Fprintln(p.w)
}

func (p *piecesPrinter) lengths() {
	if len(p.l.Lengths) > 0 {
		fmt.Fprintf(p.w, "\nPIPE AND HOSE, end to end\n")
	}
	for i := range p.l.Lengths {
		x := &p.l.Lengths[i]
		n := ""
		if x.Count > 1 {
			n = fmt.Sprintf("%d x ", x.Count)
		}
		fmt.Fprintf(p.w, "%s%s of %s: %s\n", n, p.show(x.Cut), x.Of, x.Name)
		if x.Trim {
			fmt.Fprintf(p.w, "      %s\n", x.Rule)
		}
	}
	if len(p.l.Panels) > 0 {
		fmt.Fprintf(p.w, "\nGRID, cells across x up\n")
	}
	for i := range p.l.Panels {
		x := &p.l.Panels[i]
		fmt.Fprintf(p.w, "%s: %d x %d cells of %s", x.Title(), x.Cols, x.Rows, p.show(x.Pitch))
		if x.Parts > 1 {
			fmt.Fprintf(p.w, ", from column %d, row %d; tied edge to edge", x.FirstCol+1, x.FirstRow+1)
		}
		if x.Notched > 0 {
			fmt.Fprintf(p.w, ", %d cut out", x.Notched)
		}
		if b := x.Brace; b != nil {
			fmt.Fprintf(p.w, "; %s", b.Ends(p.sys))
		}
		fmt.Fprintln(p.w)
	}
}

func (p *piecesPrinter) layouts() {
	out := &p.l.Layouts
	fmt.Fprintf(p.w, "\nCUT FROM\n")
	for i := range out.Glass {
		g := &out.Glass[i]
		for k := range g.Plan.Sheets {
			s := &g.Plan.Sheets[k]
			var names []string
			for _, x := range s.Pieces {
				names = append(names, g.Job.Pieces[x.Piece].Name)
			}
			p.from(g.What, &g.Stock[s.Stock], names)
			for _, o := range s.Offcuts {
				if o.Reusable {
					fmt.Fprintf(p.w, "      offcut: %s x %s\n", p.show(o.W), p.show(o.H))
				}
			}
		}
		p.plan(g.What, g.Err, len(g.Plan.Missing), g.Least())
	}
	for i := range out.Grids {
		g := &out.Grids[i]
		for k := range g.Plan.Sheets {
			s := &g.Plan.Sheets[k]
			var names []string
			for _, x := range s.Pieces {
				names = append(names, g.Job.Pieces[x.Piece].Name)
			}
			p.from("grid", &g.Stock[s.Stock], names)
			for _, o := range s.Offcuts {
				if o.Reusable {
					fmt.Fprintf(p.w, "      offcut: %d x %d cells\n", o.Cols, o.Rows)
				}
			}
		}
		p.plan("grid", g.Err, len(g.Plan.Missing), g.Least())
	}
	for i := range out.Bars {
		g := &out.Bars[i]
		for k := range g.Plan.Bars {
			s := &g.Plan.Bars[k]
			var names []string
			for _, x := range s.Cuts {
				names = append(names, fmt.Sprintf("%s %s", g.Job.Pieces[x.Piece].Name, p.show(x.To-x.From)))
			}
			p.from(g.Part, &g.Stock[s.Stock], names)
			if s.Reusable {
				fmt.Fprintf(p.w, "      offcut: %s\n", p.show(s.Offcut))
			}
		}
		p.plan(g.Part, g.Err, len(g.Plan.Missing), g.Least())
	}
	for _, o := range out.Ordered {
		fmt.Fprintf(p.w, "%s: %s\n", p.l.Pieces[o.Piece].Name, o.Why)
	}
	for _, s := range p.l.Assumed {
		fmt.Fprintf(p.w, "taken: %s\n", s)
	}
}

func (p *piecesPrinter) from(what string, s *pieces.Stock, names []string) {
	hand := "buy"
	if s.OnHand {
		hand = "on hand"
	}
	fmt.Fprintf(p.w, "%s, %s (%s)\n", what, s.Name, hand)
	if len(names) == 0 {
		fmt.Fprintln(p.w, "      stays whole")
		return
	}
	fmt.Fprintf(p.w, "      %s\n", strings.Join(names, ", "))
}

// plan says what is not proven or not possible about a layout.
func (p *piecesPrinter) plan(what, fault string, missing int, l pieces.Least) {
	switch {
	case fault != "":
		fmt.Fprintf(p.w, "%s: no layout: %s\n", what, fault)
	case missing > 0:
		fmt.Fprintf(p.w, "%s: %d pieces are larger than anything on hand or sold: ask the shop for them, cut to size\n", what, missing)
	case !l.Proven:
		fmt.Fprintf(p.w, "      at most %.1f %% more is bought than the least possible\n", 100*l.Gap)
	default:
		fmt.Fprintln(p.w, "      nothing can be laid out with less bought")
	}
}
