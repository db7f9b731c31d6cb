package document

import "testing"

func TestLookup(t *testing.T) {
	var s shed
	if list := Decode("f", []byte(soundShed), &s); len(list) > 0 {
		t.Fatal(show(list))
	}
	for _, c := range []struct{ path, want string }{
		{"title", "My shed"},
		{"room.width", "1.50 m"},
		{"room.door.cost", "45 EUR"},
		{"shelf[low].length", "30 cm"},
		{"shelf[1].holes[2].size", "1/2 in"},
		{"labels[2]", "two, three"},
		{" shelf[ top ].length ", "300 mm"},
		{"room.depth", ""},
	} {
		sp, err := Lookup(&s, c.path)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		if got, _ := sp.Leaf.Source(); got != c.want {
			t.Errorf("%s = %q, want %q", c.path, got, c.want)
		}
	}
	for _, c := range []struct{ path, want string }{
		{"titel", `there is no "titel": did you mean "title"?`},
		{"room.widht", `there is no "widht" in room: did you mean "room.width"?`},
		{"room.height", `there is no "height" in room: the keys there are: width, depth, door`},
		{"room", `room holds several values: say which: "room.width", one of width, depth, door`},
		{"shelf.length", `shelf is a list: say which entry: "shelf[its name]", or its number from 1`},
		{"shelf[lov].length", `shelf has no entry "lov": did you mean "shelf[low]"?`},
		{"shelf[cellar].length", `shelf has no entry "cellar": its entries are: top, low`},
		{"shelf[3].length", `shelf has no entry "3": its entries are: top, low`},
		{"room[1].width", `room is not a list: leave the brackets out: "room"`},
		{"title.x", `title is a single value: end the path there: "title"`},
		{"", `path "" has an empty part: write it as "drains[main drain].lip"`},
		{"room..width", `path "room..width" has an empty part: write it as "drains[main drain].lip"`},
	} {
		if _, err := Lookup(&s, c.path); err == nil || err.Error() != c.want {
			t.Errorf("%q: %v, want %s", c.path, err, c.want)
		}
	}
}

// Every path that Walk gives must lead Lookup to the same value.
func TestWalkAgreesWithLookup(t *testing.T) {
	var s shed
	Decode("f", []byte(soundShed), &s)
	n := 0
	Walk(&s, func(sp Spot) {
		n++
		if got, err := Lookup(&s, sp.Path); err != nil || got.Leaf != sp.Leaf || got.Path != sp.Path {
			t.Errorf("%s: Lookup gives %v, %v", sp.Path, got, err)
		}
	})
	if n != 17 {
		t.Errorf("%d values visited, want 17", n)
	}
}
