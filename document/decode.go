package document

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"rillwright/finding"
)

// Decode reads a YAML file into the struct that into points to and returns
// everything that is wrong with it, in the order of the file; the list is empty
// if the file is sound. The struct says by its types and tags what the file may
// hold:
//
//   - a Field is a value, a struct a section, a slice of structs or Fields a
//     list; a field of type Pos gets the place of its section;
//   - the tag yaml is the key, need:"yes" makes the key a must wherever its
//     section is there, words:"a|b" lists the words allowed, doc is a sentence
//     about the key.
//
// Whatever can be read is read even if something else is wrong. A value that
// has no meaning leaves its Field zero, but with text and place.
func Decode(file string, data []byte, into any) finding.List {
	s, list := newSource(file, data)
	if len(list) > 0 {
		return list
	}
	t, list := parse(s)
	if t != nil {
		d := &decoder{source: s, list: list, plans: plans{}}
		d.root(reflect.ValueOf(into).Elem(), t)
		list = d.list
	}
	return tidy(s, list)
}

// tidy sorts findings by place and cuts a list that nobody would read.
func tidy(s *source, list finding.List) finding.List {
	list.Sort()
	if n := len(list) - maxFindings; n > 0 {
		list = append(list[:maxFindings], s.whole(fmt.Sprintf("%d more problems are not shown", n), "begin with those above"))
	}
	return list
}

type decoder struct {
	*source
	list  finding.List
	plans plans
}

func (d *decoder) report(p Pos, field, what, do string) {
	d.list = append(d.list, d.at(p, field, what, do))
}

func (d *decoder) root(v reflect.Value, t *tree) {
	p := d.plans.of(v.Type())
	if p.pos >= 0 {
		v.Field(p.pos).Set(reflect.ValueOf(t.first))
	}
	d.section(v, t.entries, Pos{}, "", t.broken)
}

// section reads keys with values into a struct. Keys in broken are known to be
// there but could not be read.
func (d *decoder) section(v reflect.Value, entries []*ast.MappingValueNode, at Pos, path string, broken []string) {
	p := d.plans.of(v.Type())
	exact := map[string]bool{}
	for _, e := range entries {
		if key, ok := keyText(e); ok {
			exact[key] = true
		}
	}
	lines := make([]int, len(p.fields)) // where each key was read, 0 for not yet
	for _, e := range entries {
		key, ok := keyText(e)
		place := d.place(keyToken(e))
		if !ok {
			if !isMerge(e) {
				d.report(place, path, "this cannot be a key", keyShape)
			}
			continue
		}
		if d.glued(e, place) {
			d.report(place, join(path, key), fmt.Sprintf("no blank stands behind the colon of %q", key), fmt.Sprintf("write a blank behind it, as %q", key+": ..."))
		}
		i, known := p.find(key)
		if !known {
			if i, known = d.unknownKey(p, key, place, path, exact); !known {
				continue
			}
		}
		f := &p.fields[i]
		if lines[i] > 0 {
			d.report(place, join(path, f.key), fmt.Sprintf("%q is given a second time; the first is on line %d", key, lines[i]), "keep one of the two")
			continue
		}
		lines[i] = max(place.Line, 1)
		d.value(f, v.Field(f.index), e.Value, place, join(path, f.key))
	}
	for i := range p.fields {
		f := &p.fields[i]
		if f.need && lines[i] == 0 && !slices.Contains(broken, f.key) {
			d.missing(f, at, path)
		}
	}
}

// unknownKey reports a key that the section does not have. If it is nearly one
// that is not given otherwise, its value is read as if it were that one, so
// that mistakes in it are found in the same go.
func (d *decoder) unknownKey(p *plan, key string, at Pos, path string, exact map[string]bool) (int, bool) {
	what := fmt.Sprintf("unknown key %q", key)
	if path != "" {
		what += " in " + path
	}
	if near, ok := finding.Nearest(key, p.keys); ok {
		d.report(at, join(path, key), what, fmt.Sprintf("did you mean %q?", near))
		i, _ := p.find(near)
		return i, !exact[near]
	}
	switch {
	case key != "" && strings.Trim(key[:1], "0123456789") == "":
		d.report(at, join(path, key), what, "a comma begins a new key here: write 1.5 with a point, not 1,5, or put the value in quotes")
	case strings.Contains(key, ":"):
		d.report(at, join(path, key), what, "write a blank behind the colon")
	default:
		d.report(at, join(path, key), what, "the keys here are: "+strings.Join(p.keys, ", "))
	}
	return 0, false
}

// glued reports whether a value follows a key's colon with no blank between,
// which the parser lets pass between braces and other YAML readers do not.
func (d *decoder) glued(e *ast.MappingValueNode, key Pos) bool {
	line := d.line(key.Line)
	at := byteColumn(line, key.Column+key.Width)
	quoted := e.Key.GetToken().Type == token.DoubleQuoteType || e.Key.GetToken().Type == token.SingleQuoteType
	return !quoted && at+1 < len(line) && line[at] == ':' && !strings.ContainsRune(" \t,}]", rune(line[at+1]))
}

func (d *decoder) missing(f *planField, at Pos, path string) {
	what, do := fmt.Sprintf("%q is missing", f.key), ""
	if path != "" {
		what += " in " + path
	}
	switch f.kind {
	case leafKind:
		do = fmt.Sprintf("write %q with your own figure", f.key+": "+f.example())
		if ex := f.example(); ex == "" {
			do = fmt.Sprintf("write %q and the text", f.key+":")
		} else if len(f.words) > 0 {
			do = fmt.Sprintf("write %q and %s", f.key+":", orList(f.words))
		}
	case sectionKind:
		do = fmt.Sprintf("write %q and its keys below, indented", f.key+":")
	case listKind:
		do = fmt.Sprintf(`write %q and its entries below, each begun with "- "`, f.key+":")
	}
	if f.doc != "" {
		do += " (" + strings.TrimSuffix(f.doc, ".") + ")"
	}
	d.report(at, join(path, f.key), what, do)
}

func keyText(e *ast.MappingValueNode) (string, bool) {
	if e.Key == nil {
		return "", false
	}
	if n, ok := e.Key.(ast.Node); ok {
		if text, _, ok := scalar(n); ok {
			return text, true
		}
	}
	return "", false
}

func isMerge(e *ast.MappingValueNode) bool {
	return e.Key != nil && e.Key.Type() == ast.MergeKeyType
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// entryPath names an entry of a list by its name if it has one, else by its
// number from 1.
func entryPath(path string, m []*ast.MappingValueNode, number int) string {
	for _, e := range m {
		if key, ok := keyText(e); ok && key == "name" {
			if text, _, ok := scalar(unwrap(e.Value)); ok && strings.TrimSpace(text) != "" {
				return path + "[" + text + "]"
			}
		}
	}
	return path + "[" + strconv.Itoa(number) + "]"
}
