package logbook

import (
	"errors"
	"os"

	"rillwright/record"
)

// Flags are how a log is opened to be added to.
const Flags = os.O_RDWR | os.O_APPEND | os.O_CREATE

// Add adds readings to a log, each by a write of its own, and returns once the
// disk has them. The error tells how many of them are in the log.
func Add(name string, readings ...record.Reading) error {
	return AddTo(func() (*os.File, error) { return os.OpenFile(name, Flags, 0o644) }, readings...)
}

// AddTo is Add to a file that open opens with Flags; it is not opened for readings
// that cannot stand in a log.
func AddTo(open func() (*os.File, error), readings ...record.Reading) (err error) {
	lines := make([]string, len(readings))
	for i := range readings {
		if lines[i], err = readings[i].Line(); err != nil {
			return err
		}
	}
	f, err := open()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	return write(f, lines)
}
