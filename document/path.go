package document

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"rillwright/finding"
)

// Problem tells why a path or text cannot be used, in the words of a finding.
type Problem struct {
	What, Do string
}

// Error returns both halves.
func (p *Problem) Error() string {
	if p.Do == "" {
		return p.What
	}
	return p.What + ": " + p.Do
}

// step is one part of a path: a key, and an entry if the key is a list.
type step struct {
	key   string
	entry string
	list  bool
}

func (st step) String() string {
	if st.list {
		return st.key + "[" + st.entry + "]"
	}
	return st.key
}

// parsePath cuts a path like "drains[main drain].lip" into its steps.
func parsePath(path string) ([]step, error) {
	var steps []step
	rest := strings.TrimSpace(path)
	for {
		end := strings.IndexAny(rest, ".[")
		if end < 0 {
			end = len(rest)
		}
		st := step{key: strings.TrimSpace(rest[:end])}
		if rest = rest[end:]; strings.HasPrefix(rest, "[") {
			stop := entryEnd(rest)
			if stop < 0 {
				return nil, &Problem{fmt.Sprintf("path %q has a [ that is not closed", path), `write the entry's name between [ and ], as "drains[main drain].lip"`}
			}
			st.list, st.entry = true, strings.TrimSpace(rest[1:stop])
			rest = rest[stop+1:]
		}
		if st.key == "" {
			return nil, &Problem{fmt.Sprintf("path %q has an empty part", path), `write it as "drains[main drain].lip"`}
		}
		steps = append(steps, st)
		if rest == "" {
			return steps, nil
		}
		rest = rest[1:] // the dot
	}
}

// entryEnd finds the bracket that closes an entry's name, which may itself hold
// brackets and dots: it is the first one behind which the path ends or goes on.
func entryEnd(rest string) int {
	for i := 1; i < len(rest); i++ {
		if rest[i] == ']' && (i+1 == len(rest) || rest[i+1] == '.') {
			return i
		}
	}
	return -1
}

// Spot is one value of a struct that Decode fills, with its path in the file.
type Spot struct {
	Path string
	Leaf Leaf
	// Section is the place of the section it stands in; the zero Pos means that
	// the file does not have that section.
	Section Pos
	Key     string
	Tag     reflect.StructTag
	words   []string
}

// Read gives the value a new text and place, as Decode would. On a problem the
// value is zero, as Decode leaves it.
func (sp Spot) Read(text string, at Pos) *Problem {
	if what, do, ok := read(sp.Leaf, sp.words, sp.Key, text, at); !ok {
		return &Problem{what, do}
	}
	return nil
}

// Walk calls visit for every value that the struct behind root has room for, in
// the order of the struct, whether the file gives it or not. Paths name list
// entries by their name if they have one, else by their number from 1.
func Walk(root any, visit func(Spot)) {
	w := walker{plans: plans{}, visit: visit}
	w.section(reflect.ValueOf(root).Elem(), "")
}

type walker struct {
	plans plans
	visit func(Spot)
}

func (w *walker) section(v reflect.Value, path string) {
	p := w.plans.of(v.Type())
	at := posOf(v, p)
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		fp := join(path, f.key)
		switch f.kind {
		case leafKind:
			w.visit(Spot{Path: fp, Leaf: leafOf(fv), Section: at, Key: f.key, Tag: f.tag, words: f.words})
		case sectionKind:
			w.section(fv, fp)
		case listKind:
			for j := range fv.Len() {
				e := fv.Index(j)
				if f.elem == leafKind {
					w.visit(Spot{Path: numbered(fp, j), Leaf: leafOf(e), Section: at, Key: f.key, Tag: f.tag, words: f.words})
					continue
				}
				if name := w.nameOf(e); name != "" {
					w.section(e, fp+"["+name+"]")
				} else {
					w.section(e, numbered(fp, j))
				}
			}
		}
	}
}

func numbered(path string, index int) string { return path + "[" + strconv.Itoa(index+1) + "]" }

func posOf(v reflect.Value, p *plan) Pos {
	if p.pos < 0 {
		return Pos{}
	}
	at, _ := v.Field(p.pos).Interface().(Pos) // newPlan took only a Pos for it
	return at
}

