package meta

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// Names of groups of packages in the table below.
const (
	base     = "base"     // tools that know nothing of enclosures
	subjects = "subjects" // physics and arithmetic, usable alone
	meaning  = "meaning"  // what the builder has and wants to know
	output   = "output"   // drawings and paper
)

// row says what one package, or one pattern of packages, may import of ours.
type row struct {
	pkg     string // path from the module root; "x/*" is every package below x
	group   string
	may     []string // packages, patterns or groups
	because string
}

// importTable is the architecture. Arrows point down: a package imports only
// what its row names. Rows of packages that do not exist yet are plans; a
// package without a row fails.
var importTable = []row{
	{"quantity", base, nil, "units and numbers know nothing else"},
	{"source", base, nil, "a list of references knows nothing else"},
	{"geom", base, nil, "points and solids know nothing else"},
	{"finding", base, []string{"quantity", "source"}, "a finding holds words, a place and figures"},
	{"document", base, []string{"finding", "quantity", "source"}, "reading a file gives values or findings"},
	{"num/*", base, []string{"num/*"}, "numerical methods know no physics"},
	{"fluid", base, []string{"num/*", "quantity", "source"}, "properties of water and air are formulas of temperature"},

	{"hydraulics", subjects, physics, solverAlone},
	{"hydraulics/network", subjects, slices.Concat(physics, []string{"hydraulics"}), solverAlone},
	{"hydraulics/gravity", subjects, slices.Concat(physics, []string{"hydraulics", "hydraulics/network"}), solverAlone},
	{"hydraulics/vessel", subjects, nil, "levels and volumes know nothing else"},
	{"structure", subjects, physics, solverAlone},
	{"structure/plate", subjects, physics, solverAlone},
	{"structure/joint", subjects, physics, solverAlone},
	{"climate/moistair", subjects, physics, solverAlone},
	{"climate", subjects, slices.Concat(physics, []string{"climate/moistair"}), solverAlone},
	{"minerals", subjects, physics, solverAlone},
	{"light", subjects, physics, solverAlone},
	{"cutting", subjects, physics, solverAlone},
	{"schedule", subjects, physics, solverAlone},
	{"structure/cure", subjects, slices.Concat(physics, []string{"structure/joint"}), solverAlone},
	{"cost", subjects, physics, solverAlone},

	{"design", meaning, []string{base}, "the design file is what the builder typed; parts and physics come later"},
	{"catalogue", meaning, []string{base}, "a part is a part, whatever it is used for"},
	{"enclosure", meaning, []string{base, "design", "catalogue"}, "it resolves the design; it computes no physics"},
	{"layout", meaning, []string{base, "design", "catalogue", "enclosure"}, "it places what is resolved; weight, drawings and views take places from it"},
	{"study", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout"}, "it poses each subject's problem and passes no verdict"},
	{"pieces", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout", "study"}, "what is cut follows from sizes and places; it passes no verdict"},
	{"faults", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "study"}, "it follows an enclosure through time and passes no verdict"},
	{"takeoff", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout", "study", "pieces"}, "it counts what a design is made of; packs and prices come after"},
	{"shopping", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "study", "takeoff"}, "what is needed, in packs of the shop; verdicts come after"},
	{"works", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout", "study"}, "the steps that a design takes; when they are done is schedule's"},
	{"answers", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout", "study", "pieces", "faults", "takeoff", "shopping", "works"}, "verdicts are taken from results; they do not look for fixes"},
	{"commission", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout", "study", "faults", "answers", "record"}, "what to try and what passes is taken from results; it draws nothing"},
	{"record", meaning, []string{base, "hydraulics"}, "what was measured is lines and figures, whatever was designed; it opens no file"},
	{"asbuilt", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout", "study", "faults", "answers", "commission", "record"}, "what readings tell is computed from the networks; it passes no verdict and opens no file"},
	{"fixes", meaning, []string{base, subjects, "design", "catalogue", "enclosure", "layout", "study", "faults", "shopping", "works", "answers"}, "it tries changes and asks again"},
	{"weigh", meaning, []string{base, "enclosure", "study", "answers"}, "it draws doubts and counts verdicts; it looks for no fixes"},
	{"seek", meaning, []string{base, "design", "catalogue", "enclosure", "study", "faults", "answers", "fixes"}, "it goes through designs and asks the answers of each; what they are is theirs"},
	{"keeping", meaning, []string{base, "catalogue", "enclosure", "record", "ics"}, "what is due and where it goes follows from design and log; it computes no circuit and opens no file"},

	{"ics", output, nil, "a calendar is days, times and words, whatever they mean"},
	{"drawing", output, []string{"geom", "quantity"}, "a drawing is lines and words in mm, whatever they mean"},
	{"drawing/*", output, []string{"drawing"}, "a writer turns a drawing into one file format"},
	{"sheets", output, []string{base, meaning, "drawing"}, "a sheet draws the enclosure and its results, in no file format"},
	{"packet", output, []string{base, meaning, "drawing", "drawing/*", "sheets"}, "the packet orders sheets, tables and answers"},

	{".", "chain", []string{base, meaning, "schedule", output}, "the whole chain, once"},

	{"internal/wire", "edges", []string{".", base, meaning}, "results as JSON, for the command line and the page alike"},
	{"internal/logbook", "edges", []string{"finding", "record"}, "it keeps the file of a log; what stands in it is record's"},
	{"workbench", "edges", []string{".", base, meaning, "light", "schedule", output, "internal/wire", "internal/logbook", "examples"}, "it shows what the chain gives"},
	{"internal/cli", "edges", []string{".", base, meaning, "schedule", output, "workbench", "internal/wire", "internal/logbook", "examples"}, "it shows what the chain gives"},
	{"cmd/rillwright", "edges", []string{"internal/cli"}, "main is one call"},
	{"internal/trial", "edges", []string{base, "design", "catalogue"}, "tests of several packages begin with an example, changed"},
	{"internal/meta", "edges", []string{"source"}, "rules need no product code but the list of sources"},
	{"examples", "edges", nil, "only files"},
	{"tools/bundle", "edges", nil, "a tool in a module of its own knows the page's files alone"},
}

// physics is what a subject may import.
var physics = []string{"quantity", "source", "geom", "num/*", "fluid"}

const solverAlone = "a subject must be usable alone: no design file, parts, findings or other subject; study carries figures between subjects"

// modules says who may import which module of others, outside tests.
var modules = []struct {
	module  string
	may     []string
	because string
}{
	{"gonum.org/v1/gonum", []string{"num/*", "fluid", subjects}, "numbers are the business of num and the subjects"},
	{"github.com/goccy/go-yaml", []string{"document"}, "its traps are dealt with in one place"},
	{"github.com/invopop/jsonschema", []string{"design", "document"}, "the schema is made from the design's types"},
	{"github.com/alecthomas/kong", []string{"internal/cli"}, "only the command line parses arguments"},
	{"codeberg.org/go-pdf/fpdf", []string{"drawing/pdf"}, "one writer for each format"},
	{"codeberg.org/go-fonts", []string{"drawing", "drawing/*"}, "only drawings have type"},
	{"golang.org/x/image", []string{"drawing", "drawing/*"}, "only drawings have type"},
	{"rsc.io/qr", []string{"internal/cli"}, "an address as a code, for a phone"},
	{"github.com/fsnotify/fsnotify", []string{"workbench", "internal/cli"}, "only the edges look at the disk"},
	{"github.com/gofrs/flock", []string{"workbench", "internal/cli"}, "only the edges look at the disk"},
	{"github.com/evanw/esbuild", []string{"tools/bundle"}, "it builds the page and is no part of the program"},
	{"github.com/chromedp/chromedp", nil, "for tests"},
	{"github.com/emersion/go-ical", nil, "for tests"},
	{"github.com/google/go-cmp", nil, "for tests"},
	{"pgregory.net/rapid", nil, "for tests"},
	{"github.com/santhosh-tekuri/jsonschema/v6", nil, "for tests"},
}

// rowFor returns the row of a package: its own, or that of a pattern.
func rowFor(pkg string) (row, bool) {
	i := slices.IndexFunc(importTable, func(r row) bool { return r.pkg == pkg })
	if i < 0 {
		i = slices.IndexFunc(importTable, func(r row) bool { return matches(r.pkg, pkg) })
	}
	if i < 0 {
		return row{}, false
	}
	return importTable[i], true
}

// matches reports whether a package is one that a pattern names.
func matches(pattern, pkg string) bool {
	if below, ok := strings.CutSuffix(pattern, "/*"); ok {
		return strings.HasPrefix(pkg, below+"/")
	}
	return pattern == pkg
}

// allows reports whether a list of packages, patterns and groups names pkg.
func allows(may []string, pkg string) bool {
	r, known := rowFor(pkg)
	return slices.ContainsFunc(may, func(m string) bool {
		return matches(m, pkg) || known && m == r.group
	})
}

// ours returns an import path from the module root, and whether it is ours.
func ours(path string) (string, bool) {
	if path == module {
		return ".", true
	}
	return strings.CutPrefix(path, module+"/")
}

// standard reports whether an import path is of the standard library: those
// have no dot in their first element.
func standard(path string) bool {
	first, _, _ := strings.Cut(path, "/")
	return !strings.Contains(first, ".")
}

// importFault says what is wrong with an import, "" if nothing. Tests may use
// more than the code they test: its own package, test modules and, outside base
// and subjects, the example designs and what changes them; any module listed may
// judge in a test.
func importFault(pkg, path string, test bool) string {
	r, ok := rowFor(pkg)
	if !ok {
		return fmt.Sprintf("package %s is not in importTable: add a row that says what it may import and why", pkg)
	}
	if p, ok := ours(path); ok {
		switch {
		case allows(r.may, p):
		case test && p == pkg:
		case test && pkg == "sheets" && strings.HasPrefix(p, "drawing/"): // golden files need a format
		case test && (p == "examples" || p == "internal/trial") && r.group != base && r.group != subjects:
		default:
			return fmt.Sprintf("%s must not import %s: %s (may import: %s)", pkg, p, r.because, list(r.may))
		}
		return ""
	}
	if standard(path) {
		return ""
	}
	for _, m := range modules {
		if path != m.module && !strings.HasPrefix(path, m.module+"/") {
			continue
		}
		if test || allows(m.may, pkg) { // a test may call on any of them as a judge
			return ""
		}
		return fmt.Sprintf("%s must not import %s: %s (only in: %s)", pkg, path, m.because, list(m.may))
	}
	return fmt.Sprintf("%s imports %s, a module that has no row in modules: say there who may import it and why", pkg, path)
}

func list(names []string) string {
	if len(names) == 0 {
		return "nothing"
	}
	return strings.Join(names, ", ")
}

func TestImports(t *testing.T) {
	for _, g := range repositoryGo(t) {
		if len(g.imports) == 0 {
			if _, ok := rowFor(g.dir()); !ok {
				t.Errorf("%s: %s", g.path, importFault(g.dir(), "fmt", g.test()))
			}
		}
		for _, p := range g.imports {
			if fault := importFault(g.dir(), p, g.test()); fault != "" {
				t.Errorf("%s: %s", g.path, fault)
			}
		}
	}
}

// The rule itself must be able to fail, and must let through what it should.
func TestImportFault(t *testing.T) {
	for _, c := range []struct {
		pkg, path string
		test      bool
		fails     bool
	}{
		{"hydraulics", "rillwright/fluid", false, false},
		{"hydraulics", "rillwright/num/roots", false, false},
		{"hydraulics", "rillwright/finding", false, true},
		{"hydraulics", "rillwright/hydraulics/network", false, true},
		{"hydraulics", "rillwright/structure/plate", false, true},
		{"hydraulics", "rillwright/design", true, true},
		{"hydraulics", "rillwright/examples", true, true},
		{"hydraulics/network", "rillwright/num/sparse", false, false},
		{"hydraulics/network", "gonum.org/v1/gonum/mat", false, false},
		{"quantity", "rillwright/source", false, true},
		{"document", "rillwright/finding", false, false},
		{"document", "github.com/goccy/go-yaml/ast", false, false},
		{"design", "github.com/goccy/go-yaml/ast", false, true},
		{"design", "rillwright/catalogue", false, true},
		{"design", "rillwright/examples", true, false},
		{"design", "rillwright/examples", false, true},
		{"answers", "rillwright/fixes", false, true},
		{"answers", "rillwright/hydraulics/gravity", false, false},
		{"answers", "rillwright/internal/trial", true, false},
		{"answers", "rillwright/internal/trial", false, true},
		{"hydraulics", "rillwright/internal/trial", true, true},
		{"answers", "pgregory.net/rapid", true, false},
		{"answers", "pgregory.net/rapid", false, true},
		{"drawing/svg", "rillwright/sheets", false, true},
		{".", "rillwright/drawing/svg", false, false},
		{"internal/cli", "rillwright", false, false},
		{"cmd/rillwright", "rillwright", false, true},
		{"examples", "embed", false, false},
		{"gravity", "fmt", false, true},
		{"study", "example.org/new/module", true, true},
	} {
		if fault := importFault(c.pkg, c.path, c.test); (fault != "") != c.fails {
			t.Errorf("importFault(%q, %q, %v) = %q", c.pkg, c.path, c.test, fault)
		}
	}
}

// Every name in the table must be a package or group of the table, so that a
// slip of the pen does not forbid in silence.
func TestImportTableNames(t *testing.T) {
	groups := []string{base, subjects, meaning, output}
	known := func(n string) bool {
		return slices.Contains(groups, n) || slices.ContainsFunc(importTable, func(r row) bool {
			return r.pkg == n || matches(r.pkg, n)
		})
	}
	for _, r := range importTable {
		if r.because == "" {
			t.Errorf("row %s gives no reason", r.pkg)
		}
		for _, n := range r.may {
			if !known(n) {
				t.Errorf("row %s names %q, which is neither package nor group", r.pkg, n)
			}
		}
	}
	for _, m := range modules {
		for _, n := range m.may {
			if !known(n) {
				t.Errorf("module %s names %q, which is neither package nor group", m.module, n)
			}
		}
	}
}
