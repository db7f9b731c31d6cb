package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"rillwright/design"
)

type newCommand struct {
	File string `arg:"" optional:"" help:"File to write; printed if left out."`
}

// Run writes the starter design. It never overwrites a file.
func (c *newCommand) Run(std *Streams) error {
	if c.File == "" {
		_, err := std.Out.Write(design.Starter())
		return err
	}
	show := filepath.ToSlash(c.File)
	f, err := os.OpenFile(c.File, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	switch {
	case errors.Is(err, fs.ErrExist):
		return refuse(std, fmt.Errorf("%s is there already and is left as it is\n  do: choose another name", show))
	case err != nil:
		return refuse(std, fmt.Errorf("%s cannot be written: %w\n  do: check that its folder is there and that you may write to it", show, reason(err)))
	}
	if _, err := f.Write(design.Starter()); err != nil {
		return errors.Join(err, f.Close())
	}
	if err := f.Close(); err != nil {
		return err
	}
	fmt.Fprintf(std.Out, "wrote %s: open it in an editor, put your own figures in, then run\n  rillwright check %s\n", show, quoted(c.File))
	return nil
}

type schemaCommand struct{}

// Run prints the JSON Schema of a design file.
func (schemaCommand) Run(std *Streams) error {
	data, err := design.Schema()
	if err != nil {
		return err
	}
	_, err = std.Out.Write(append(data, '\n'))
	return err
}
