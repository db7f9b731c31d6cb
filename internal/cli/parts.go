package cli

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"
	"unicode"

	"rillwright/catalogue"
	"rillwright/finding"
	"rillwright/internal/wire"
	"rillwright/quantity"
)

type partsCommand struct {
	Words  []string `arg:"" optional:"" help:"Words to look for: all must match."`
	Own    string   `help:"Your own parts file, to list with the others." placeholder:"FILE"`
	Units  string   `enum:"metric,us" default:"metric" help:"Show sizes in metric (if left out) or us units." placeholder:"metric|us"`
	Format string   `enum:"text,json" default:"text" help:"Print as text (if left out) or json." placeholder:"text|json"`
}

// partJSON is a part as parts prints it: figures with their units, so that
// none can be taken for another.
type partJSON struct {
	Name    string   `json:"name"`
	Kind    string   `json:"kind"`
	Figures []string `json:"figures"`
	BoreMM  float64  `json:"boreMm,omitempty"`
	Ends    []string `json:"ends"`
	Note    string   `json:"note,omitempty"`
	Source  string   `json:"source"`
	Mark    string   `json:"mark"`
}

// Run lists the parts that match.
func (c *partsCommand) Run(std *Streams) error {
	cat, err := catalogue.Builtin()
	if err != nil {
		return err
	}
	sys, err := quantity.ParseSystem(c.Units)
	if err != nil {
		return err
	}
	if c.Own != "" {
		data, err := readFile(c.Own, "leave --own out")
		if err != nil {
			return refuse(std, err)
		}
		own, list := catalogue.ReadParts(c.Own, data)
		if err := finding.Write(std.Err, list); err != nil {
			return err
		}
		if list.HasErrors() {
			return statusError(exitInput)
		}
		cat = cat.With(own)
	}
	found := cat.Search(c.Words...)
	if c.Format == "json" {
		err = printJSON(std.Out, partsJSON(found, sys))
	} else if len(found) > 0 {
		err = listParts(std, found, sys)
	}
	if err != nil {
		return err
	}
	if len(found) == 0 {
		return refuse(std, noPart(cat, c.Words))
	}
	return nil
}

// noPart says what to look for instead: the words with their slips mended, or
// parts near by.
func noPart(cat *catalogue.Catalogue, words []string) error {
	asked := strings.Join(words, " ")
	do := "give fewer words, or run rillwright parts to see them all"
	if near := cat.Nearest(asked); len(near) > 0 {
		do = "try " + strings.Join(near, ", or ")
	} else if mended := mend(cat, words); len(cat.Search(mended...)) > 0 {
		do = "did you mean: rillwright parts " + strings.Join(mended, " ")
	}
	return fmt.Errorf("no part matches %q\n  do: %s", asked, do)
}

// mend puts the nearest word of any part in the place of each that is in none.
func mend(cat *catalogue.Catalogue, words []string) []string {
	var known []string
	for _, p := range cat.Search() {
		known = append(known, strings.FieldsFunc(p.Name+" "+string(p.Kind), func(r rune) bool { return !unicode.IsLetter(r) })...)
	}
	var out []string
	for w := range strings.FieldsSeq(strings.Join(words, " ")) {
		if len(cat.Search(w)) == 0 {
			if near, ok := finding.Nearest(w, known); ok {
				w = near
			}
		}
		out = append(out, w)
	}
	return out
}

func partsJSON(found []catalogue.Part, sys quantity.System) []partJSON {
	out := make([]partJSON, len(found))
	for i := range found {
		p := &found[i]
		out[i] = partJSON{
			Name: p.Name, Kind: string(p.Kind), Figures: figures(p, sys), BoreMM: wire.Round(1000 * float64(p.Bore.Likely)),
			Ends: []string{}, Note: p.Note, Source: p.Source, Mark: string(p.Mark),
		}
		for _, e := range p.Ends {
			out[i].Ends = append(out[i].Ends, e.String())
		}
	}
	return out
}

func listParts(std *Streams, found []catalogue.Part, sys quantity.System) error {
	w := tabwriter.NewWriter(std.Out, 0, 8, 2, ' ', 0)
	fmt.Fprintln(w, "PART\tFIGURES\tENDS\tHOW FAR TO TRUST IT")
	for i := range found {
		p := &found[i]
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", p.Name, strings.Join(figures(p, sys), ", "), ends(p), p.Mark)
	}
	return w.Flush()
}

// ends lists a part's ends, those that are all alike once.
func ends(p *catalogue.Part) string {
	out := make([]string, len(p.Ends))
	for k, e := range p.Ends {
		out[k] = e.String()
	}
	if n := len(out); n > 1 && len(slices.Compact(slices.Clone(out))) == 1 {
		return fmt.Sprintf("%s x %d", out[0], n)
	}
	return strings.Join(out, ", ")
}

// figures gives the one or two figures that matter most of a part.
func figures(p *catalogue.Part, sys quantity.System) []string {
	out := []string{}
	if p.Label.Flow > 0 {
		out = append(out, p.Label.Flow.Show(sys)+", lifts "+showHead(p.Label.Head, sys))
	}
	if p.Bore.Likely > 0 {
		out = append(out, "bore "+showBore(p.Bore.Likely, sys))
	}
	if p.Hole.High > 0 {
		out = append(out, "hole "+p.Hole.Show(sys))
	}
	if p.Emitter.Given() {
		out = append(out, p.Emitter.Flow.Show(sys)+" at "+showHead(p.Emitter.AtHead, sys))
	}
	if p.Strainer.OpenArea > 0 {
		out = append(out, "open area "+p.Strainer.OpenArea.Show(sys))
	}
	return out
}

// showBore shows a bore as callipers do.
func showBore(d quantity.Length, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.3f in", float64(d)/0.0254)
	}
	return fmt.Sprintf("%.1f mm", float64(d)*1000)
}

// showHead shows a head as pumps' boxes do.
func showHead(h quantity.Length, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.1f ft", float64(h)/0.3048)
	}
	return fmt.Sprintf("%.1f m", float64(h))
}