func (w *walker) nameOf(v reflect.Value) string {
	p := w.plans.of(v.Type())
	if i, ok := p.find("name"); ok && p.fields[i].kind == leafKind {
		text, _ := leafOf(v.Field(p.fields[i].index)).Source()
		if strings.TrimSpace(text) != "" {
			return text
		}
	}
	return ""
}

// Lookup finds the value at a path. The error is a *Problem that says what the
// path might have meant.
func Lookup(root any, path string) (Spot, error) {
	steps, err := parsePath(path)
	if err != nil {
		return Spot{}, err
	}
	w := walker{plans: plans{}}
	v := reflect.ValueOf(root).Elem()
	done := ""
	for n, st := range steps {
		p := w.plans.of(v.Type())
		i, ok := p.find(st.key)
		if !ok {
			return Spot{}, noKey(p.keys, st.key, done)
		}
		f := &p.fields[i]
		at, fv := posOf(v, p), v.Field(f.index)
		here := join(done, st.String())
		if st.list != (f.kind == listKind) {
			return Spot{}, wrongStep(f, join(done, st.key))
		}
		kind := f.kind
		if st.list {
			if fv, ok = w.pick(fv, f.elem, st.entry); !ok {
				return Spot{}, w.noEntry(v.Field(f.index), f, st.entry, join(done, st.key))
			}
			kind = f.elem
		}
		switch last := n == len(steps)-1; {
		case kind == leafKind && last:
			return Spot{Path: here, Leaf: leafOf(fv), Section: at, Key: f.key, Tag: f.tag, words: f.words}, nil
		case kind == leafKind:
			return Spot{}, &Problem{here + " is a single value", fmt.Sprintf("end the path there: %q", here)}
		case last:
			keys := w.plans.of(fv.Type()).keys
			return Spot{}, &Problem{here + " holds several values", fmt.Sprintf("say which: %q, one of %s", here+"."+keys[0], strings.Join(keys, ", "))}
		}
		v, done = fv, here
	}
	return Spot{}, &Problem{"the path is empty", ""}
}

func noKey(keys []string, key, in string) *Problem {
	what := fmt.Sprintf("there is no %q", key)
	if in != "" {
		what += " in " + in
	}
	if near, ok := finding.Nearest(key, keys); ok {
		return &Problem{what, fmt.Sprintf("did you mean %q?", join(in, near))}
	}
	return &Problem{what, "the keys there are: " + strings.Join(keys, ", ")}
}

func wrongStep(f *planField, here string) *Problem {
	if f.kind == listKind {
		return &Problem{here + " is a list", fmt.Sprintf("say which entry: %q, or its number from 1", here+"[its name]")}
	}
	return &Problem{here + " is not a list", fmt.Sprintf("leave the brackets out: %q", here)}
}

// pick finds an entry by its name, else by its number from 1.
func (w *walker) pick(list reflect.Value, elem kind, entry string) (reflect.Value, bool) {
	if elem == sectionKind {
		for i := range list.Len() {
			if w.nameOf(list.Index(i)) == entry {
				return list.Index(i), true
			}
		}
	}
	if n, err := strconv.Atoi(entry); err == nil && n >= 1 && n <= list.Len() {
		return list.Index(n - 1), true
	}
	return reflect.Value{}, false
}

func (w *walker) noEntry(list reflect.Value, f *planField, entry, here string) *Problem {
	var names []string
	for i := range list.Len() {
		name := strconv.Itoa(i + 1)
		if f.elem == sectionKind {
			if given := w.nameOf(list.Index(i)); given != "" {
				name = given
			}
		}
		names = append(names, name)
	}
	what := fmt.Sprintf("%s has no entry %q", here, entry)
	if near, ok := finding.Nearest(entry, names); ok {
		return &Problem{what, fmt.Sprintf("did you mean %q?", here+"["+near+"]")}
	}
	if len(names) == 0 {
		return &Problem{what, "the list has no entries"}
	}
	return &Problem{what, "its entries are: " + strings.Join(names, ", ")}
}
