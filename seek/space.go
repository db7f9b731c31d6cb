package seek

import (
	"fmt"
	"reflect"
	"strings"

	"rillwright/answers"
	"rillwright/design"
)

// unit is a number of slots whose edits touch the same sections of the file, so that
// their choices are read together. Sections of different units are put side by side
// without reading any text again.
type unit struct {
	slots []int
	keys  []int            // of the fields of design.Design that the choices change
	reads []*design.Design // by the choices of its slots, the last slot's first; nil for what cannot be read
}

// section is the first part of a path: the section of the file that it is in.
func section(path string) string {
	if i := strings.IndexAny(path, ".["); i >= 0 {
		return path[:i]
	}
	return path
}

// units parts the slots by the sections that they change, and reads each choice.
func units(file string, data []byte, base *design.Design, slots []Slot) ([]unit, error) {
	in := make([]map[string]bool, len(slots))
	for i := range slots {
		in[i] = map[string]bool{}
		for _, c := range slots[i].Choices {
			edits, ok := base.Replanned(c.Edits)
			if !ok {
				return nil, fmt.Errorf("%s: a measured fact names one of its pieces by number, and the numbers change with %q", slots[i].Word, c.Do)
			}
			for _, e := range edits {
				in[i][section(e.Path)] = true
			}
		}
	}
	group := make([]int, len(slots)) // the first slot of each one's unit
	for i := range slots {
		group[i] = i
		for k := range i {
			for key := range in[i] {
				if in[k][key] {
					from, to := group[k], group[i]
					for l := range i + 1 {
						if group[l] == from {
							group[l] = min(from, to)
						} else if group[l] == to {
							group[l] = min(from, to)
						}
					}
				}
			}
		}
	}
	var out []unit
	for g := range slots {
		var u unit
		keys := map[string]bool{}
		for i := range slots {
			if group[i] == g {
				u.slots = append(u.slots, i)
				for k := range in[i] {
					keys[k] = true
				}
			}
		}
		if len(u.slots) == 0 {
			continue
		}
		t := reflect.TypeFor[design.Design]()
		for f := range t.NumField() {
			if name, _, _ := strings.Cut(t.Field(f).Tag.Get("yaml"), ","); keys[name] {
				u.keys = append(u.keys, f)
			}
		}
		if err := u.read(file, data, base, slots); err != nil {
			return nil, err
		}
		out = append(out, u)
	}
	return out, nil
}

// mostReads is how many texts of one unit are read at most.
const mostReads = 5000

// read reads the file with every choice of the unit's slots.
func (u *unit) read(file string, data []byte, base *design.Design, slots []Slot) error {
	n := 1
	for _, s := range u.slots {
		if n *= len(slots[s].Choices); n > mostReads {
			return fmt.Errorf("%d ways and more to choose in one section of the file are too many: leave less of it open", n)
		}
	}
	u.reads = make([]*design.Design, n)
	answers.InParallel(n, func(at int) {
		var edits []design.Edit
		for i, rest := len(u.slots)-1, at; i >= 0; i-- {
			c := slots[u.slots[i]].Choices
			edits = append(append([]design.Edit(nil), c[rest%len(c)].Edits...), edits...)
			rest /= len(c)
		}
		if len(edits) == 0 {
			u.reads[at] = base
			return
		}
		edits, ok := base.Replanned(edits)
		if !ok {
			return
		}
		text, err := design.Apply(data, edits)
		if err != nil {
			return
		}
		if d, found := design.Read(file, text); !found.HasErrors() {
			u.reads[at] = d
		}
	})
	return nil
}

// at returns which text of the unit a choice of all slots takes.
func (u *unit) at(choice []int, slots []Slot) int {
	at := 0
	for _, s := range u.slots {
		at = at*len(slots[s].Choices) + choice[s]
	}
	return at
}

// compose puts a design together of what each unit reads; nil if one cannot be read.
func compose(base *design.Design, us []unit, choice []int, slots []Slot) *design.Design {
	d := *base
	to := reflect.ValueOf(&d).Elem()
	for i := range us {
		from := us[i].reads[us[i].at(choice, slots)]
		if from == nil {
			return nil
		}
		if from == base {
			continue
		}
		v := reflect.ValueOf(from).Elem()
		for _, k := range us[i].keys {
			to.Field(k).Set(v.Field(k))
		}
	}
	return &d
}
