package record

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/hydraulics"
	"rillwright/quantity"
)

// ParseValue reads the figures of a reading, in SI as its kind tells:
//
//	Flow    10 L in 43 s, 44 s, 43 s;  2 US gal in 33 s, 10 L in 43 s;  800 L/h
//	Height  12 mm;  1/2 in, 12 mm
//	Cups    40 38 41 ml in 30 s;  40 ml, 1.4 US fl oz, 41 ml;  85 %  (that is one figure)
//	Time    43 s
//	Skin    3 mm in 24 h;  1/8 in in 36 h, 4 mm in 3 days
//	Seen    ok;  not ok
//	Event   -
//
// Figures are parted by commas; a unit written once at the end holds for all.
func ParseValue(k Kind, text string) ([]float64, error) {
	text = strings.TrimSpace(text)
	switch k {
	case Event:
		if text != "" && text != "-" {
			return nil, fmt.Errorf("%q is a figure where none belongs: put what is worth saying into the note, behind #", text)
		}
		return nil, nil
	case Seen:
		switch strings.ToLower(text) {
		case "ok", "yes", "passed":
			return []float64{1}, nil
		case "not ok", "no", "failed":
			return []float64{0}, nil
		}
		return nil, fmt.Errorf("%q is neither: write ok, or not ok", text)
	case Flow:
		return flows(text)
	case Cups:
		return cups(text)
	case Height:
		return figures(items(text), func(t string) (float64, error) {
			v, err := quantity.ParseLength(t)
			return float64(v), err
		})
	case Time:
		return figures(items(text), seconds)
	case Skin:
		return figures(items(text), func(t string) (float64, error) {
			deep, after, err := skin(t)
			return deep / math.Sqrt(after), err
		})
	}
	return nil, fmt.Errorf("kind %d of reading is not known", k)
}

// skin reads how deep sealant has cured, m, and after what time, s.
func skin(t string) (deep, after float64, err error) {
	much, took, timed := strings.Cut(t, " in ")
	if rest, inches := strings.CutPrefix(took, "in "); inches { // 1/8 in in 36 h
		much, took = much+" in", rest
	}
	if !timed {
		return 0, 1, fmt.Errorf("%q does not say after what time: write 3 mm in 24 h", t)
	}
	v, err := quantity.ParseLength(much)
	if err != nil {
		return 0, 1, err
	}
	if after, err = seconds(took); err != nil {
		return 0, 1, err
	}
	return float64(v), after, nil
}

// Beads returns how deep each test bead of a reading of Skin had cured, m, and after
// what time, s.
func (r *Reading) Beads() (deep, after []float64) {
	if r.Kind != Skin {
		return nil, nil
	}
	for _, t := range items(r.Text) {
		d, a, err := skin(t)
		if err != nil {
			return nil, nil
		}
		deep, after = append(deep, d), append(after, a)
	}
	return deep, after
}

func seconds(t string) (float64, error) {
	v, err := quantity.ParseDuration(t)
	if err == nil && v <= 0 {
		err = fmt.Errorf("%q is no time: write how many seconds it took", t)
	}
	return float64(v), err
}

func litres(t string) (float64, error) {
	v, err := quantity.ParseVolume(t)
	return float64(v), err
}

// figures reads each item; a figure is a finite number, 0 or more.
func figures(list []string, read func(string) (float64, error)) ([]float64, error) {
	if len(list) == 0 {
		return nil, errors.New("the figure is missing: write it with its unit")
	}
	out := make([]float64, 0, len(list))
	for _, t := range list {
		v, err := read(t)
		if err != nil {
			return nil, err
		}
		if v < 0 || math.IsInf(v, 0) || math.IsNaN(v) {
			return nil, fmt.Errorf("%q is less than nothing: write 0 or more", t)
		}
		out = append(out, v)
	}
	return out, nil
}

