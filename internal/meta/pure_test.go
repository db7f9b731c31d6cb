package meta

import (
	"fmt"
	"go/ast"
	"slices"
	"strings"
	"testing"
)

// formulas is the group of every package for which physicsPackage holds.
const formulas = "formulas"

// banned are packages of the standard library, with what lies below them, that
// a whole group of ours must do without. Tests may use them.
var banned = []struct {
	path    string
	groups  []string
	because string
}{
	{"os", []string{base, subjects, meaning, output}, "files come in as bytes or fs.FS, so that every caller, and a test, can give them"},
	{"io/ioutil", []string{base, subjects, meaning, output}, "as os"},
	{"net", []string{base, subjects, meaning, output}, "the program works offline"},
	{"log", []string{base, subjects, meaning, output}, "what is to be said is returned, as a result, a finding or an error"},
	{"flag", []string{base, subjects, meaning, output}, "settings come in as arguments"},
	{"syscall", []string{base, subjects, meaning, output}, "results must not depend on the machine"},
	{"plugin", []string{base, subjects, meaning, output}, "results must not depend on the machine"},
	{"unsafe", []string{base, subjects, meaning, output}, "results must not depend on the machine"},
	{"math/rand", []string{base, subjects, meaning, output}, "same file in, same bytes out (math/rand/v2 too); a search brings its own fixed sequence"},
	{"crypto/rand", []string{base, subjects, meaning, output}, "same file in, same bytes out"},
	{"testing", []string{base, subjects, meaning, output}, "test helpers belong in test files"},
	{"time", []string{base, subjects}, "physics has no clock; durations are quantities in seconds"},
	{"sync", []string{formulas}, "physics keeps nothing between calls (sync/atomic too); study runs calls side by side"},
	{"embed", []string{formulas}, "tables of parts belong in catalogue; physics holds formulas"},
	{"reflect", []string{formulas}, "formulas know their types"},
	{"io", []string{formulas}, "formulas neither read nor write"},
	{"runtime", []string{base, subjects, meaning, output}, "results must not depend on the machine"},
}

// pureFault says why a package must not import a standard package, "" if it may.
func pureFault(pkg, path string) string {
	r, ok := rowFor(pkg)
	if !ok {
		return ""
	}
	for _, b := range banned {
		if path != b.path && !strings.HasPrefix(path, b.path+"/") {
			continue
		}
		if slices.Contains(b.groups, r.group) || slices.Contains(b.groups, formulas) && physicsPackage(pkg) {
			return fmt.Sprintf("%s must not import %s: %s", pkg, path, b.because)
		}
	}
	return ""
}

func TestPureImports(t *testing.T) {
	for _, g := range repositoryGo(t) {
		if g.test() {
			continue
		}
		for _, p := range g.imports {
			if fault := pureFault(g.dir(), p); fault != "" {
				t.Errorf("%s: %s", g.path, fault)
			}
		}
	}
}

func TestPureFault(t *testing.T) {
	for _, c := range []struct {
		pkg, path string
		fails     bool
	}{
		{"hydraulics", "math", false},
		{"hydraulics", "os", true},
		{"hydraulics/network", "net/http", true},
		{"num/sparse", "math/rand/v2", true},
		{"fluid", "sync/atomic", true},
		{"fluid", "time", true},
		{"quantity", "sync", false},
		{"quantity", "time", true},
		{"catalogue", "io/fs", false},
		{"catalogue", "embed", false},
		{"catalogue", "os", true},
		{"hydraulics", "io/fs", true},
		{"study", "sync", false},
		{"sheets", "os", true},
		{"internal/cli", "os", false},
	} {
		if fault := pureFault(c.pkg, c.path); (fault != "") != c.fails {
			t.Errorf("pureFault(%q, %q) = %q", c.pkg, c.path, fault)
		}
	}
}

// A package that does something when it is merely imported cannot be told from
// one whose result depends on what else is linked in.
func TestNoInit(t *testing.T) {
	for _, g := range repositoryGo(t) {
		for _, d := range g.syntax.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.Name == "init" {
				t.Errorf("%s: func init: make what it prepares a value that a function returns", at(f))
			}
		}
	}
}

// at returns where a piece of syntax stands, as path:line.
func at(n ast.Node) string {
	p := fileSet.Position(n.Pos())
	return fmt.Sprintf("%s:%d", p.Filename, p.Line)
}
