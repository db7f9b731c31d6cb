package cli

import (
	"bufio"
	"fmt"
	"io"
	"slices"

	"rillwright/schedule"
	"rillwright/works"
)

// from leaves out the lines before a day, if one is given.
func (o *planOut) from(day string) error {
	if day == "" {
		return nil
	}
	d, err := schedule.ParseDay(day)
	if err != nil {
		return fmt.Errorf("--from: %w", err)
	}
	o.lines = slices.DeleteFunc(o.lines, func(l works.Line) bool { return l.At() < d.At(0) })
	return nil
}

// card prints what comes next, in the words of the card for the bench.
func (o *planOut) card(to io.Writer) error {
	b := bufio.NewWriter(to)
	fmt.Fprintf(b, "%s: next at the bench\n", o.name())
	if len(o.lines) == 0 {
		fmt.Fprintf(b, "\nNothing is left to do.\n")
	}
	n := 0
	for i := range o.lines {
		l := &o.lines[i]
		if l.Comes {
			fmt.Fprintf(b, "\n-  %s: %s\n", l.Finish.Day().Named(), l.Say)
			continue
		}
		n++
		fmt.Fprintf(b, "\n%d  %s, %s\n   %s\n", n, l.Start.Day().Named(), l.Start.Clock(), l.Say)
		for _, t := range l.Tells() {
			fmt.Fprintf(b, "   %s: %s\n", t.About, t.Say)
		}
	}
	return b.Flush()
}