// flows reads bucket times: an amount holds until the next is named.
func flows(text string) ([]float64, error) {
	amount := 0.0
	// A unit written once is that of the times, so an amount keeps its own.
	return figures(items(text), func(t string) (float64, error) {
		much, took, timed := strings.Cut(t, " in ")
		switch {
		case timed:
			v, err := litres(much)
			if err != nil {
				return 0, err
			}
			amount = v
		case amount > 0:
			took = t
		default:
			v, err := quantity.ParseFlow(t)
			if err != nil {
				return 0, fmt.Errorf("%q is no flow: write how much in what time, as 10 L in 43 s, or a flow such as 800 L/h", t)
			}
			return float64(v), nil
		}
		s, err := seconds(took)
		if err != nil {
			return 0, err
		}
		return amount / s, nil
	})
}

// cups reads what was caught at each outlet in turn, or a share.
func cups(text string) ([]float64, error) {
	much, took, timed := strings.Cut(text, " in ")
	if strings.HasSuffix(much, "%") && !timed {
		return figures([]string{much}, func(t string) (float64, error) {
			v, err := quantity.ParseRatio(t)
			return float64(v), err
		})
	}
	list := items(much)
	if len(list) == 1 {
		list = parted(list[0])
	}
	out, err := figures(list, litres)
	if err != nil || !timed {
		return out, err
	}
	s, err := seconds(took)
	if err != nil {
		return nil, err
	}
	for i := range out {
		out[i] /= s
	}
	return out, nil
}

// numeral is what a number is written with.
const numeral = "0123456789./"

// items parts a list at its commas, those between two digits left alone since
// they may be meant as a decimal point, and gives each bare number the unit of the
// last item.
func items(text string) []string {
	var out []string
	from := 0
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	for i := range len(text) {
		if text[i] == ';' || text[i] == ',' && (!digit(i-1) || !digit(i+1)) {
			out = append(out, strings.TrimSpace(text[from:i]))
			from = i + 1
		}
	}
	out = append(out, strings.TrimSpace(text[from:]))
	if out = slices.DeleteFunc(out, func(t string) bool { return t == "" }); len(out) < 2 {
		return out
	}
	last := out[len(out)-1]
	if _, took, timed := strings.Cut(last, " in "); timed {
		last = took
	}
	unit := strings.TrimLeft(last, numeral+" ")
	for i, t := range out {
		if strings.Trim(t, numeral+" ") == "" || strings.Contains(t, " in ") && strings.Trim(t[strings.LastIndex(t, " in ")+4:], numeral+" ") == "" {
			out[i] = t + " " + unit
		}
	}
	return out
}

// parted parts "40 38 41 ml" at its blanks.
func parted(text string) []string {
	words := strings.Fields(text)
	n := 0
	for n < len(words) && strings.Trim(words[n], numeral) == "" {
		n++
	}
	unit := strings.Join(words[n:], " ")
	if n < 2 || strings.Contains(text, "/") {
		return []string{text}
	}
	out := make([]string, n)
	for i := range out {
		out[i] = words[i] + " " + unit
	}
	return out
}

// Mean returns the mean of figures, and the standard deviation of that mean from
// their spread; 0 with fewer than two.
func Mean(v []float64) (mean, doubt float64) {
	if len(v) == 0 {
		return math.NaN(), 0
	}
	n := float64(len(v))
	for _, x := range v {
		mean += x / n
	}
	if len(v) < 2 {
		return mean, 0
	}
	for _, x := range v {
		doubt += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(doubt / (n - 1) / n)
}

// Evenness returns the mean of the lowest quarter over the mean of all, 0 to 1; a
// single figure is taken for that share itself. NaN if nothing was caught. See
// hydraulics.DistributionUniformity.
func Evenness(v []float64) float64 {
	if len(v) == 1 {
		return v[0]
	}
	return hydraulics.DistributionUniformity(v, nil)
}

// Amounts returns the water of a flow's figures together, m3, and the time that it
// took, s; 0 and 0 where only a flow was noted.
func (r *Reading) Amounts() (amount, took float64) {
	much := 0.0
	for _, t := range items(r.Text) {
		before, after, timed := strings.Cut(t, " in ")
		if timed {
			v, err := litres(before)
			if err != nil {
				return 0, 0
			}
			much = v
		} else {
			after = t
		}
		s, err := seconds(after)
		if err != nil || much == 0 {
			return 0, 0
		}
		amount += much
		took += s
	}
	return amount, took
}
