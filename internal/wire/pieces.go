package wire

import (
	"rillwright/pieces"
	"rillwright/quantity"
)

// Pieces is what is to be cut. Lengths are in m, masses in kg.
type Pieces struct {
	Units   string         `json:"units"`
	Panes   []PiecesPane   `json:"panes"`
	Lengths []PiecesLength `json:"lengths"`
	Panels  []PiecesPanel  `json:"panels"`
	Sheets  []PiecesSheet  `json:"sheets"`
	Bars    []PiecesBar    `json:"bars"`
	Ordered []PiecesOrder  `json:"ordered"`
	Assumed []string       `json:"assumed"`
}

// PiecesPane is one pane with its finished size.
type PiecesPane struct {
	Name      string     `json:"name"`
	Kind      string     `json:"kind"`
	At        string     `json:"at"`
	Field     string     `json:"field"`
	Line      int        `json:"line"`
	Count     int        `json:"count"`
	Width     PiecesSide `json:"width"`
	Height    PiecesSide `json:"height"`
	Thickness float64    `json:"thickness"`
	Material  string     `json:"material"`
	Mass      float64    `json:"mass"`
	Edges     string     `json:"edges"`
	Had       bool       `json:"had"` // a pane of the shop tank: nothing to cut
	Text      string     `json:"text"`
}

// PiecesSide is one size with its rule.
type PiecesSide struct {
	Field string  `json:"field"`
	Typed float64 `json:"typed"`
	Exact float64 `json:"exact"`
	Cut   float64 `json:"cut"`
	Text  string  `json:"text"` // of Cut
	Rule  string  `json:"rule"`
	Round string  `json:"round"`
	Fit   string  `json:"fit"`
	By    float64 `json:"by"`
}

// PiecesLength is a length of pipe or hose.
type PiecesLength struct {
	Name  string  `json:"name"`
	Of    string  `json:"of"`
	Field string  `json:"field"`
	Line  int     `json:"line"`
	Count int     `json:"count"`
	Cut   float64 `json:"cut"`
	Text  string  `json:"text"`
	Rule  string  `json:"rule"`
}

// PiecesPanel is a grid panel, or a part of one, in cells.
type PiecesPanel struct {
	Name     string  `json:"name"`
	Line     int     `json:"line"`
	Cols     int     `json:"cols"`
	Rows     int     `json:"rows"`
	Pitch    float64 `json:"pitch"`
	FirstCol int     `json:"firstCol"`
	FirstRow int     `json:"firstRow"`
	Notched  int     `json:"notched"`
	Ends     string  `json:"ends,omitempty"` // of a brace: how it is sawn from its strip
}

// PiecesSheet is one sheet of glass, plastic or grid and what is cut from it. Of grid
// the unit is a cell.
type PiecesSheet struct {
	What    string       `json:"what"`
	Stock   string       `json:"stock"`
	OnHand  bool         `json:"onHand"`
	Line    int          `json:"line"`
	Pieces  []PiecesRect `json:"pieces"`
	Offcuts []PiecesRect `json:"offcuts"` // those worth keeping
	Proven  bool         `json:"proven"`
	Gap     float64      `json:"gap"`
}

// PiecesRect is a place on a sheet.
type PiecesRect struct {
	Name string  `json:"name"`
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	W    float64 `json:"w"`
	H    float64 `json:"h"`
}

// PiecesBar is one length of pipe or hose and what is cut from it.
type PiecesBar struct {
	What   string       `json:"what"`
	Stock  string       `json:"stock"`
	OnHand bool         `json:"onHand"`
	Line   int          `json:"line"`
	Cuts   []PiecesRect `json:"cuts"` // X and W alone
	Offcut float64      `json:"offcut"`
	Proven bool         `json:"proven"`
	Gap    float64      `json:"gap"`
}

// PiecesOrder is a piece that is ordered to size.
type PiecesOrder struct {
	Name string `json:"name"`
	Why  string `json:"why"`
}

