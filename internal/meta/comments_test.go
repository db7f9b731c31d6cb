package meta

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"
	"testing"
)

// Who reads a formula must learn its unit, range and source without reading the
// code, so everything that a physics package exports has a comment. A comment
// above a group of constants or variables serves the whole group.
func TestPhysicsIsDocumented(t *testing.T) {
	described := map[string]bool{}
	for _, g := range repositoryGo(t) {
		if g.test() || !physicsPackage(g.dir()) {
			continue
		}
		described[g.dir()] = described[g.dir()] || g.syntax.Doc != nil
		for _, name := range undocumented(g.syntax) {
			t.Errorf("%s: %s has no doc comment: say what it is, its unit, where it holds and its source", g.path, name)
		}
	}
	for dir, ok := range described {
		if !ok {
			t.Errorf("package %s has no package comment", dir)
		}
	}
}

func physicsPackage(pkg string) bool {
	r, ok := rowFor(pkg)
	return ok && (r.group == subjects || pkg == "fluid" || strings.HasPrefix(pkg, "num/"))
}

// undocumented returns what a file exports without a comment.
func undocumented(f *ast.File) []string {
	var out []string
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() && d.Doc == nil && receiverExported(d) && !satisfiesStandard(d) {
				out = append(out, d.Name.Name)
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				out = append(out, undocumentedSpec(s, d.Doc != nil)...)
			}
		}
	}
	return out
}

// receiverExported reports whether a function is no method or one of an
// exported type: nobody outside sees the others.
func receiverExported(d *ast.FuncDecl) bool {
	if d.Recv == nil {
		return true
	}
	t := d.Recv.List[0].Type
	for {
		switch x := t.(type) {
		case *ast.StarExpr:
			t = x.X
		case *ast.IndexExpr:
			t = x.X
		case *ast.IndexListExpr:
			t = x.X
		case *ast.Ident:
			return x.IsExported()
		default:
			return true
		}
	}
}

// satisfiesStandard reports whether a method is one whose meaning the standard
// library fixes.
func satisfiesStandard(d *ast.FuncDecl) bool {
	return d.Recv != nil && slices.Contains([]string{"Error", "String", "Unwrap", "Is", "As", "Len", "Less", "Swap"}, d.Name.Name)
}

func undocumentedSpec(s ast.Spec, group bool) []string {
	var out []string
	switch s := s.(type) {
	case *ast.ValueSpec:
		for _, n := range s.Names {
			if n.IsExported() && !group && s.Doc == nil && s.Comment == nil {
				out = append(out, n.Name)
			}
		}
	case *ast.TypeSpec:
		if s.Name.IsExported() && !group && s.Doc == nil && s.Comment == nil {
			out = append(out, s.Name.Name)
		}
	}
	return out
}

// The rule itself must be able to fail.
func TestUndocumented(t *testing.T) {
	const text = `package p

// Named is documented.
func Named() {}

func Bare() {}

func (t *T[K]) Bare2() {}

func (t hidden) Exported() {}

func (t T[K]) Error() string { return "" }

type T[K any] struct{}

type hidden int

// A group.
const (
	A = 1
	B = 2
)

const C = 3 // trailing

const D = 4
`
	f, err := parser.ParseFile(token.NewFileSet(), "p.go", text, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	got, want := fmt.Sprint(undocumented(f)), "[Bare Bare2 T D]"
	if got != want {
		t.Errorf("undocumented = %s, want %s", got, want)
	}
}
