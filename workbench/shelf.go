package workbench

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"github.com/fsnotify/fsnotify"

	"rillwright/document"
	"rillwright/examples"
)

// shelf is where designs are: one folder, and the built-in ones. A root keeps
// every access within the folder, links or not.
type shelf struct {
	root    *os.Root // nil without a folder
	watcher *fsnotify.Watcher
	mu      sync.Mutex // between looking whether a file changed and writing it
}

// stored is a design as it stands on the shelf.
type stored struct {
	Name     string `json:"name"`
	Text     string `json:"text"`
	Revision string `json:"revision"`
	ReadOnly bool   `json:"readOnly"`        // a built-in one
	Draft    string `json:"draft,omitempty"` // text that was typed and not kept
	// DraftBase is the file's text that the draft was typed on, if that is known.
	DraftBase *string `json:"draftBase,omitempty"`
}

// Problems that a caller can do something about.
var (
	errName    = errors.New("a design's name begins with a letter or digit, goes on with those, blanks and - _ . , + ' ( ), and ends with .yaml")
	errMissing = errors.New("there is no design of that name in the folder")
	errBuiltIn = errors.New("a built-in design cannot be changed; save it under another name")
	errFolder  = errors.New("no folder was given to serve, so that nothing can be saved")
	errLong    = fmt.Errorf("a design file has at most %d KiB", document.MaxBytes>>10)
	errBytes   = errors.New("the file is not UTF-8 text")
)

func openShelf(folder string) (*shelf, error) {
	if folder == "" {
		return &shelf{}, nil
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, fmt.Errorf("the folder cannot be opened: %w", err)
	}
	return &shelf{root: root}, nil
}

func (s *shelf) close() error {
	var err error
	if s.watcher != nil {
		err = s.watcher.Close()
	}
	if s.root != nil {
		err = errors.Join(err, s.root.Close())
	}
	return err
}

// beside is the folder from which a design's own parts and curves are read.
func (s *shelf) beside(name string) fs.FS {
	if s.root == nil || builtIn(name) != nil {
		return nil
	}
	return s.root.FS()
}

func builtIn(name string) []byte {
	switch name {
	case "demo":
		return examples.CorridorCabinet
	case "demo-us":
		return examples.CounterWall
	}
	return nil
}

var plainName = regexp.MustCompile(`^[\pL\pN][\pL\pM\pN .,+'()_-]{0,120}\.ya?ml$`)

// valid reports whether a name may be a file of the folder. Windows keeps some
// names for devices, whatever their ending.
func valid(name string) bool {
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	return plainName.MatchString(name) && filepath.IsLocal(name) && !slices.Contains([]string{"con", "prn", "aux", "nul"}, stem)
}

func revision(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8])
}

// names lists the designs of the folder: plain files that name the format.
func (s *shelf) names() ([]string, error) {
	if s.root == nil {
		return nil, nil
	}
	list, err := fs.ReadDir(s.root.FS(), ".")
	if err != nil {
		return nil, err
	}
	var out []string
	for _, e := range list {
		if !e.Type().IsRegular() || !valid(e.Name()) {
			continue
		}
		if text, err := s.file(e.Name()); err == nil && strings.Contains(string(text), "rillwright:") {
			out = append(out, e.Name())
		}
	}
	return out, nil
}

// file reads one plain file of the folder. Anything else, links among them, is
// as good as missing. What the page could not write back as it was, since it is too
// long or no UTF-8, is refused: half a text saved would cut the file.
func (s *shelf) file(name string) ([]byte, error) { return s.short(name, document.MaxBytes) }

// short is file with another limit of length.
func (s *shelf) short(name string, most int) ([]byte, error) {
	st, err := s.root.Lstat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errMissing
	case err != nil:
		return nil, err
	case !st.Mode().IsRegular():
		return nil, errMissing
	}
	f, err := s.root.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }() // only read from
	text, err := io.ReadAll(io.LimitReader(f, int64(most)+1))
	switch {
	case err != nil:
		return nil, err
	case len(text) > most:
		return nil, errLong
	case !utf8.Valid(text):
		return nil, errBytes
	}
	return text, nil
}

func (s *shelf) read(name string) (stored, error) {
	if text := builtIn(name); text != nil {
		return stored{Name: name, Text: string(text), Revision: revision(text), ReadOnly: true}, nil
	}
	switch {
	case !valid(name):
		return stored{}, errName
	case s.root == nil:
		return stored{}, errMissing
	}
	text, err := s.file(name)
	if err != nil {
		return stored{}, err
	}
	out := stored{Name: name, Text: string(text), Revision: revision(text)}
	if d, ok := s.draft(name); ok && d.Text != out.Text {
		out.Draft, out.DraftBase = d.Text, d.Base
	}
	return out, nil
}

// save writes a design if it still stands as the caller knew it, base, or if it is
// new and base is "". Otherwise it returns what stands there, and false.
func (s *shelf) save(name, base, text string) (stored, bool, error) {
	switch {
	case builtIn(name) != nil:
		return stored{}, false, errBuiltIn
	case !valid(name):
		return stored{}, false, errName
	case s.root == nil:
		return stored{}, false, errFolder
	case len(text) > document.MaxBytes:
		return stored{}, false, errLong
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	now, err := s.file(name)
	switch {
	case errors.Is(err, errMissing) && base == "":
	case errors.Is(err, errMissing):
		// It was deleted while it was open: the text is written all the same,
		// since nothing typed may be lost.
	case err != nil:
		return stored{}, false, err
	case revision(now) != base && string(now) != text:
		return stored{Name: name, Text: string(now), Revision: revision(now)}, false, nil
	}
	if err := s.write(name, []byte(text)); err != nil {
		return stored{}, false, err
	}
	s.forget(name)
	return stored{Name: name, Text: text, Revision: revision([]byte(text))}, true, nil
}

// write puts a whole new file in the place of an old one, so that no reader and
// no power cut ever meets half of it.
func (s *shelf) write(name string, text []byte) error {
	temp := "." + name + "." + rand.Text()[:8] + ".part"
	mode := fs.FileMode(0o644)
	if st, err := s.root.Stat(name); err == nil {
		mode = st.Mode().Perm()
	}
	f, err := s.root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	err = errors.Join(err, f.Sync(), f.Close())
	if err == nil {
		err = s.root.Rename(temp, name)
	}
	if err != nil {
		err = errors.Join(err, s.root.Remove(temp))
	}
	return err
}

// settle is how long a file is left alone before its change is told.
const settle = 60 * time.Millisecond

// watch tells of every design of the folder that is written, moved or deleted.
// The folder is watched, since editors put a new file in the old one's place. A
// design is told of once it has been left alone for a moment: many programs empty a
// file before they fill it.
func (s *shelf) watch(changed func(name string)) error {
	w, err := fsnotify.NewWatcher()
	if err != nil {
		return err
	}
	if err := w.Add(s.root.Name()); err != nil {
		return errors.Join(err, w.Close())
	}
	s.watcher = w
	go func() {
		fresh := map[string]bool{}
		rest := time.NewTimer(settle)
		defer rest.Stop()
		for {
			select {
			case e, ok := <-w.Events:
				if !ok {
					return
				}
				if name := filepath.Base(e.Name); valid(name) {
					fresh[name] = true
					rest.Reset(settle)
				}
			case <-rest.C:
				for _, name := range slices.Sorted(maps.Keys(fresh)) {
					changed(name)
				}
				clear(fresh)
			case _, ok := <-w.Errors:
				if !ok {
					return
				}
			}
		}
	}()
	return nil
}
