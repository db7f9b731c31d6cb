package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"rillwright"
	"rillwright/answers"
	"rillwright/document"
	"rillwright/drawing"
	"rillwright/drawing/svg"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/finding"
	"rillwright/sheets"
)

type checkCommand struct {
	Design string `arg:"" optional:"" default:"demo" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Format string `enum:"text,json" default:"text" help:"Print as text or json."`
	Only   string `help:"Show one answer alone, by its name in brackets." placeholder:"NAME"`
	Brief  bool   `short:"b" help:"Show the verdicts alone."`
	Strict bool   `help:"Exit with status 4 if an answer is tight or not known yet."`
	Plot   string `help:"Also write plots as SVG files into this folder." placeholder:"FOLDER" type:"path"`
}

// Run answers every question about a design.
func (c *checkCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		fmt.Fprintln(std.Err, "rillwright:", err)
		return statusError(exitInput)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside})
	if err != nil {
		fmt.Fprintf(std.Err, "rillwright: %v\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut\n", err)
		return statusError(exitInput)
	}
	if r.Findings.HasErrors() {
		if c.Format == "json" {
			if err := printJSON(std.Out, struct {
				File     string       `json:"file"`
				Findings finding.List `json:"findings"`
			}{file, r.Findings}); err != nil {
				return err
			}
			return statusError(exitInput)
		}
		if err := finding.Write(std.Err, r.Findings); err != nil {
			return err
		}
		fmt.Fprintf(std.Err, "%s: %d to mend before anything can be computed\n", file, len(r.Findings))
		return statusError(exitInput)
	}
	shown := r.Answers
	if c.Only != "" {
		if shown = only(r.Answers, c.Only); shown == nil {
			fmt.Fprintf(std.Err, "rillwright: no answer is called %q\n  do: choose one of %s\n", c.Only, names(r.Answers))
			return statusError(exitInput)
		}
	}
	if c.Format == "json" {
		err = printJSON(std.Out, toJSON(r, shown))
	} else {
		err = printReport(std.Out, r, shown, c.Brief)
	}
	if err != nil {
		return err
	}
	if c.Plot != "" {
		if err := plots(std, r, c.Plot); err != nil {
			return err
		}
	}
	return c.status(shown)
}

func (c *checkCommand) status(shown []answers.Answer) error {
	switch v := answers.Worst(shown); {
	case v == answers.Fails:
		return statusError(exitFails)
	case c.Strict && v != answers.Holds:
		return statusError(exitTight)
	}
	return nil
}

// open reads a design by file name, or a built-in one.
func open(name string) (file string, data []byte, beside fs.FS, err error) {
	switch name {
	case "demo":
		return "demo (corridor-cabinet.yaml)", examples.CorridorCabinet, nil, nil
	case "demo-us":
		return "demo-us (counter-wall.yaml)", examples.CounterWall, nil, nil
	}
	f, err := os.Open(name)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return "", nil, nil, fmt.Errorf("there is no file %s\n  do: check the name, or start one with: rillwright new %s", name, name)
		}
		return "", nil, nil, err
	}
	defer func() { _ = f.Close() }() // only read from
	if st, err := f.Stat(); err == nil && st.IsDir() {
		return "", nil, nil, fmt.Errorf("%s is a folder\n  do: name the design file in it", name)
	}
	// One byte more than the limit, so that Read can say that it is too long.
	data, err = io.ReadAll(io.LimitReader(f, document.MaxBytes+1))
	if err != nil {
		return "", nil, nil, err
	}
	return filepath.ToSlash(name), data, os.DirFS(filepath.Dir(name)), nil
}

func only(list []answers.Answer, name string) []answers.Answer {
	for i := range list {
		if list[i].ID == name {
			return list[i : i+1]
		}
	}
	return nil
}

func names(list []answers.Answer) string {
	all := ""
	for i := range list {
		if i > 0 {
			all += ", "
		}
		all += list[i].ID
	}
	return all
}

type reportJSON struct {
	Name    string                 `json:"name"`
	File    string                 `json:"file"`
	Units   string                 `json:"units"`
	Verdict answers.Verdict        `json:"verdict"`
	Answers []answers.Answer       `json:"answers"`
	Assumed []enclosure.Assumption `json:"assumed"`
}

func toJSON(r *rillwright.Report, shown []answers.Answer) reportJSON {
	return reportJSON{
		Name: r.Name, File: r.File, Units: r.Enclosure.Units.String(),
		Verdict: answers.Worst(shown), Answers: shown, Assumed: r.Enclosure.Assumed,
	}
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// plots writes the plots of a report into a folder.
func plots(std *Streams, r *rillwright.Report, folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	write := func(name string, s *drawing.Sheet) error {
		var b bytes.Buffer
		if err := svg.Write(&b, s); err != nil {
			return err
		}
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
			return err
		}
		fmt.Fprintln(std.Err, "wrote", filepath.ToSlash(path))
		return nil
	}
	if len(r.Enclosure.Pumps) == 1 {
		s, err := sheets.PumpPlot(r.Survey)
		if err != nil {
			return err
		}
		if err := write("pump.svg", &s); err != nil {
			return err
		}
	}
	for i := range r.Enclosure.Manifolds {
		s, err := sheets.OutletPlot(r.Survey, i)
		if err != nil {
			return err
		}
		name := "outlets.svg"
		if i > 0 {
			name = fmt.Sprintf("outlets-%d.svg", i+1)
		}
		if err := write(name, &s); err != nil {
			return err
		}
	}
	return nil
}
