package catalogue

import (
	"fmt"
	"strings"
)

// endWords is what ParseEnd found in a text, before it is judged.
type endWords struct {
	form, sex          Form
	system             System
	garden, tube, pipe bool
}

const endExamples = "hose 1/2 in, barb 16 mm, irrigation tube 16 mm, socket 25 mm, spigot 3/4 in sch 40, thread NPT 1/2 in male, thread G 1/2 female or garden hose thread 3/4 male"

// ParseEnd reads one end of a part: "barb 1/2 in", "hose 16 mm", "socket 25
// mm", "spigot 3/4 in sch 40", "thread G 1/2 male", "garden hose thread 3/4
// female", "irrigation tube 16 mm", "PEX barb 1/2 in", "compression 16 mm",
// "open". Case and the order of the words do not matter. Only threads may leave
// out the unit. The error says what to write instead.
func ParseEnd(text string) (End, error) {
	e, err := parseEnd(text)
	if err != nil {
		return End{}, fmt.Errorf("end %q: %w", text, err)
	}
	return e, nil
}

func parseEnd(text string) (End, error) {
	words := dropSchedule(sizeWords(text))
	var f endWords
	var numbers []string
	for _, w := range words {
		if isDigit(rune(w[0])) || w[0] == '.' || w == "in" || w == "inch" || w == "inches" || w == "mm" || w == "cm" {
			numbers = append(numbers, w)
			continue
		}
		if err := f.take(w); err != nil {
			return End{}, err
		}
	}
	return f.end(numbers)
}

// dropSchedule drops "sch 40", "schedule 80", "pn 16" and "sdr 11": none of
// them changes what an end fits, since the outside is the same.
func dropSchedule(words []string) []string {
	out := words[:0]
	for i := 0; i < len(words); i++ {
		switch words[i] {
		case "sch", "schedule", "pn", "sdr":
			if i+1 < len(words) && isDigit(rune(words[i+1][0])) {
				i++
			}
			continue
		}
		out = append(out, words[i])
	}
	return out
}

// take notes one word of an end.
func (f *endWords) take(w string) error {
	form, system := Form(""), System("")
	switch w {
	case "hose":
		form = Hose
	case "tube", "tubing":
		f.tube = true
	case "barb", "barbed":
		form = Barb
	case "spigot":
		form = Spigot
	case "pipe":
		f.pipe = true
	case "socket", "slip":
		form = Socket
	case "thread", "threaded":
		form = MaleThread
	case "compression":
		form = Compression
	case "open":
		form = Open
	case "male", "outside":
		f.sex = MaleThread
	case "female", "inside":
		f.sex = FemaleThread
	case "mnpt", "mpt", "mip":
		form, system, f.sex = MaleThread, NPT, MaleThread
	case "fnpt", "fpt", "fip":
		form, system, f.sex = MaleThread, NPT, FemaleThread
	case "npt":
		form, system = MaleThread, NPT
	case "g", "bspp":
		form, system = MaleThread, BSPParallel
	case "r", "bspt":
		form, system = MaleThread, BSPTaper
	case "rp", "rc":
		form, system, f.sex = MaleThread, BSPTaper, FemaleThread
	case "bsp":
		form, system = MaleThread, BSPUnknown
	case "ght", "mght":
		form, system = MaleThread, GardenHose
	case "garden":
		f.garden = true
	case "vinyl", "pvc":
		if w == "vinyl" {
			system = VinylHose
		}
	case "irrigation", "drip":
		system = IrrigationTube
	case "pex":
		system = PEXTube
	case "metric":
	default:
		return fmt.Errorf("the word %q is not known here: write for example %s", w, endExamples)
	}
	if form == MaleThread && f.form == Hose || form == Hose && f.form == MaleThread {
		// "garden hose thread": the hose is part of the thread's name.
		form = MaleThread
		f.form = MaleThread
	}
	if form != "" && f.form != "" && form != f.form {
		return fmt.Errorf("it is both %s and %s: give one end at a time", f.form, form)
	}
	if system != "" && f.system != "" && system != f.system {
		return fmt.Errorf("it is both %s and %s: give one end at a time", f.system, system)
	}
	if form != "" {
		f.form = form
	}
	if system != "" {
		f.system = system
	}
	return nil
}

