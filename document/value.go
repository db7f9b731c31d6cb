package document

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"rillwright/finding"
	"rillwright/quantity"
)

// bare takes tags and anchors off a node. They, and aliases, were refused when
// the tokens were checked; now that the path is known, the finding gets it.
func (d *decoder) bare(n ast.Node, path string) ast.Node {
	for range maxDepth {
		switch w := n.(type) {
		case *ast.TagNode:
			d.label(w, path)
			n = w.Value
		case *ast.AnchorNode:
			d.label(w, path)
			n = w.Value
		case *ast.AliasNode:
			d.label(w, path)
			return n
		default:
			return n
		}
	}
	return n
}

func (d *decoder) label(n ast.Node, path string) {
	at := d.place(n.GetToken())
	for i := range d.list {
		if f := &d.list[i]; f.Field == "" && f.Place.Line == at.Line && f.Place.Column == at.Column {
			f.Field = path
		}
	}
}

func (d *decoder) value(f *planField, v reflect.Value, n ast.Node, at Pos, path string) {
	n = d.bare(n, path)
	if n == nil || n.Type() == ast.NullType {
		d.empty(f, n, at, path)
		return
	}
	if n.Type() == ast.AliasType {
		return // refused already
	}
	switch f.kind {
	case leafKind:
		d.leaf(v, f.words, n, path, f.key)
	case sectionKind:
		d.inner(f, v, n, at, path)
	case listKind:
		d.entries(f, v, n, path)
	}
}

func (d *decoder) empty(f *planField, n ast.Node, at Pos, path string) {
	p := at
	if n != nil {
		if tk := n.GetToken(); tk != nil && tk.Type == token.NullType {
			p = d.place(tk)
		}
	}
	do := "write its value"
	switch {
	case f.kind == sectionKind:
		do = "write its keys below, indented"
	case f.kind == listKind:
		do = `write its entries below, each begun with "- "`
	case len(f.words) > 0:
		do = "write " + orList(f.words)
	case f.example() != "":
		do = fmt.Sprintf("write it as %q", f.key+": "+f.example())
	}
	if !f.need {
		do += ", or leave the key out"
	}
	d.report(p, path, fmt.Sprintf("%q has no value", f.key), do)
}

func (d *decoder) inner(f *planField, v reflect.Value, n ast.Node, at Pos, path string) {
	p := d.plans.of(f.typ)
	if p.pos >= 0 {
		v.Field(p.pos).Set(reflect.ValueOf(at))
	}
	entries, ok := mapping(n)
	if !ok {
		d.report(d.nodePlace(n), path, fmt.Sprintf("%q holds keys, and this is %s", f.key, shape(n)),
			fmt.Sprintf("write its keys below, indented: %s", strings.Join(p.keys, ", ")))
		return
	}
	d.section(v, entries, at, path, nil)
}

func (d *decoder) entries(f *planField, v reflect.Value, n ast.Node, path string) {
	seq, ok := n.(*ast.SequenceNode)
	if !ok {
		what := fmt.Sprintf("%q is a list, and this is %s", f.key, shape(n))
		m, isMap := mapping(n)
		if !isMap || f.elem != sectionKind {
			d.report(d.nodePlace(n), path, what, `begin each entry with "- "`)
		} else {
			// Read as a list of one, to find what else is wrong.
			d.report(d.nodePlace(n), entryPath(path, m, 1), what, `begin each entry with "- "`)
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			d.entry(v.Index(0), m, d.nodePlace(n), entryPath(path, m, 1))
		}
		return
	}
	if len(seq.Values) == 0 && f.need {
		d.report(d.nodePlace(n), path, fmt.Sprintf("%q has no entries", f.key), `write at least one, begun with "- "`)
	}
	v.Set(reflect.MakeSlice(v.Type(), len(seq.Values), len(seq.Values)))
	for i, e := range seq.Values {
		d.listEntry(f, v.Index(i), d.bare(e, numbered(path, i)), i+1, path)
	}
}

