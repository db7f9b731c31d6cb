package document

import (
	"reflect"
	"strings"
)

// kind tells how a struct field is written in a file.
type kind int

const (
	leafKind    kind = iota // one value
	sectionKind             // keys with values
	listKind                // entries
)

// planField is one key of a section.
type planField struct {
	index int
	name  string // Go name
	key   string
	need  bool
	words []string
	doc   string
	kind  kind
	typ   reflect.Type
	elem  kind // of a list: leafKind or sectionKind
	tag   reflect.StructTag
}

// plan is what the tags of a struct say.
type plan struct {
	fields []planField
	keys   []string
	pos    int // index of the Pos field, -1 if there is none
}

// plans caches plans for the time of one call, so that nothing is shared
// between calls.
type plans map[reflect.Type]*plan

func (ps plans) of(t reflect.Type) *plan {
	if p, ok := ps[t]; ok {
		return p
	}
	p := newPlan(t)
	ps[t] = p
	return p
}

func newPlan(t reflect.Type) *plan {
	p := &plan{pos: -1}
	for i := range t.NumField() {
		f := t.Field(i)
		key := f.Tag.Get("yaml")
		switch {
		case !f.IsExported():
			continue
		case f.Type == reflect.TypeFor[Pos]():
			p.pos = i
			continue
		case key == "" || key == "-":
			continue
		}
		pf := planField{
			index: i, name: f.Name, key: key, typ: f.Type, tag: f.Tag,
			need: f.Tag.Get("need") == "yes", doc: f.Tag.Get("doc"),
		}
		if w := f.Tag.Get("words"); w != "" {
			pf.words = strings.Split(w, "|")
		}
		pf.kind = kindOf(f.Type)
		if pf.kind == listKind {
			pf.elem = kindOf(f.Type.Elem())
		}
		p.fields = append(p.fields, pf)
		p.keys = append(p.keys, key)
	}
	return p
}

func kindOf(t reflect.Type) kind {
	switch {
	case reflect.PointerTo(t).Implements(reflect.TypeFor[Leaf]()):
		return leafKind
	case t.Kind() == reflect.Slice:
		return listKind
	case t.Kind() == reflect.Struct:
		return sectionKind
	}
	// A struct that cannot be read at all is a programmer's mistake, and one
	// that the first run of any test shows.
	panic("document: " + t.String() + " can be neither value, section nor list")
}

// find returns the field of a key.
func (p *plan) find(key string) (int, bool) {
	for i, k := range p.keys {
		if k == key {
			return i, true
		}
	}
	return 0, false
}

// example returns a text that could be written for the field.
func (f *planField) example() string {
	if len(f.words) > 0 {
		return f.words[0]
	}
	if f.kind != leafKind {
		return ""
	}
	if _, ex := leafOf(reflect.New(f.typ).Elem()).Describe(); len(ex) > 0 {
		return ex[0]
	}
	return ""
}

func leafOf(v reflect.Value) Leaf {
	l, _ := v.Addr().Interface().(Leaf) // kindOf has seen that it is one
	return l
}
