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
