// Package logbook keeps the file of a log beside its design: it adds lines and
// reads them back. What stands in a line is told by package record.
//
// A line is added by one write to a file opened for appending, which the systems
// that we know carry out as a whole at the file's end, however many write; so no
// lock is needed, and none can be left behind by a crash. A line that a crash cut
// short stays as it is: the next one is begun on a line of its own. On a network
// drive two machines may still cut into one another; the sums then tell.
package logbook

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"rillwright/finding"
	"rillwright/record"
)

// Name returns the name of the log of a design file: grotto.log beside
// grotto.yaml.
func Name(design string) string {
	return strings.TrimSuffix(design, filepath.Ext(design)) + ".log"
}

// write adds lines, each by one write.
func write(f *os.File, lines []string) error {
	for i, line := range lines {
		begin, err := beginning(f)
		if err != nil {
			return err
		}
		if _, err := io.WriteString(f, begin+line); err != nil {
			return fmt.Errorf("%d of %d readings were written: %w", i, len(lines), err)
		}
	}
	return f.Sync()
}

// beginning is what must stand before the next line: the header in a new log, an
// end behind a line that has none. Two writers who both find the same only leave a
// blank line or a second header, which readers pass over.
func beginning(f *os.File) (string, error) {
	end, err := f.Seek(0, io.SeekEnd)
	if err != nil {
		return "", err
	}
	if end == 0 {
		return record.Header, nil
	}
	var last [1]byte
	if _, err := f.ReadAt(last[:], end-1); err != nil {
		return "", err
	}
	if last[0] != '\n' {
		return "\n", nil
	}
	return "", nil
}

// Read reads a log; one that is not there is empty.
func Read(name string) (*record.Log, finding.List, error) {
	data, err := os.ReadFile(name)
	if errors.Is(err, os.ErrNotExist) {
		return &record.Log{}, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	l, found := record.Read(filepath.ToSlash(name), data)
	return l, found, nil
}
