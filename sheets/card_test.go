package sheets

import (
	"fmt"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/examples"
)

// situations are those of the two examples, put by hand; figures from the hand
// calculations beside them.
func situations() []answers.Situation {
	return []answers.Situation{
		{
			Sign:  "Water runs over the dam",
			Do:    []string{"Pull the plug of the main pump.", "Put towels in front of the dam.", "Clear the strainer of the drain before it runs again."},
			Water: "What is in the sump above the pump's inlet can reach the floor in front of the dam, about as much as a bucket holds.",
		},
		{
			Sign:  "The pump is loud and no water comes down the wall",
			Do:    []string{"Pull the plug of the main pump: it draws air.", "Look for water on the floor.", "Top up the sump to its mark and only then plug it in again."},
			Water: "Nowhere, if the floor is dry: the sump ran low by evaporation.",
		},
		{
			Sign:  "The power is off",
			Do:    []string{"Nothing: the water runs back to the sump and stays under its rim.", "When the power is back, look whether water comes down the wall."},
			Water: "Back to the sump.",
		},
		{
			Sign:  "The RCD or GFCI has tripped",
			Do:    []string{"Leave it off.", "Take the plugs out with dry hands, then look which thing is wet."},
			Water: "",
		},
	}
}

func TestCardGolden(t *testing.T) {
	for _, c := range []struct {
		name string
		file []byte
	}{{"corridor-cabinet", examples.CorridorCabinet}, {"counter-wall", examples.CounterWall}} {
		e := resolved(t, c.file)
		list := EmergencyCard(e, situations())
		if len(list) != 1 {
			t.Fatalf("%s: %d sheets", c.name, len(list))
		}
		golden(t, c.name+"-card", written(t, list[0]))
		if all := texts(list); !strings.Contains(all, e.Design.Place.Power.Value) {
			t.Errorf("the power supply is not on the card:\n%s", all)
		}
	}
}

// Whatever is on the list is on the card, on as many sheets as it takes, and
// boxes do not overlap.
func TestCardHoldsAll(t *testing.T) {
	e := resolved(t, examples.CounterWall)
	for n := range 40 {
		var list []answers.Situation
		want := 0
		for i := range n % 13 {
			s := answers.Situation{Sign: fmt.Sprintf("sign-%d- of %s", i, strings.Repeat("something odd ", n%4))}
			for k := range 1 + n*i%50 {
				s.Do = append(s.Do, fmt.Sprintf("do-%d-%d- %s", i, k, strings.Repeat("quickly and with care ", k%5)))
				want++
			}
			s.Water = strings.Repeat(fmt.Sprintf("water-%d- ", i), n*i%170)
			want += n * i % 170
			list = append(list, s)
		}
		sheets := EmergencyCard(e, list)
		for _, s := range sheets {
			written(t, s)
			tallest(t, s)
		}
		got := texts(sheets)
		if k := strings.Count(got, "do-") + strings.Count(got, "water-"); k != want {
			t.Fatalf("%d: %d steps and words of %d are on the card", n, k, want)
		}
		for i := range list {
			if !strings.Contains(got, fmt.Sprintf("sign-%d-", i)) {
				t.Fatalf("%d: sign %d is missing", n, i)
			}
		}
	}
}

// tallest checks that boxes lie apart and capitals are large.
func tallest(t *testing.T, s drawing.Sheet) {
	t.Helper()
	var boxes []drawing.Box
	for _, i := range s.Items {
		switch x := i.(type) {
		case *drawing.Text:
			if x.Height < 3.5 {
				t.Errorf("%q has capitals of %g mm", x.Text, x.Height)
			}
		case *drawing.Path:
			if !x.Closed {
				continue
			}
			for _, b := range boxes {
				if b.Overlaps(x.Bounds()) {
					t.Errorf("boxes %+v and %+v overlap", b, x.Bounds())
				}
			}
			boxes = append(boxes, x.Bounds())
		}
	}
}
