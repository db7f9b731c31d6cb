package catalogue

import (
	"testing"

	"rillwright/source"
)

// Every figure names an entry of the register, in a mark that the register
// knows, and claims no more than that entry: published needs a work that was
// read.
func TestSourcesResolve(t *testing.T) {
	for _, p := range builtin(t).Parts() {
		checkSource(t, p.Name, p.Source, p.Mark)
		for _, l := range []Loss{p.Loss, p.Through} {
			switch l.Method {
			case "", LossNone, LossBoreChange:
			default:
				checkSource(t, p.Name+" (loss)", l.Source, l.Mark)
			}
		}
	}
	for _, k := range Kinds() {
		loss, through := usualLoss(k, 0.5)
		for _, l := range []Loss{loss, through} {
			if l.Source != "" {
				checkSource(t, string(k)+" (usual loss)", l.Source, l.Mark)
			}
		}
	}
}

func checkSource(t *testing.T, what, key string, mark Mark) {
	t.Helper()
	s, ok := source.Lookup(source.Key(key))
	if !ok {
		t.Errorf("%s: no source %q", what, key)
	}
	if m, err := source.ParseMark(string(mark)); err != nil || m.String() != string(mark) {
		t.Errorf("%s: mark %q: %v", what, mark, err)
	}
	if mark == Published && s.Mark != source.Published {
		t.Errorf("%s: published, but %s is %s", what, key, s.Mark)
	}
}