func (d *decoder) listEntry(f *planField, v reflect.Value, n ast.Node, number int, path string) {
	at := numbered(path, number-1)
	switch {
	case n == nil || n.Type() == ast.NullType:
		p := Pos{}
		if n != nil {
			p = d.place(n.GetToken())
		}
		d.report(p, at, fmt.Sprintf("entry %d of %q is empty", number, f.key), `write something behind the "- ", or take the line away`)
	case n.Type() == ast.AliasType:
	case f.elem == leafKind:
		d.leaf(v, f.words, n, at, f.key)
	default:
		m, ok := mapping(n)
		if !ok {
			p := d.plans.of(f.typ.Elem())
			d.report(d.nodePlace(n), at, fmt.Sprintf("an entry of %q holds keys, and this is %s", f.key, shape(n)),
				fmt.Sprintf("write its keys: %s", strings.Join(p.keys, ", ")))
			return
		}
		d.entry(v, m, d.nodePlace(n), entryPath(path, m, number))
	}
}

func (d *decoder) entry(v reflect.Value, m []*ast.MappingValueNode, at Pos, path string) {
	if p := d.plans.of(v.Type()); p.pos >= 0 {
		v.Field(p.pos).Set(reflect.ValueOf(at))
	}
	d.section(v, m, at, path, nil)
}

func (d *decoder) leaf(v reflect.Value, words []string, n ast.Node, path, key string) {
	text, tk, ok := scalar(n)
	if !ok {
		what, ex := leafOf(v).Describe()
		do := "write " + what + " behind the colon"
		if len(ex) > 0 {
			do += ", as " + ex[0]
		}
		d.report(d.nodePlace(n), path, fmt.Sprintf("%q holds one value, and this is %s", key, shape(n)), do)
		return
	}
	if what, do, ok := read(leafOf(v), words, key, text, d.place(tk)); !ok {
		d.report(d.place(tk), path, what, do)
	}
}

// read gives a leaf its text and says what is wrong with the text.
func read(l Leaf, words []string, key, text string, at Pos) (what, do string, ok bool) {
	err := l.Read(text, at)
	var q *quantity.Error
	switch {
	case strings.TrimSpace(text) == "":
		return fmt.Sprintf("%q has no value", key), "write something between the quotes, or leave the key out", false
	case errors.As(err, &q):
		return fmt.Sprintf("%s %q: %s", key, text, q.Problem), q.Ask, false
	case err != nil:
		return fmt.Sprintf("%s %q: %s", key, text, err), "write it in another way", false
	case len(words) > 0 && !slices.Contains(words, text):
		do := "write " + orList(words)
		if near, ok := finding.Nearest(text, words); ok {
			do = fmt.Sprintf("did you mean %q? the words here are %s", near, orList(words))
		}
		return fmt.Sprintf("%s %q: not one of the words it can be", key, text), do, false
	}
	return "", "", true
}

// scalar returns the text of a node that is one value.
func scalar(n ast.Node) (text string, tk *token.Token, ok bool) {
	switch n := n.(type) {
	case *ast.LiteralNode:
		if n.Value == nil {
			return "", n.Start, true
		}
		return n.Value.Value, n.Start, true
	case *ast.StringNode, *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		tk := n.GetToken()
		return tk.Value, tk, true
	}
	return "", nil, false
}

// shape names what stands in a file in place of what was wanted.
func shape(n ast.Node) string {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "a section with keys"
	case *ast.SequenceNode:
		return "a list"
	}
	if text, _, ok := scalar(n); ok {
		if r := []rune(text); len(r) > 30 {
			text = string(r[:30]) + "..."
		}
		return fmt.Sprintf("the single value %q", text)
	}
	return "something else"
}

// orList writes words as "a, b or c", in quotes where a word has a blank.
func orList(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = w
		if strings.Contains(w, " ") {
			quoted[i] = strconv.Quote(w)
		}
	}
	n := len(quoted)
	if n < 2 {
		return strings.Join(quoted, "")
	}
	return strings.Join(quoted[:n-1], ", ") + " or " + quoted[n-1]
}