// PiecesOf is a list as it leaves the program.
func PiecesOf(sys quantity.System, l *pieces.List) Pieces {
	show := func(v float64) string { return quantity.Length(v).Show(sys) }
	out := Pieces{
		Units: sys.String(), Panes: []PiecesPane{}, Lengths: []PiecesLength{}, Panels: []PiecesPanel{},
		Sheets: []PiecesSheet{}, Bars: []PiecesBar{}, Ordered: []PiecesOrder{}, Assumed: append([]string{}, l.Assumed...),
	}
	side := func(s *pieces.Side) PiecesSide {
		return PiecesSide{
			Field: s.Field, Typed: Round(s.Typed), Exact: Round(s.Exact), Cut: Round(s.Cut), Text: show(s.Cut),
			Rule: s.Rule, Round: s.Round, Fit: s.Fit.String(), By: Round(s.By),
		}
	}
	for i := range l.Pieces {
		p := &l.Pieces[i]
		out.Panes = append(out.Panes, PiecesPane{
			Name: p.Name, Kind: string(p.Kind), At: p.At, Field: p.Field, Line: p.Line, Count: p.Count,
			Width: side(&p.Width), Height: side(&p.Height), Thickness: Round(p.Thickness), Material: p.Material,
			Mass: Round(float64(p.Mass.Likely)), Edges: pieces.Finishes(p), Had: p.Had,
			Text: show(p.Width.Cut) + " x " + show(p.Height.Cut) + " x " + show(p.Thickness),
		})
	}
	for i := range l.Lengths {
		x := &l.Lengths[i]
		out.Lengths = append(out.Lengths, PiecesLength{Name: x.Name, Of: x.Of, Field: x.Field, Line: x.Line, Count: x.Count, Cut: Round(x.Cut), Text: show(x.Cut), Rule: x.Rule})
	}
	for i := range l.Panels {
		x := &l.Panels[i]
		out.Panels = append(out.Panels, PiecesPanel{Name: x.Title(), Line: x.Line, Cols: x.Cols, Rows: x.Rows, Pitch: Round(x.Pitch), FirstCol: x.FirstCol, FirstRow: x.FirstRow, Notched: x.Notched})
		if x.Brace != nil {
			out.Panels[i].Ends = x.Brace.Ends(sys)
		}
	}
	out.laid(l)
	for _, o := range l.Layouts.Ordered {
		out.Ordered = append(out.Ordered, PiecesOrder{Name: l.Pieces[o.Piece].Name, Why: o.Why})
	}
	return out
}

// laid adds the layouts.
func (out *Pieces) laid(l *pieces.List) {
	for i := range l.Layouts.Glass {
		g := &l.Layouts.Glass[i]
		for k := range g.Plan.Sheets {
			s := &g.Plan.Sheets[k]
			from := &g.Stock[s.Stock]
			row := PiecesSheet{What: g.What, Stock: from.Name, OnHand: from.OnHand, Line: from.Line, Pieces: []PiecesRect{}, Offcuts: []PiecesRect{}, Proven: g.Least().Proven, Gap: Round(g.Plan.Gap)}
			for _, x := range s.Pieces {
				row.Pieces = append(row.Pieces, PiecesRect{Name: g.Job.Pieces[x.Piece].Name, X: Round(x.X), Y: Round(x.Y), W: Round(x.W), H: Round(x.H)})
			}
			for _, o := range s.Offcuts {
				if o.Reusable {
					row.Offcuts = append(row.Offcuts, PiecesRect{X: Round(o.X), Y: Round(o.Y), W: Round(o.W), H: Round(o.H)})
				}
			}
			out.Sheets = append(out.Sheets, row)
		}
	}
	for i := range l.Layouts.Grids {
		g := &l.Layouts.Grids[i]
		for k := range g.Plan.Sheets {
			s := &g.Plan.Sheets[k]
			from := &g.Stock[s.Stock]
			row := PiecesSheet{What: "grid", Stock: from.Name, OnHand: from.OnHand, Line: from.Line, Pieces: []PiecesRect{}, Offcuts: []PiecesRect{}, Proven: g.Least().Proven, Gap: Round(g.Plan.Gap)}
			for _, x := range s.Pieces {
				row.Pieces = append(row.Pieces, PiecesRect{Name: g.Job.Pieces[x.Piece].Name, X: float64(x.Col), Y: float64(x.Row), W: float64(x.Cols), H: float64(x.Rows)})
			}
			for _, o := range s.Offcuts {
				if o.Reusable {
					row.Offcuts = append(row.Offcuts, PiecesRect{X: float64(o.Col), Y: float64(o.Row), W: float64(o.Cols), H: float64(o.Rows)})
				}
			}
			out.Sheets = append(out.Sheets, row)
		}
	}
	for i := range l.Layouts.Bars {
		g := &l.Layouts.Bars[i]
		for k := range g.Plan.Bars {
			s := &g.Plan.Bars[k]
			from := &g.Stock[s.Stock]
			row := PiecesBar{What: g.Part, Stock: from.Name, OnHand: from.OnHand, Line: from.Line, Cuts: []PiecesRect{}, Offcut: Round(s.Offcut), Proven: g.Least().Proven, Gap: Round(g.Plan.Gap)}
			for _, x := range s.Cuts {
				row.Cuts = append(row.Cuts, PiecesRect{Name: g.Job.Pieces[x.Piece].Name, X: Round(x.From), W: Round(x.To - x.From)})
			}
			out.Bars = append(out.Bars, row)
		}
	}
}
