package answers

import (
	"strings"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/layout"
)

// oldPane is which pane of an upright tank a pane was.
type oldPane string

// The panes of a shop tank, which is open at its top.
const (
	oldBase oldPane = "bottom"
	oldLong oldPane = "long side"
	oldEnd  oldPane = "end"
	oldTop  oldPane = "top"
)

// faces of an enclosure, in the order in which they are told.
var turnedFaces = [...]string{"back", "left", "right", "bottom", "top", "front"}

// turnedTo tells which old pane stands at a face now. Laid with an end down and its
// open top to the front, a tank has its bottom at the back, its long sides left and
// right, and the other end on top. Laid on a long side it has its ends left and
// right. ok is false for an upright tank's open face and for a face that is open.
func turnedTo(turned, face string) (old oldPane, ok bool) {
	var m map[string]oldPane
	switch turned {
	case "on end":
		m = map[string]oldPane{"back": oldBase, "left": oldLong, "right": oldLong, "bottom": oldEnd, "top": oldEnd}
	case "on its back":
		m = map[string]oldPane{"back": oldBase, "left": oldEnd, "right": oldEnd, "bottom": oldLong, "top": oldLong}
	default:
		m = map[string]oldPane{"bottom": oldBase, "front": oldLong, "back": oldLong, "left": oldEnd, "right": oldEnd}
	}
	old, ok = m[face]
	return old, ok
}

// openFace is where the old open top is now.
func openFace(turned string) string {
	if turned == "on end" || turned == "on its back" {
		return "front"
	}
	return "top"
}

// wasPane reads the file's words for which pane one was; ok is false for words that
// are not known.
func wasPane(text string) (oldPane, bool) {
	text = strings.ToLower(text)
	for _, w := range []struct {
		word string
		old  oldPane
	}{{"bottom", oldBase}, {"base", oldBase}, {"floor", oldBase}, {"end", oldEnd}, {"short", oldEnd}, {"long", oldLong}, {"front", oldLong}, {"back", oldLong}, {"lid", oldTop}, {"top", oldTop}} {
		if strings.Contains(text, w.word) {
			return w.old, true
		}
	}
	return "", false
}

// oldBottom reports whether a pane is the old bottom of a shop tank: byName if the
// file says so, else by where it stands, whatever the file says it was: if the two
// differ one of them is wrong, and a drill is not what finds out.
func oldBottom(e *enclosure.Enclosure, p *design.Pane) (old, byName bool) {
	enc := &e.Design.Enclosure
	if enc.Made.Value != "from a tank" {
		return false, false
	}
	if was, ok := wasPane(p.Was.Value); ok && was == oldBase {
		return true, true
	}
	l := layout.Of(e)
	for i := range l.Panes {
		if q := &l.Panes[i]; q.Name == p.Name.Value {
			was, ok := turnedTo(enc.Turned.Value, q.At)
			return ok && was == oldBase, false
		}
	}
	return false, false
}
