package meta

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// use is one source key used somewhere.
type use struct{ at, key string }

// keysInTable returns the source keys of a CSV table: its column "source".
func keysInTable(path, text string) ([]use, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	column := slices.Index(rows[0], "source")
	if column < 0 {
		return nil, nil
	}
	var out []use
	for _, row := range rows[1:] {
		out = append(out, use{path + ": " + row[0], row[column]})
	}
	return out, nil
}

// keysInCode returns the source keys that a Go file names outright: those
// converted with source.Key("...") and those given to a field named Source.
func keysInCode(f *ast.File) []use {
	var out []use
	add := func(e ast.Expr) {
		if s, ok := literal(e); ok && s != "" {
			out = append(out, use{at(e), s})
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			if s, ok := n.Fun.(*ast.SelectorExpr); ok && s.Sel.Name == "Key" && len(n.Args) == 1 {
				if p, ok := s.X.(*ast.Ident); ok && p.Name == "source" {
					add(n.Args[0])
				}
			}
		case *ast.KeyValueExpr:
			if k, ok := n.Key.(*ast.Ident); ok && k.Name == "Source" {
				add(n.Value)
			}
		case *ast.AssignStmt:
			for i, l := range n.Lhs {
				if s, ok := l.(*ast.SelectorExpr); ok && s.Sel.Name == "Source" && len(n.Lhs) == len(n.Rhs) {
					add(n.Rhs[i])
				}
			}
		}
		return true
	})
	return out
}

func literal(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(l.Value)
	return s, err == nil
}

// Every key that a figure cites must stand in package source, or an answer
// would show a figure with no reference. A key stands there as a string of its
// own, in its code or as the first field of a row of its tables.
func TestSourceKeysResolve(t *testing.T) {
	listed := map[string]bool{}
	var used []use
	for _, g := range repositoryGo(t) {
		switch {
		case g.test():
		case g.dir() == "source":
			ast.Inspect(g.syntax, func(n ast.Node) bool {
				if e, ok := n.(ast.Expr); ok {
					if s, ok := literal(e); ok {
						listed[s] = true
					}
				}
				return true
			})
		default:
			used = append(used, keysInCode(g.syntax)...)
		}
	}
	for _, f := range repositoryFiles(t) {
		if !strings.HasSuffix(f.path, ".csv") || f.testdata() {
			continue
		}
		if strings.HasPrefix(f.path, "source/") {
			for l := range strings.Lines(f.text) {
				key, _, _ := strings.Cut(l, ",")
				listed[strings.TrimSpace(key)] = true
			}
			continue
		}
		keys, err := keysInTable(f.path, f.text)
		if err != nil {
			t.Errorf("%s: %v", f.path, err)
		}
		used = append(used, keys...)
	}
	if len(listed) == 0 {
		t.Skip("there is no package source yet")
	}
	if len(used) < 20 {
		t.Errorf("only %d uses of source keys found: the search is broken", len(used))
	}
	for _, u := range used {
		if !listed[u.key] {
			t.Errorf("%s: source %q is not listed in package source", u.at, u.key)
		}
	}
}

// The search itself must find what it should.
func TestKeysFound(t *testing.T) {
	f, err := parser.ParseFile(fileSet, "p.go", `package p
var a = source.Key("one")
var b = T{Source: "two", Other: "no"}
func c() { b.Source, b.Note = "three", "no" }
var d = other.Key("no")
`, 0)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, u := range keysInCode(f) {
		got = append(got, u.key)
	}
	us, err := keysInTable("x.csv", "# note\nname,source\nhose,four\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range us {
		got = append(got, u.key)
	}
	if want := []string{"one", "two", "three", "four"}; !slices.Equal(got, want) {
		t.Errorf("keys = %q, want %q", got, want)
	}
}
