package quantity

import (
	"strings"
	"sync"
)

// byName finds a unit by its printed name or by any of its names in lower case.
// The map is made once from the table and never changes.
var byName = sync.OnceValue(func() map[string]*unit {
	m := make(map[string]*unit, 3*len(unitTable))
	for i := range unitTable {
		u := &unitTable[i]
		m[u.name()] = u
		for n := range strings.SplitSeq(u.names, "|") {
			m[strings.ToLower(n)] = u
		}
	}
	return m
})

// name returns the name under which a unit is printed.
func (u *unit) name() string {
	name, _, _ := strings.Cut(u.names, "|")
	return name
}

// findUnit returns the unit that a word names, nil if none. The common spellings
// are found as they stand; the others are first brought into one form, which is
// returned too.
func findUnit(word string) (u *unit, form string) {
	units := byName()
	if u = units[word]; u != nil || word == "" {
		return u, word
	}
	if word == "mPa" {
		return nil, word // a thousandth of a Pa or a million? see ambiguous
	}
	if u = units[strings.ToLower(word)]; u != nil {
		return u, word
	}
	form = canonical(word)
	return units[form], form
}

// canonical brings a unit as typed into the one form that byName knows: lower
// case, short words, a stroke for "per". "Litres per hour" becomes "l/h", "US
// GPH per inch" "us gal/h/in".
func canonical(word string) string {
	word = strings.ReplaceAll(strings.ToLower(word), "u.s.", "us")
	b := make([]byte, 0, len(word)+8)
	stroke := true // no blank wanted before the next word
	for word != "" {
		end := strings.IndexAny(word, " /.")
		if end < 0 {
			end = len(word)
		}
		part := word[:end]
		switch part {
		case "":
		case "per":
			b, stroke = append(b, '/'), true
		case "of":
		default:
			if !stroke {
				b = append(b, ' ')
			}
			b, stroke = append(b, short(part)...), false
		}
		if end < len(word) {
			if word[end] == '/' {
				b, stroke = append(b, '/'), true
			}
			end++
		}
		word = word[end:]
	}
	return string(b)
}

// short returns the short form of a word in a unit.
func short(word string) string {
	switch word {
	case "millimetre", "millimetres", "millimeter", "millimeters":
		return "mm"
	case "centimetre", "centimetres", "centimeter", "centimeters":
		return "cm"
	case "metre", "metres", "meter", "meters":
		return "m"
	case "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers":
		return "um"
	case "inch", "inches", "ins":
		return "in"
	case "foot", "feet":
		return "ft"
	case "yard", "yards", "yds":
		return "yd"
	case "square":
		return "sq"
	case "cubic":
		return "cu"
	case "litre", "litres", "liter", "liters", "ltr", "ltrs":
		return "l"
	case "millilitre", "millilitres", "milliliter", "milliliters":
		return "ml"
	case "gallon", "gallons", "gals":
		return "gal"
	case "quart", "quarts", "qts":
		return "qt"
	case "pint", "pints", "pts":
		return "pt"
	case "fluid":
		return "fl"
	case "ounce", "ounces":
		return "oz"
	case "imperial", "uk":
		return "imp"
	case "second", "seconds", "sec", "secs":
		return "s"
	case "minute", "minutes", "mins":
		return "min"
	case "hour", "hours", "hr", "hrs":
		return "h"
	case "day":
		return "d"
	case "week", "wks":
		return "wk"
	case "gram", "grams":
		return "g"
	case "kilogram", "kilograms", "kilo", "kilos", "kgs":
		return "kg"
	case "tonne", "tonnes":
		return "t"
	case "pound", "pounds", "lbs":
		return "lb"
	case "watt", "watts":
		return "w"
	case "kilowatt", "kilowatts":
		return "kw"
	case "celsius":
		return "c"
	case "fahrenheit":
		return "f"
	case "kelvin":
		return "k"
	case "degree", "degrees":
		return "deg"
	case "percent":
		return "%"
	case "lph":
		return "l/h"
	case "lpm":
		return "l/min"
	case "lps":
		return "l/s"
	case "gph":
		return "gal/h"
	case "gpm":
		return "gal/min"
	case "usgph":
		return "us gal/h"
	case "usgpm":
		return "us gal/min"
	case "usgal":
		return "us gal"
	case "fps":
		return "ft/s"
	}
	return word
}

// ambiguous returns the question to put to a unit word, in its canonical form,
// that could mean two things, with the answers to choose from.
func ambiguous(form string, dim dimension) (problem, ask string) {
	switch form {
	case "mPa":
		return "a thousandth of a pascal or a million pascals?", "write MPa or Pa"
	case "hp", "horsepower", "ps":
		return "metric or imperial horsepower?", "write the power in W, as the label has it"
	case "ton", "tons":
		return "which ton?", "write t (1000 kg), kg or lb"
	case "oz", "ozs":
		if dim == dimVolume {
			return "an ounce of weight, or which fluid ounce?", "write US fl oz (29.57 ml) or imp fl oz (28.41 ml)"
		}
	case "deg", "°":
		if dim == dimTemperature {
			return "degrees on which scale?", "write 22 C or 72 F"
		}
	}
	us := byName()["us "+form]
	if us == nil {
		return "", ""
	}
	american := us.name()
	ask = "write " + american + " or imp" + american[len("US"):]
	switch form {
	case "gal":
		return "US or imperial gallon?", "write US gal (3.785 L) or imp gal (4.546 L)"
	case "fl oz":
		return "US or imperial fluid ounce?", "write US fl oz (29.57 ml) or imp fl oz (28.41 ml)"
	case "qt", "pt":
		return "US or imperial measure?", ask
	}
	return "US or imperial gallons?", ask
}
