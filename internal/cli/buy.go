package cli

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"rillwright"
	"rillwright/finding"
	"rillwright/shopping"
)

type buyCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Format string `enum:"text,csv,json" default:"text" help:"Print as text (if left out), csv or json." placeholder:"text|csv|json"`
}

// Help tells what is on the list.
func (*buyCommand) Help() string {
	return `Lists what a design takes, in whole packs, less what is under stock, by shop. Where three numbers stand, they are the low, likely and high end; buy the likely number. Prices are yours (budget.prices, budget.price-file) or generic ranges from memory, and never of two currencies.` + "\n" + `
Exit status: 0 the list was printed; 2 the command or a file is wrong; 3 anything else.
`
}

// Run prints the list.
func (c *buyCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, Structure: true, NoFixes: true})
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	if r.Findings.HasErrors() {
		return (&checkCommand{Format: c.Format}).refuseDesign(std, file, r.Findings)
	}
	if err := finding.Write(std.Err, r.Findings); err != nil {
		return err
	}
	switch c.Format {
	case "json":
		return printJSON(std.Out, r.Shopping)
	case "csv":
		w := csv.NewWriter(std.Out)
		return w.WriteAll(r.Shopping.Rows(r.Enclosure.Units))
	}
	return printList(std.Out, r)
}

// printList prints the list with boxes to tick.
func printList(to io.Writer, r *rillwright.Report) error {
	const under = "      "
	var b strings.Builder
	l, sys := r.Shopping, r.Enclosure.Units
	fmt.Fprintf(&b, "%s: what to buy\n", r.Name)
	for _, shop := range shopping.Shops() {
		begun := false
		for i := range l.Items {
			it := &l.Items[i]
			if it.Shop != shop || it.Packs[2] == 0 {
				continue
			}
			if !begun {
				fmt.Fprintf(&b, "\n%s\n", strings.ToUpper(shop))
				begun = true
			}
			wrap(&b, "[ ] ", under, fmt.Sprintf("%s: %s, %s", it.Name, it.Wants(), it.Costs(l.Currency)))
			wrap(&b, under, under, strings.Join(it.Says(sys), "; "))
		}
	}
	if hold := l.OnHand(sys); len(hold) > 0 {
		b.WriteString("\nON HAND\n")
		for _, s := range hold {
			wrap(&b, "[x] ", under, s)
		}
	}
	b.WriteByte('\n')
	for _, s := range l.Sums() {
		wrap(&b, "", "  ", s)
	}
	_, err := io.WriteString(to, b.String())
	return err
}
