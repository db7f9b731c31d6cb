package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"rillwright/design"
	"rillwright/finding"
	"rillwright/internal/logbook"
	"rillwright/quantity"
	"rillwright/record"
)

type noteCommand struct {
	Design string   `arg:"" help:"A design file; the log stands beside it."`
	Words  []string `arg:"" optional:"" help:"What was measured: bare 10 L in 43 s, 44 s, 43 s"`
	At     string   `help:"When it was measured, if not now: 2026-11-26 18:30, or 2026-11-26." placeholder:"TIME"`
	CSV    string   `name:"csv" help:"A table to take readings from, whose first row names its columns: time, what, value, note." placeholder:"FILE"`
	Again  bool     `help:"Take a time before the last one in the log, or one yet to come."`
}

// Help lists what can be noted.
func (*noteCommand) Help() string {
	var b strings.Builder
	b.WriteString("Adds a line to the log beside the design file: grotto.log beside grotto.yaml. Lines are only added, never changed. Put the words into quotes if your shell minds a #, behind which a remark may stand.\n\nWhat can be noted:\n\n")
	for _, w := range record.Words() {
		fmt.Fprintf(&b, "  %s: %s\n", w.Name, w.Help)
	}
	return b.String() + exitHelp
}

// Run adds readings to the log of a design.
func (c *noteCommand) Run(std *Streams) error {
	names, data, err := c.names(std)
	if err != nil {
		return err
	}
	list, err := c.readings(std, names)
	if err != nil {
		return err
	}
	log := logbook.Name(c.Design)
	show := filepath.ToSlash(log)
	old, _, err := logbook.Read(log)
	if err != nil {
		return refuse(std, fmt.Errorf("%s cannot be read: %w", show, reason(err)))
	}
	for i := range list {
		list[i].Design = mark(data)
	}
	if c.At == "" && c.CSV == "" && len(old.Readings) > 0 && !c.Again {
		if last := old.Readings[len(old.Readings)-1].Time; list[0].Time.Before(last) {
			return refuse(std, fmt.Errorf("the clock says %s, and the log ends at %s\n  do: set the clock right, say when it was with --at, or add --again if the clock is right", list[0].Time.Format(time.RFC3339), last.Format(time.RFC3339)))
		}
	}
	if err := logbook.Add(log, list...); err != nil {
		return refuse(std, fmt.Errorf("%s cannot be added to: %w\n  do: check that you may write to it, and that the disk is not full", show, reason(err)))
	}
	for i := range list {
		fmt.Fprintf(std.Out, "%s: %s\n", show, said(&list[i], quantity.Metric))
	}
	return nil
}

// names reads what parts the design has; it need not be whole.
func (c *noteCommand) names(std *Streams) (record.Names, []byte, error) {
	var n record.Names
	if c.Design == "demo" || c.Design == "demo-us" {
		return n, nil, refuse(std, errNoLog)
	}
	file, data, _, err := open(c.Design)
	if err != nil {
		return n, nil, refuse(std, err)
	}
	d, found := design.Read(file, data)
	if found.HasErrors() {
		return n, nil, (&checkCommand{}).refuseDesign(std, file, found)
	}
	for i := range d.Pumps {
		n.Pumps = append(n.Pumps, d.Pumps[i].Name.Value)
	}
	for i := range d.Manifolds {
		n.Manifolds = append(n.Manifolds, d.Manifolds[i].Name.Value)
	}
	return n, data, nil
}

func (c *noteCommand) readings(std *Streams, names record.Names) ([]record.Reading, error) {
	now := time.Now()
	if c.CSV != "" {
		if len(c.Words) > 0 || c.At != "" {
			return nil, refuse(std, errors.New("readings come from a table or from words, not from both\n  do: leave out --csv, or all that stands beside it"))
		}
		data, err := readFile(c.CSV, "write one with the columns time,what,value,note")
		if err != nil {
			return nil, refuse(std, err)
		}
		list, found := record.CSV(filepath.ToSlash(c.CSV), data, names, now.Location())
		if len(found) > 0 {
			if err := finding.Write(std.Err, found); err != nil {
				return nil, err
			}
			return nil, refuse(std, errors.New("no row was noted\n  do: put the table right, then note it once more"))
		}
		if len(list) == 0 {
			return nil, refuse(std, errors.New("the table has no rows\n  do: put readings under the names of its columns"))
		}
		return list, nil
	}
	r, err := record.Typed(strings.Join(c.Words, " "), names)
	if err != nil {
		return nil, refuse(std, err)
	}
	r.Time = now.Truncate(time.Second)
	if c.At != "" {
		if r.Time, err = record.ParseTime(c.At, now.Location()); err != nil {
			return nil, refuse(std, err)
		}
		if r.Time.After(now) && !c.Again {
			return nil, refuse(std, fmt.Errorf("%s is yet to come\n  do: check the time, or add --again if it is right", c.At))
		}
	}
	return []record.Reading{r}, nil
}
