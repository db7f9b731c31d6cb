package document

import "reflect"

// Room reports whether the struct that root points to has room for a value,
// section or list at a path, whatever the file gives: entries of lists need not be
// there. The error is a *Problem that says what the path might have meant.
func Room(root any, path string) error {
	steps, err := parsePath(path)
	if err != nil {
		return err
	}
	ps := plans{}
	t := reflect.TypeOf(root).Elem()
	done := ""
	for n, st := range steps {
		p := ps.of(t)
		i, ok := p.find(st.key)
		if !ok {
			return noKey(p.keys, st.key, done)
		}
		f := &p.fields[i]
		here, last := join(done, st.key), n == len(steps)-1
		if st.list && f.kind != listKind || !last && !st.list && f.kind == listKind {
			return wrongStep(f, here)
		}
		kind := f.kind
		t, done = f.typ, join(done, st.String())
		if st.list {
			t, kind = f.typ.Elem(), f.elem
		}
		if !last && kind == leafKind {
			return &Problem{done + " is a single value", "end the path there"}
		}
	}
	return nil
}
