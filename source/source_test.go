package source

import (
	"regexp"
	"testing"
)

func TestRegister(t *testing.T) {
	key := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	list := All()
	for i, s := range list {
		if !key.MatchString(string(s.Key)) || s.Title == "" {
			t.Errorf("%+v", s)
		}
		if m, err := ParseMark(s.Mark.String()); err != nil || m != s.Mark {
			t.Errorf("%s has no mark that can be read", s.Key)
		}
		if i > 0 && list[i-1].Key == s.Key {
			t.Errorf("%s stands twice", s.Key)
		}
		if got, ok := Lookup(s.Key); !ok || got != s {
			t.Errorf("Lookup(%s) gives %+v", s.Key, got)
		}
	}
	if _, ok := Lookup("no-such-source"); ok {
		t.Error("found a source that is not there")
	}
	if _, err := ParseMark("certain"); err == nil {
		t.Error("read a mark that is none")
	}
}

func TestString(t *testing.T) {
	s := Source{Who: "Darby", Year: 2001, Title: "Chemical Engineering Fluid Mechanics", Where: "chapter 7", Mark: Published}
	if got, want := s.String(), "Darby 2001, Chemical Engineering Fluid Mechanics, chapter 7 ("+Published.String()+")"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestStringNobody(t *testing.T) {
	s := Source{Year: 2020, Title: "measured losses of tees", Where: "Water 12(3):895", Mark: Published}
	if got, want := s.String(), "measured losses of tees, Water 12(3):895, 2020 (published)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// Where a note compares with another entry by its key, that entry must be there.
func TestNotesResolve(t *testing.T) {
	key := regexp.MustCompile(`\b[a-z]+(-[a-z0-9]+)*-[0-9][a-z0-9-]*\b`)
	n := 0
	for _, s := range All() {
		for _, k := range key.FindAllString(s.Note, -1) {
			n++
			if _, ok := Lookup(Key(k)); !ok {
				t.Errorf("%s: its note names %q, which is not listed", s.Key, k)
			}
		}
	}
	if n < 10 {
		t.Errorf("only %d keys found in notes: the search is broken", n)
	}
}

// How each work was had is the heart of the register: what was only remembered
// must not pass for read. The marks are those of the notes that the formulas were
// collected in; an entry that is looked up later changes here too.
func TestMarks(t *testing.T) {
	for mark, keys := range map[Mark][]Key{
		Published:      {"clamond-2009", "perry-9", "astm-d1785", "astm-f876", "darby-2001", "hooper-1981", "usbr-water-measurement", "extrand-2017", "en-572-2", "en-12150-1", "tank-glass-2001", "team-lifting", "waterproofing-handbook"},
		FromMemory:     {"tanaka-2001", "moody-1944", "gardel-1957", "wu-2002", "lichtarowicz-1965", "keller-karmeli-1974", "asabe-ep405", "asabe-ep458", "wyly-eaton-1961", "iso-4065", "en-iso-1452-2", "ansi-hi-9-8", "asme-a112-1-2", "en-1717", "lee-2008", "en-16612", "astm-e1300", "astm-c1036", "astm-c1401", "etag-002", "heywood-1952", "todini-pilati-1987", "memory"},
		Derived:        {"nusselt-1916", "hartley-murgatroyd-1964", "borda-carnot"},
		CommonPractice: {"practice"},
		Assumed:        {"assumed"},
		Measured:       {"measured"},
	} {
		for _, k := range keys {
			if s, ok := Lookup(k); !ok || s.Mark != mark {
				t.Errorf("%s: found %v, marked %v, want %v", k, ok, s.Mark, mark)
			}
		}
	}
}