// end judges the words.
func (f *endWords) end(numbers []string) (End, error) {
	form, system := f.form, f.system
	if form == "" && f.sex != "" {
		form = MaleThread
	}
	if form == "" && f.tube {
		form = Hose
	}
	if form == "" && f.pipe {
		form = Spigot
	}
	if form == "" {
		return End{}, fmt.Errorf("what shape it has is missing: write for example %s", endExamples)
	}
	if form == Open {
		if len(numbers) > 0 || system != "" {
			return End{}, fmt.Errorf("an open end has no size: write open")
		}
		return End{Form: Open}, nil
	}
	fallback := ""
	if form == MaleThread {
		fallback = "in"
	}
	size, rest, err := takeSize(numbers, fallback)
	if err != nil {
		return End{}, err
	}
	if len(rest) > 0 {
		return End{}, fmt.Errorf("%q is too much: give one size", strings.Join(rest, " "))
	}
	return f.resolve(form, system, size)
}

// resolve fills in what form and size imply.
func (f *endWords) resolve(form Form, system System, size Size) (End, error) {
	if form != MaleThread && f.sex != "" {
		return End{}, fmt.Errorf("male and female belong to threads: write thread NPT %s %s, or leave it out", size.Text, strings.TrimSuffix(string(f.sex), " thread"))
	}
	switch form {
	case MaleThread:
		if f.garden && system == "" {
			system = GardenHose
		}
		if system == "" {
			return End{}, fmt.Errorf("which thread is missing: write NPT, G (parallel, washer seals), R (taper, tape seals), BSP if the label says no more, or garden hose")
		}
		if system == VinylHose || system == IrrigationTube || system == PEXTube {
			return End{}, fmt.Errorf("%s has no thread: give one end at a time", system)
		}
		if f.sex == "" {
			return End{}, fmt.Errorf("male or female is missing: male has its thread outside, female inside")
		}
		if !size.Inch {
			return End{}, fmt.Errorf("%s threads are named in inches: write %s 1/2", system, system)
		}
		return End{f.sex, system, size}, nil
	case Spigot, Socket:
		if system != "" {
			return End{}, fmt.Errorf("%s has neither spigot nor socket: write hose, tube or barb", system)
		}
		if !size.Inch {
			return End{form, MetricPipe, size}, nil
		}
		if inchPipeOutside(size) == 0 {
			return End{}, fmt.Errorf("there is no US inch pipe of %s: the sizes are 1/8, 1/4, 3/8, 1/2, 3/4, 1, 1 1/4, 1 1/2 and 2 in", size.Text)
		}
		return End{form, InchPipe, size}, nil
	case Compression:
		if system == "" && size.Inch {
			return End{}, fmt.Errorf("a compression end of %s may be for irrigation or PEX tube: write irrigation compression %s or PEX compression %s", size.Text, size.Text, size.Text)
		}
		if system == "" || system == IrrigationTube && size.Text == "16 mm" {
			system = MetricPipe
		}
		return End{form, system, size}, nil
	}
	if system == "" {
		if f.tube {
			return End{}, fmt.Errorf("which tube is missing: write irrigation tube %s or PEX tube %s, or hose %s for vinyl", size.Text, size.Text, size.Text)
		}
		system = VinylHose
	}
	if in, _ := softTube(End{form, system, size}); in == 0 && system != VinylHose {
		return End{}, fmt.Errorf("there is no %s of %s here: the sizes are %s", system, size.Text, softSizes(system))
	}
	return End{form, system, size}, nil
}

func softSizes(s System) string {
	if s == IrrigationTube {
		return "1/4 in, 1/2 in and 16 mm"
	}
	return "3/8, 1/2, 3/4 and 1 in"
}
