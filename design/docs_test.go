package design

import (
	"fmt"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rillwright/document"
)

// The tables of docs/file-format.md are made from the tags that the decoder
// goes by, so that they cannot go stale: run with -update after a change.
func TestFileFormatDocument(t *testing.T) {
	const path = "../docs/file-format.md"
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	sections := map[string]reflect.Type{}
	collectSections(reflect.TypeFor[Design](), sections)
	seen := map[string]bool{}
	table := regexp.MustCompile(`(?s)<!-- keys: (\w+) -->\n.*?<!-- end -->`)
	got := table.ReplaceAllStringFunc(string(data), func(s string) string {
		name := table.FindStringSubmatch(s)[1]
		typ, ok := sections[name]
		if !ok || seen[name] {
			t.Errorf("%s: no section %s, or a second time", path, name)
			return s
		}
		seen[name] = true
		return fmt.Sprintf("<!-- keys: %s -->\n%s<!-- end -->", name, keysTable(typ))
	})
	for name := range sections {
		if !seen[name] {
			t.Errorf("%s has no table for %s", path, name)
		}
	}
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if diff := cmp.Diff(string(data), got); diff != "" {
		t.Errorf("%s is stale: run go test ./design -update\n%s", path, diff)
	}
}

func collectSections(t reflect.Type, into map[string]reflect.Type) {
	if _, isLeaf := reflect.New(t).Interface().(document.Leaf); isLeaf || t.Kind() != reflect.Struct || t == reflect.TypeFor[Pos]() {
		return
	}
	if into[t.Name()] != nil {
		return
	}
	into[t.Name()] = t
	for i := range t.NumField() {
		f := t.Field(i)
		if key := f.Tag.Get("yaml"); !f.IsExported() || key == "" || key == "-" {
			continue
		}
		ft := f.Type
		if ft.Kind() == reflect.Slice {
			ft = ft.Elem()
		}
		collectSections(ft, into)
	}
}

// keysTable writes one section's keys as a Markdown table.
func keysTable(t reflect.Type) string {
	var b strings.Builder
	b.WriteString("| Key | Needed | Write | What it is |\n| --- | --- | --- | --- |\n")
	for i := range t.NumField() {
		f := t.Field(i)
		key := f.Tag.Get("yaml")
		if !f.IsExported() || key == "" || key == "-" {
			continue
		}
		need := ""
		if f.Tag.Get("need") == "yes" {
			need = "yes"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", key, need, whatToWrite(f), strings.ReplaceAll(f.Tag.Get("doc"), "|", `\|`))
	}
	return b.String()
}

func whatToWrite(f reflect.StructField) string {
	if words := f.Tag.Get("words"); words != "" {
		return "`" + strings.ReplaceAll(words, "|", "`, `") + "`"
	}
	if f.Type.Kind() == reflect.Slice {
		return "list"
	}
	if leaf, ok := reflect.New(f.Type).Interface().(document.Leaf); ok {
		what, _ := leaf.Describe()
		return what
	}
	return "section"
}

// Every value needs a sentence for the schema and the tables, and a range tag
// that can be read.
func TestEveryKeyIsDescribed(t *testing.T) {
	document.Walk(&Design{}, func(sp document.Spot) {
		if doc := sp.Tag.Get("doc"); !strings.HasSuffix(doc, ".") {
			t.Errorf("%s: doc %q is not a sentence", sp.Path, doc)
		}
	})
	sections := map[string]reflect.Type{}
	collectSections(reflect.TypeFor[Design](), sections)
	for name, typ := range sections {
		for i := range typ.NumField() {
			f := typ.Field(i)
			if key := f.Tag.Get("yaml"); !f.IsExported() || key == "-" {
				continue
			}
			if doc := f.Tag.Get("doc"); !strings.HasSuffix(doc, ".") {
				t.Errorf("%s.%s: doc %q is not a sentence", name, f.Name, doc)
			}
			if r := f.Tag.Get("range"); r != "" && parseInterval(r).low >= parseInterval(r).high {
				t.Errorf("%s.%s: range %s is empty", name, f.Name, r)
			}
		}
	}
}
