package workbench

import (
	"encoding"
	"flag"
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/finding"
)

var update = flag.Bool("update", false, "write what is made here into the files of the page")

// The page's types are those of the server: run with -update after a change.
func TestTypes(t *testing.T) {
	w := &typeWriter{seen: map[reflect.Type]string{}}
	w.file(t, "web/src/types.ts", "",
		designList{}, stored{}, saveRequest{}, draftRequest{}, setRequest{}, setReply{}, computeRequest{}, outcome{}, faultsReply{},
		textRequest{}, seekRequest{}, courseRequest{}, courseReply{}, progress{}, drawingsRequest{}, drawingsReply{}, partsReply{},
		changeEvent{}, problem{})
	w.file(t, "web/src/aisletypes.ts", "import type { Answer, Edit, Problem, Verdict } from \"./types\"\n\n", aisleRequest{}, aisleReply{})
	w.file(t, "web/src/cuttypes.ts", "import type { SheetShown } from \"./types\"\n\n", cuttingRequest{}, cuttingReply{})
	w.file(t, "web/src/climatetypes.ts", "", climateReply{})
	w.file(t, "web/src/plantypes.ts", "import type { Edit } from \"./types\"\n\n", planRequest{}, planReply{})
}

// file holds a file against the types of values, without those that an earlier one
// has.
func (w *typeWriter) file(t *testing.T, path, imports string, values ...any) {
	t.Helper()
	w.out = nil
	for _, v := range values {
		w.name(reflect.TypeOf(v))
	}
	slices.Sort(w.out)
	got := "// Made from the Go types by go test ./workbench -update. Do not edit.\n\n" + imports + strings.Join(w.out, "\n")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	have, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(have) != got {
		t.Errorf("%s is stale: run go test ./workbench -update, then build the page again", path)
	}
}

type typeWriter struct {
	seen map[reflect.Type]string
	out  []string
}

// wordsOf lists types that are written as one of a few words.
var wordsOf = map[reflect.Type][]string{
	reflect.TypeFor[answers.Verdict]():  verdictWords(),
	reflect.TypeFor[finding.Severity](): severityWords(),
}

func verdictWords() (out []string) {
	for v := answers.Holds; v <= answers.Fails; v++ {
		out = append(out, v.String())
	}
	return out
}

func severityWords() (out []string) {
	for s := finding.Note; s <= finding.Error; s++ {
		out = append(out, s.String())
	}
	return out
}

// name returns the TypeScript of a type, written out on first sight if it is a
// struct.
func (w *typeWriter) name(t reflect.Type) string {
	if words, ok := wordsOf[t]; ok {
		name := exported(t.Name())
		if w.seen[t] == "" {
			w.seen[t] = name
			w.out = append(w.out, fmt.Sprintf("export type %s = %q\n", name, strings.Join(words, `" | "`)))
			w.out[len(w.out)-1] = strings.ReplaceAll(w.out[len(w.out)-1], `\"`, `"`)
		}
		return name
	}
	switch t.Kind() {
	case reflect.Pointer:
		return w.name(t.Elem())
	case reflect.Slice:
		return w.name(t.Elem()) + "[]"
	case reflect.Array:
		return "[" + strings.TrimSuffix(strings.Repeat(w.name(t.Elem())+", ", t.Len()), ", ") + "]"
	case reflect.String:
		return "string"
	case reflect.Bool:
		return "boolean"
	case reflect.Struct:
		return w.structure(t)
	}
	if t.Implements(reflect.TypeFor[encoding.TextMarshaler]()) {
		return "string"
	}
	return "number"
}

func (w *typeWriter) structure(t reflect.Type) string {
	if name := w.seen[t]; name != "" {
		return name
	}
	name := exported(t.Name())
	for other, taken := range w.seen {
		if taken == name {
			name = exported(t.PkgPath()[strings.LastIndexByte(t.PkgPath(), '/')+1:]) + name
			_ = other
			break
		}
	}
	w.seen[t] = name
	var b strings.Builder
	fmt.Fprintf(&b, "export interface %s {\n", name)
	for i := range t.NumField() {
		f := t.Field(i)
		key, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
		if key == "-" || !f.IsExported() {
			continue
		}
		if key == "" {
			key = f.Name
		}
		if strings.Contains(rest, "omitempty") {
			key += "?"
		}
		fmt.Fprintf(&b, "  %s: %s\n", key, w.name(f.Type))
	}
	b.WriteString("}\n")
	w.out = append(w.out, b.String())
	return name
}

func exported(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
