package document

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"

	"github.com/invopop/jsonschema"
)

// Schema returns the JSON Schema (draft 2020-12) of the struct that of points
// to, made from the tags that Decode goes by, so that an editor can complete
// keys and words while a file is typed. It is a help and no judge: it knows
// nothing of units, and what Decode says counts.
func Schema(of any) ([]byte, error) {
	t := reflect.TypeOf(of)
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	r := &jsonschema.Reflector{
		Anonymous: true, ExpandedStruct: true, FieldNameTag: "yaml",
		RequiredFromJSONSchemaTags: true, Mapper: leafSchema,
	}
	root := r.ReflectFromType(t)
	b := schemaBuilder{plans: plans{}, defs: root.Definitions, done: map[reflect.Type]bool{}}
	b.section(t, root)
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(root); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// leafSchema is the schema of a Field, from what its type says of itself.
func leafSchema(t reflect.Type) *jsonschema.Schema {
	if t.Kind() != reflect.Struct || kindOf(t) != leafKind {
		return nil
	}
	leaf := leafOf(reflect.New(t).Elem())
	what, examples := leaf.Describe()
	s := &jsonschema.Schema{Description: what}
	for _, e := range examples {
		s.Examples = append(s.Examples, e)
	}
	// Text and shares may look like numbers to a YAML reader; Decode goes by
	// what was typed.
	any3 := []*jsonschema.Schema{{Type: "string"}, {Type: "number"}, {Type: "boolean"}}
	switch leaf := leaf.(type) {
	case *Field[int]:
		s.Type, s.Examples = "integer", nil
	case *Field[bool]:
		s.Enum, s.Examples = []any{true, false, "yes", "no"}, nil
	case *Field[string]:
		s.AnyOf = any3
	default:
		if _, err := readBare(leaf); err == nil {
			s.AnyOf = any3[:2]
		} else {
			s.Type = "string"
		}
	}
	return s
}

// readBare tries whether a leaf takes a number without a unit.
func readBare(l Leaf) (Leaf, error) { return l, l.Read("1", Pos{}) }

type schemaBuilder struct {
	plans plans
	defs  jsonschema.Definitions
	done  map[reflect.Type]bool
}

// section adds to a struct's schema what its tags say.
func (b *schemaBuilder) section(t reflect.Type, s *jsonschema.Schema) {
	if s == nil || s.Properties == nil || b.done[t] {
		return
	}
	b.done[t] = true
	p := b.plans.of(t)
	for i := range p.fields {
		f := &p.fields[i]
		prop, ok := s.Properties.Get(f.key)
		if !ok {
			continue
		}
		if f.doc != "" {
			prop.Description = strings.TrimSuffix(f.doc, ".") + "."
			if f.kind == leafKind && len(f.words) == 0 {
				if what, ex := leafOf(reflect.New(f.typ).Elem()).Describe(); len(ex) > 0 {
					prop.Description += " Write " + what + "."
				}
			}
		}
		if len(f.words) > 0 {
			prop.AnyOf, prop.Type = nil, "string"
			for _, w := range f.words {
				prop.Enum = append(prop.Enum, w)
			}
		}
		if f.need {
			s.Required = append(s.Required, f.key)
		}
		switch f.kind {
		case sectionKind:
			b.section(f.typ, b.defs[f.typ.Name()])
		case listKind:
			if f.need {
				one := uint64(1)
				prop.MinItems = &one
			}
			if f.elem == sectionKind {
				b.section(f.typ.Elem(), b.defs[f.typ.Elem().Name()])
			}
		}
	}
}
