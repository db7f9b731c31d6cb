package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"rillwright"
	"rillwright/document"
	"rillwright/drawing"
	"rillwright/drawing/svg"
	"rillwright/examples"
	"rillwright/sheets"
)

// open reads a design by file name, or a built-in one.
func open(name string) (file string, data []byte, beside fs.FS, err error) {
	switch name {
	case "demo":
		return "demo (corridor-cabinet.yaml)", examples.CorridorCabinet, nil, nil
	case "demo-us":
		return "demo-us (counter-wall.yaml)", examples.CounterWall, nil, nil
	}
	data, err = readFile(name, "start one with: rillwright new "+quoted(name))
	if err != nil {
		return "", nil, nil, err
	}
	return filepath.ToSlash(name), data, os.DirFS(filepath.Dir(name)), nil
}

// readFile reads a file that a person wrote, up to one byte more than may be
// read, so that its reader can say that it is too long. orElse is what to do if
// there is none.
func readFile(name, orElse string) ([]byte, error) {
	show := filepath.ToSlash(name)
	if name == "" {
		return nil, errors.New("the name of the file is empty\n  do: give its name")
	}
	st, err := os.Stat(name) // before it is opened: a folder may not open at all
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("there is no file %s\n  do: check the name, or %s", show, orElse)
	case err == nil && st.IsDir():
		return nil, fmt.Errorf("%s is a folder\n  do: name the file in it", show)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w\n  do: check that you may read it", show, reason(err))
	}
	defer func() { _ = f.Close() }() // only read from
	data, err := io.ReadAll(io.LimitReader(f, document.MaxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s cannot be read: %w\n  do: copy it to this machine and try again", show, reason(err))
	}
	return data, nil
}

// reason is what the system says, without the path, which has its own slashes.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// quoted puts a file name with blanks into quotes, as a shell wants it.
func quoted(name string) string {
	name = filepath.ToSlash(name)
	if strings.ContainsAny(name, " \t") {
		return `"` + name + `"`
	}
	return name
}

// plots writes the plots of a report into a folder.
func plots(std *Streams, r *rillwright.Report, folder string) error {
	write, err := svgWriter(std, folder)
	if err != nil {
		return err
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

// svgWriter makes a folder and returns what writes sheets into it.
func svgWriter(std *Streams, folder string) (func(name string, s *drawing.Sheet) error, error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, fmt.Errorf("the folder %s cannot be made: %w", filepath.ToSlash(folder), reason(err))
	}
	return func(name string, s *drawing.Sheet) error {
		var b bytes.Buffer
		if err := svg.Write(&b, s); err != nil {
			return err
		}
		return save(std, filepath.Join(folder, name), b.Bytes())
	}, nil
}

// save writes a file and says so.
func save(std *Streams, path string, data []byte) error {
	if err := os.WriteFile(path, data, 0o644); err != nil {
		return fmt.Errorf("%s cannot be written: %w", filepath.ToSlash(path), reason(err))
	}
	fmt.Fprintln(std.Err, "wrote", filepath.ToSlash(path))
	return nil
}

// builtIn reports whether a name is that of a design of the program's own, which has no
// file, and so no log and no place for marks.
func builtIn(name string) bool { return name == "demo" || name == "demo-us" }

// exists reports whether there is a file of a name, or something that hides it.
func exists(name string) bool {
	_, err := os.Stat(name)
	return !errors.Is(err, fs.ErrNotExist)
}
