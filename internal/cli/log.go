package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"
	"time"

	"rillwright"
	"rillwright/commission"
	"rillwright/finding"
	"rillwright/internal/logbook"
	"rillwright/quantity"
	"rillwright/record"
)

// said is a reading in words.
func said(r *record.Reading, sys quantity.System) string {
	out := r.ID()
	if r.Text != "-" {
		out += " " + r.Text
	}
	if shown := commission.ShowReading(r, sys); shown != "" && shown != r.Text {
		out += ": " + shown
		if len(r.Values) > 1 && r.Kind != record.Cups {
			out += " in the mean"
		}
	}
	return out
}

type logCommand struct {
	Design string `arg:"" help:"A design file whose log stands beside it."`
	JSON   bool   `name:"json" help:"Print JSON."`
}

// Help tells what is shown.
func (*logCommand) Help() string {
	return "Prints what was noted, in order of time, each against what passes as the design stands now. Lines of the log that cannot be read are told of and left as they are.\n" + exitHelp
}

// logLine is one reading as it is shown.
type logLine struct {
	Time   string    `json:"time"`
	ID     string    `json:"id"`
	Text   string    `json:"text"`
	Values []float64 `json:"values"` // SI
	Design string    `json:"design"`
	Note   string    `json:"note,omitempty"`
	Figure string    `json:"figure,omitempty"`
	Passes *bool     `json:"passes,omitempty"`
	Pass   string    `json:"pass,omitempty"`
}

// Run prints the log of a design.
func (c *logCommand) Run(std *Streams) error {
	r, log, err := openLog(std, c.Design)
	if err != nil {
		return err
	}
	sys := r.Enclosure.Units
	plan := commission.Of(r.Survey, nil)
	lines := make([]logLine, 0, len(log.Readings))
	for i := range log.Readings {
		e := &log.Readings[i]
		l := logLine{Time: e.Time.Format(time.RFC3339), ID: e.ID(), Text: e.Text, Values: append([]float64{}, e.Values...), Design: e.Design, Note: e.Note}
		v, _, ok := commission.Measured(e)
		l.Figure = commission.ShowReading(e, sys)
		if check := plan.Find(l.ID); ok && check != nil && !math.IsNaN(v) {
			if passed, ok := check.Passed(v); ok {
				l.Passes, l.Pass = &passed, check.PassText(sys)
			}
		}
		lines = append(lines, l)
	}
	if c.JSON {
		e := json.NewEncoder(std.Out)
		e.SetIndent("", "  ")
		return e.Encode(map[string]any{"design": r.File, "readings": lines, "unread": append([]string{}, log.Unread...)})
	}
	return printLog(std.Out, r.Name, lines)
}

func printLog(w io.Writer, name string, lines []logLine) error {
	fmt.Fprintln(w, name)
	if len(lines) == 0 {
		fmt.Fprintln(w, "  nothing is noted yet")
	}
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for i := range lines {
		l := &lines[i]
		verdict := ""
		if l.Passes != nil {
			verdict = "does not pass: " + l.Pass
			if *l.Passes {
				verdict = "passes: " + l.Pass
			}
		}
		figure := l.Figure
		if figure == "" && l.Text != "-" {
			figure = l.Text
		}
		when := strings.Replace(l.Time[:len("2006-01-02T15:04")], "T", " ", 1)
		cells := []string{when, l.ID, figure, verdict}
		if l.Note != "" {
			cells = append(cells, "# "+l.Note)
		}
		fmt.Fprintln(tw, strings.TrimRight("  "+strings.Join(cells, "\t"), "\t"))
	}
	return tw.Flush()
}

// errNoLog is of a design that has no place for a log.
var errNoLog = errors.New("a built-in design keeps no log\n  do: name a design file of your own")

// openLog builds a design without looking for fixes and reads its log.
func openLog(std *Streams, name string) (*rillwright.Report, *record.Log, error) {
	if builtIn(name) {
		return nil, nil, refuse(std, errNoLog)
	}
	file, data, beside, err := open(name)
	if err != nil {
		return nil, nil, refuse(std, err)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, NoFixes: true})
	if err != nil {
		return nil, nil, refuse(std, err)
	}
	if r.Findings.HasErrors() {
		return nil, nil, (&checkCommand{}).refuseDesign(std, file, r.Findings)
	}
	log, err := readLog(std, name)
	if err != nil {
		return nil, nil, err
	}
	other := 0
	for i := range log.Readings {
		if d := log.Readings[i].Design; d != "-" && d != mark(data) {
			other++
		}
	}
	if other > 0 {
		fmt.Fprintf(std.Err, "the design file has changed since: readings taken before, %d of %d\n", other, len(log.Readings))
	}
	return r, log, nil
}

// readLog reads the log of a design, and tells of what is wrong in it.
func readLog(std *Streams, name string) (*record.Log, error) {
	log, found, err := logbook.Read(logbook.Name(name))
	if err != nil {
		return nil, refuse(std, fmt.Errorf("the log cannot be read: %w", reason(err)))
	}
	if !exists(logbook.Name(name)) {
		fmt.Fprintf(std.Err, "there is no log yet\n  do: begin one with: rillwright note %s rise 12 mm\n", quoted(name))
	}
	return log, finding.Write(std.Err, found)
}
