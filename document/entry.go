package document

import (
	"reflect"
	"strings"
)

// Block writes the values that are given in the struct that section points to as
// YAML, each key on a line of its own and what is below it on one line, for use
// with Append. Keys come in the order of the struct, texts as they were typed.
func Block(section any) string {
	v := reflect.ValueOf(section).Elem()
	c := given(v, plans{})
	var b strings.Builder
	for i, key := range c.keys {
		part := c.parts[i]
		if part.form != listed {
			b.WriteString(keyAnd(key, part.flow()) + "\n")
			continue
		}
		b.WriteString(flowText(key) + ":\n")
		for _, p := range part.parts {
			b.WriteString("  - " + p.flow() + "\n")
		}
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// Flow is Block on one line, between braces: "{ part: vinyl hose 16 mm }".
func Flow(section any) string {
	return given(reflect.ValueOf(section).Elem(), plans{}).flow()
}

// given returns what is given in a section.
func given(v reflect.Value, ps plans) *content {
	p := ps.of(v.Type())
	c := &content{form: keyed}
	leaf := func(v reflect.Value) *content {
		text, _ := leafOf(v).Source()
		return &content{form: single, text: text}
	}
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		switch f.kind {
		case leafKind:
			if leafOf(fv).Given() {
				c.add(f.key, leaf(fv))
			}
		case sectionKind:
			if part := given(fv, ps); len(part.parts) > 0 {
				c.add(f.key, part)
			}
		case listKind:
			list := &content{form: listed}
			for k := range fv.Len() {
				if f.elem == leafKind {
					list.parts = append(list.parts, leaf(fv.Index(k)))
				} else if part := given(fv.Index(k), ps); len(part.parts) > 0 {
					list.parts = append(list.parts, part)
				}
			}
			if len(list.parts) > 0 {
				c.add(f.key, list)
			}
		}
	}
	return c
}
