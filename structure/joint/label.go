package joint

import (
	"slices"
	"strings"
)

// Label is what a sealant's label says that matters in a tank.
type Label struct {
	Good  []string // words for it
	Bad   []string // words against it
	Smell string   // what it gives off as it cures, "" if the label does not say
}

// Verdict words of a Label.
const (
	LabelRight   = "right"
	LabelWrong   = "wrong"
	LabelUnclear = "not clear"
)

// Verdict returns LabelWrong if any word is against the sealant, LabelRight if one
// is for it, else LabelUnclear: ask for the data sheet.
func (l Label) Verdict() string {
	switch {
	case len(l.Bad) > 0:
		return LabelWrong
	case len(l.Good) > 0:
		return LabelRight
	}
	return LabelUnclear
}

// ReadLabel looks for words on a sealant's label. For water with plants or
// animals it should be plain 100 % silicone with no mould inhibitor; "kitchen",
// "bath" and "sanitary" types hold a fungicide as a rule. "No mould inhibitor"
// and the like speak for it. Common practice, no source: nobody tests a label.
func ReadLabel(text string) Label {
	s := " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '%')
	}), " ") + " "
	s = strings.NewReplacer("mold", "mould", " percent", "%", " per cent", "%", " %", "%").Replace(s)
	var l Label
	// What is denied is taken out first, or it would count as said.
	for _, no := range [...]string{"no ", "without ", "free of ", "contains no ", "non "} {
		for _, w := range inhibitors() {
			for _, ing := range [...]string{"", "any ", "added ", "a "} {
				if phrase := " " + no + ing + w; strings.Contains(s, phrase) {
					s = strings.ReplaceAll(s, phrase, " ")
					l.Good = appendOnce(l.Good, "no "+w)
				}
			}
		}
	}
	for _, w := range inhibitors() {
		if strings.Contains(s, " "+w) {
			l.Bad = appendOnce(l.Bad, w)
		}
	}
	for _, w := range [...]string{
		"kitchen", "bath", "sanitary", "bathroom", "shower", "siliconised", "siliconized", "acrylic sealant",
		"acrylic caulk", "latex", "paintable", "polyurethane sealant", "hybrid", "ms polymer",
	} {
		if strings.Contains(s, " "+w+" ") {
			l.Bad = appendOnce(l.Bad, w)
		}
	}
	if strings.Contains(s, " 100% silicone") || strings.Contains(s, " pure silicone") {
		l.Good = appendOnce(l.Good, "100 % silicone")
	} else {
		l.Good = nil // that it lacks a poison does not make it silicone
	}
	switch {
	case strings.Contains(s, " acet") || strings.Contains(s, " vinegar"):
		l.Smell = "vinegar: acetic acid, air the room; it attacks bare metal"
	case strings.Contains(s, " oxime"):
		l.Smell = "oxime: air the room"
	case strings.Contains(s, " alkoxy") || strings.Contains(s, " alcohol"):
		l.Smell = "alcohol: air the room"
	case strings.Contains(s, " neutral"):
		l.Smell = "oxime or alcohol (neutral cure; the label does not say which): air the room"
	}
	return l
}

// inhibitors are words for what keeps mould off by poison.
func inhibitors() []string {
	return []string{
		"mould inhibitor", "mould resist", "mould proof", "anti mould", "mildew", "fungicid",
		"fungus", "biocid", "antibacterial", "anti bacterial", "antimicrobial", "antifungal", "mould",
	}
}

func appendOnce(list []string, w string) []string {
	if slices.Contains(list, w) {
		return list
	}
	return append(list, w)
}
