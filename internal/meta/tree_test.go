package meta

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// module is the path in go.mod, before every import path of ours.
const module = "rillwright"

// file is one file of the repository.
type file struct {
	path string // from the root, with slashes
	text string // empty for a binary file
}

// dir returns the folder of the file, "." for the root.
func (f file) dir() string {
	if i := strings.LastIndexByte(f.path, '/'); i >= 0 {
		return f.path[:i]
	}
	return "."
}

// lines returns the number of lines in the file.
func (f file) lines() int {
	n := strings.Count(f.text, "\n")
	if f.text != "" && !strings.HasSuffix(f.text, "\n") {
		n++
	}
	return n
}

// test reports whether the file only serves tests.
func (f file) test() bool {
	return strings.HasSuffix(f.path, "_test.go") || f.testdata()
}

// testdata reports whether the file is input or expected output of a test.
func (f file) testdata() bool {
	return slices.Contains(strings.Split(f.path, "/"), "testdata")
}

// generated reports whether a program wrote the file (the mark is Go's own, see
// `go help generate`).
func (f file) generated() bool {
	return strings.Contains(f.text, "// Code generated ") && strings.Contains(f.text, " DO NOT EDIT.")
}

// goFile is a parsed Go file.
type goFile struct {
	file
	syntax  *ast.File
	imports []string
}

// tree is the repository, read once for all tests of this package.
var tree = sync.OnceValues(func() (root string, err error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fs.ErrNotExist
		}
		dir = up
	}
})

var files = sync.OnceValues(func() ([]file, error) {
	root, err := tree()
	if err != nil {
		return nil, err
	}
	return readTree(os.DirFS(root))
})

// readTree reads every file of the repository that git would keep. It does not
// ask git, which a bare machine need not have: what .gitignore names at the
// root is listed in skipped instead.
func readTree(root fs.FS) ([]file, error) {
	var out []file
	err := fs.WalkDir(root, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		switch {
		case d.IsDir() && skipped(p):
			return fs.SkipDir
		case !d.Type().IsRegular() || skipped(p):
			return nil
		}
		b, err := fs.ReadFile(root, p)
		if err != nil {
			return err
		}
		f := file{path: p}
		if !strings.ContainsRune(string(b[:min(len(b), 8000)]), 0) {
			f.text = string(b)
		}
		out = append(out, f)
		return nil
	})
	return out, err
}

// skipped reports whether a path is not part of the repository.
func skipped(p string) bool {
	base := p[strings.LastIndexByte(p, '/')+1:]
	switch {
	case base == ".git", base == "node_modules", p == "dist", p == "rillwright":
		return true
	}
	return strings.HasSuffix(p, ".test") || strings.HasSuffix(p, ".prof")
}

var fileSet = token.NewFileSet()

var goFiles = sync.OnceValues(func() ([]goFile, error) {
	all, err := files()
	if err != nil {
		return nil, err
	}
	var out []goFile
	for _, f := range all {
		if !strings.HasSuffix(f.path, ".go") || f.testdata() {
			continue
		}
		s, err := parser.ParseFile(fileSet, f.path, f.text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		g := goFile{file: f, syntax: s}
		for _, i := range s.Imports {
			p, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return nil, err
			}
			g.imports = append(g.imports, p)
		}
		out = append(out, g)
	}
	return out, nil
})

func repositoryFiles(t *testing.T) []file {
	t.Helper()
	fs, err := files()
	if err != nil {
		t.Fatal(err)
	}
	if len(fs) < 10 {
		t.Fatalf("only %d files found: the walk is broken", len(fs))
	}
	return fs
}

func repositoryGo(t *testing.T) []goFile {
	t.Helper()
	gs, err := goFiles()
	if err != nil {
		t.Fatal(err)
	}
	if len(gs) < 10 {
		t.Fatalf("only %d Go files found: the walk is broken", len(gs))
	}
	return gs
}
