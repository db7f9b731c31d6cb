package cli

import (
	"fmt"
	"os"
	"strings"
	"text/tabwriter"

	"rillwright/catalogue"
	"rillwright/finding"
	"rillwright/quantity"
)

type partsCommand struct {
	Words  []string `arg:"" optional:"" help:"Words to look for: all must match."`
	Own    string   `help:"Your own parts file, to list with the others." type:"existingfile"`
	Units  string   `enum:"metric,us" default:"metric" help:"Show sizes in metric or us units."`
	Format string   `enum:"text,json" default:"text" help:"Print as text or json."`
}

type partJSON struct {
	Name   string   `json:"name"`
	Kind   string   `json:"kind"`
	BoreMM float64  `json:"boreMm,omitempty"`
	Ends   []string `json:"ends,omitempty"`
	Note   string   `json:"note,omitempty"`
	Source string   `json:"source"`
	Mark   string   `json:"mark"`
}

// Run lists the parts that match.
func (c *partsCommand) Run(std *Streams) error {
	cat, err := catalogue.Builtin()
	if err != nil {
		return err
	}
	if c.Own != "" {
		data, err := os.ReadFile(c.Own)
		if err != nil {
			return err
		}
		own, list := catalogue.ReadParts(c.Own, data)
		if list.HasErrors() {
			if err := finding.Write(std.Err, list); err != nil {
				return err
			}
			return statusError(exitInput)
		}
		cat = cat.With(own)
	}
	found := cat.Search(c.Words...)
	if c.Format == "json" {
		out := make([]partJSON, 0, len(found))
		for i := range found {
			p := &found[i]
			j := partJSON{Name: p.Name, Kind: string(p.Kind), BoreMM: 1000 * float64(p.Bore.Likely), Note: p.Note, Source: p.Source, Mark: string(p.Mark)}
			for _, e := range p.Ends {
				j.Ends = append(j.Ends, e.String())
			}
			out = append(out, j)
		}
		return printJSON(std.Out, out)
	}
	if len(found) == 0 {
		fmt.Fprintf(std.Err, "rillwright: no part matches %q\n", strings.Join(c.Words, " "))
		if near := cat.Nearest(strings.Join(c.Words, " ")); len(near) > 0 {
			fmt.Fprintf(std.Err, "  do: try %s\n", strings.Join(near, ", or "))
		}
		return statusError(exitInput)
	}
	sys, _ := quantity.ParseSystem(c.Units)
	return listParts(std, found, sys)
}

func listParts(std *Streams, found []catalogue.Part, sys quantity.System) error {
	w := tabwriter.NewWriter(std.Out, 0, 8, 2, ' ', 0)
	fmt.Fprintln(w, "PART\tFIGURES\tENDS\tSOURCE")
	for i := range found {
		p := &found[i]
		ends := make([]string, len(p.Ends))
		for k, e := range p.Ends {
			ends[k] = e.String()
		}
		if len(ends) > 1 && ends[0] == ends[len(ends)-1] {
			ends = []string{ends[0] + fmt.Sprintf(" x %d", len(ends))}
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", p.Name, figures(p, sys), strings.Join(ends, ", "), p.Mark)
	}
	return w.Flush()
}

// figures gives the one or two figures that matter most of a part.
func figures(p *catalogue.Part, sys quantity.System) string {
	var out []string
	if p.Label.Flow > 0 {
		out = append(out, p.Label.Flow.Show(sys)+" / "+p.Label.Head.Show(sys))
	}
	if p.Bore.Likely > 0 {
		unit := "mm"
		if sys == quantity.US {
			unit = "in"
		}
		scale := map[string]float64{"mm": 1e-3, "in": 0.0254}[unit]
		out = append(out, fmt.Sprintf("bore %.3g %s", float64(p.Bore.Likely)/scale, unit))
	}
	if p.Hole.High > 0 {
		out = append(out, "hole "+p.Hole.Show(sys))
	}
	if p.Emitter.Given() {
		out = append(out, p.Emitter.Flow.Show(sys)+" at "+p.Emitter.AtHead.Show(sys))
	}
	if p.Strainer.OpenArea > 0 {
		out = append(out, "open area "+p.Strainer.OpenArea.Show(sys))
	}
	return strings.Join(out, ", ")
}
