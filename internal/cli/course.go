package cli

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
	"time"

	"rillwright"
	"rillwright/faults"
	"rillwright/internal/wire"
	"rillwright/quantity"
)

// printCourse prints what happens in the course of a fault, and the account of
// the water.
func (c *faultsCommand) printCourse(b *strings.Builder, r *rillwright.Report, k *course) {
	sys, res := r.Enclosure.Units, k.result
	which := "likely"
	if c.Bad {
		which = "at the bad end"
	}
	fmt.Fprintf(b, "Course of [%s], %s\n", k.fault.ID, which)
	at := newStates(res)
	fmt.Fprintf(b, "    %12s  %-10s %-10s %-10s  %s\n", "after", "pool", "sump", "floor", "what happens")
	row := func(t float64, what string) {
		pool, sump, floor := at.levels(t)
		line := fmt.Sprintf("    %12s  %-10s %-10s %-10s  ", clock(t),
			quantity.Length(pool-r.Enclosure.Pool.Floor).Show(sys), quantity.Length(sump-r.Enclosure.Sump.Bottom).Show(sys), litres(floor, sys))
		wrap(b, line, strings.Repeat(" ", 51), what)
	}
	const most = 24
	for i, e := range res.Events {
		if i == most {
			fmt.Fprintf(b, "    and %d events more\n", len(res.Events)-most)
			break
		}
		row(e.At, e.What)
	}
	end := "the end of what is followed"
	if res.Why != "" {
		end = res.Why
	}
	row(res.Ended, end)
	var rows [][2]string
	for i, name := range res.Stores {
		if was, is := litres(res.Begin[i], sys), litres(math.Abs(res.End[i]), sys); was != is || res.Begin[i] > 1e-5 {
			rows = append(rows, [2]string{name, was + " to " + is})
		}
	}
	b.WriteString("  where the water was, and is\n")
	printRows(b, "    ", rows)
}

// clock shows when something happens, fine enough to tell it from what comes next.
func clock(t float64) string {
	s := int(math.Round(t))
	switch {
	case s < 120:
		return fmt.Sprintf("%d s", s)
	case s < 2*3600:
		return fmt.Sprintf("%d min %d s", s/60, s%60)
	case s < 2*86400:
		return fmt.Sprintf("%d h %d min", s/3600, s/60%60)
	}
	return fmt.Sprintf("%d days %d h", s/86400, s/3600%24)
}

// litres shows a volume, a trace as nothing.
func litres(v float64, sys quantity.System) string {
	if v < 5e-6 {
		return "0"
	}
	return quantity.Volume(v).Show(sys)
}

// states reads levels out of a recorded run.
type states struct {
	r     *faults.Result
	sump  int
	floor int
}

func newStates(r *faults.Result) states {
	s := states{r: r}
	for i, name := range r.Stores {
		if name == "spilled" {
			s.floor = i
		}
	}
	s.sump = r.PumpChamber
	return s
}

// levels returns pool, pumps' chamber and spilled volume at a time that was
// recorded, or the next after it.
func (s states) levels(t float64) (pool, sump, floor float64) {
	k := s.r.Track
	i := 0
	for i < len(k.Time)-1 && k.Time[i] < t {
		i++
	}
	return k.Level[0][i], k.Level[1+s.sump][i], k.Volume[s.floor][i]
}

// writeStates writes the states of a run as CSV: time, levels, volumes, rates.
func writeStates(w io.Writer, r *faults.Result) error {
	out := csv.NewWriter(w)
	k := r.Track
	head := []string{"time (s)"}
	for _, n := range k.Levels {
		head = append(head, "level of "+n+" (m above the room floor)")
	}
	for _, n := range r.Stores {
		head = append(head, n+" (L)")
	}
	for _, n := range r.Ways {
		head = append(head, n+" (L/h)")
	}
	if err := out.Write(head); err != nil {
		return err
	}
	text := func(v float64) string { return strconv.FormatFloat(wire.Round(v), 'g', -1, 64) }
	for i := range k.Time {
		row := []string{text(k.Time[i])}
		for n := range k.Levels {
			row = append(row, text(k.Level[n][i]))
		}
		for n := range r.Stores {
			row = append(row, text(wire.Tidy(1000*k.Volume[n][i])))
		}
		for n := range r.Ways {
			row = append(row, text(wire.Tidy(3.6e6*k.Rate[n][i])))
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// progress tells how far things are on a terminal, and nothing elsewhere.
func progress(std *Streams) func(done, of int) { return progressOf(std, "following faults") }

// progressOf is progress for other work.
func progressOf(std *Streams, doing string) func(done, of int) {
	f, ok := std.Err.(*os.File)
	if !ok {
		return nil
	}
	if st, err := f.Stat(); err != nil || st.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	last, begin := -1, time.Now()
	return func(done, of int) {
		if p := 100 * done / of; p != last {
			last = p
			fmt.Fprintf(f, "\r%s: %d %%", doing, p)
			if spent := time.Since(begin); done > 0 && done < of && spent > 2*time.Second {
				fmt.Fprintf(f, ", about %d s left\033[K", int(spent.Seconds()*float64(of-done)/float64(done))+1)
			}
			if done == of {
				fmt.Fprint(f, "\r\033[K")
			}
		}
	}
}
