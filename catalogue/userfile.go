package catalogue

import (
	"rillwright/document"
	"rillwright/quantity"
)

type (
	field[T any] = document.Field[T]
	length       = quantity.Length
	lengthBand   = quantity.Band[quantity.Length]
)

// partsFile is the shape of a user's parts file; tags as in package document.
type partsFile struct {
	Format field[int]  `yaml:"rillwright-parts" need:"yes" doc:"Version of this file format: 1."`
	Parts  []partEntry `yaml:"parts" need:"yes" doc:"Your parts."`
}

// partEntry is one part as its owner wrote it down.
type partEntry struct {
	Pos        document.Pos          `yaml:"-"`
	Part       field[string]         `yaml:"part" need:"yes" doc:"Its name; a name of the catalogue replaces that part."`
	Also       []field[string]       `yaml:"also" doc:"Other names for it."`
	Kind       field[string]         `yaml:"kind" need:"yes" words:"pipe|hose|tube|elbow|coupling|reducer|adapter|tee|valve|check valve|union|bulkhead|strainer|emitter|pump" doc:"What sort of part it is."`
	Ends       []field[End]          `yaml:"ends" doc:"Its ends; one if they are alike."`
	Bore       field[lengthBand]     `yaml:"bore" doc:"Smallest inside: 13 mm, or 12.8 to 13.2 mm."`
	Outside    field[length]         `yaml:"outside" doc:"Outside of pipe, hose or tube."`
	Wall       field[length]         `yaml:"wall" doc:"Thickness of its wall."`
	Length     field[length]         `yaml:"length" doc:"Way of the water through a fitting."`
	Roughness  field[length]         `yaml:"roughness" doc:"Absolute roughness; smooth plastic if left out."`
	BendRadius field[length]         `yaml:"bend-radius" doc:"Least radius it bends to."`
	Stock      []field[length]       `yaml:"stock" doc:"Lengths it is sold in."`
	Loss       lossEntry             `yaml:"loss" doc:"What it costs in head; a usual figure for its kind if left out."`
	Hole       field[lengthBand]     `yaml:"hole" doc:"Hole a bulkhead needs."`
	Flange     field[length]         `yaml:"flange" doc:"Diameter of a bulkhead's flange."`
	OpenArea   field[quantity.Ratio] `yaml:"open-area" doc:"Open area of a strainer as a multiple of the pipe's: 400 %."`
	Emitter    emitterEntry          `yaml:"emitter" doc:"How an emitter drips."`
	Label      labelEntry            `yaml:"label" doc:"The two figures on a pump's box."`
	Curve      []pointEntry          `yaml:"curve" doc:"A pump's printed or measured curve, at least two points."`
	CurveFile  field[string]         `yaml:"curve-file" doc:"The same as a CSV file beside this one."`
	Power      field[quantity.Power] `yaml:"power" doc:"Watts."`
	Price      field[quantity.Money] `yaml:"price" doc:"What it costs: 3.50 EUR."`
	Per        field[string]         `yaml:"per" words:"piece|m|ft|length" doc:"What that price is for; a piece if left out, for hose and pipe needed."`
	Note       field[string]         `yaml:"note" doc:"Anything you want to remember."`
	Source     field[string]         `yaml:"source" doc:"Where the figures come from."`
	Mark       field[string]         `yaml:"mark" words:"measured|published|common practice|from memory|derived|assumed" doc:"How far to trust the figures; 'from memory' if left out."`
}

// lossEntry is a fitting's loss, one of the two.
type lossEntry struct {
	Pos document.Pos          `yaml:"-"`
	K   field[quantity.Ratio] `yaml:"k" doc:"Loss in velocity heads, on the velocity in its bore."`
	Kv  field[quantity.Flow]  `yaml:"kv" doc:"Flow at a loss of 1 bar."`
}

// labelEntry is a pump's label.
type labelEntry struct {
	Pos  document.Pos         `yaml:"-"`
	Flow field[quantity.Flow] `yaml:"flow" need:"yes" doc:"Largest flow, at no lift."`
	Head field[length]        `yaml:"head" need:"yes" doc:"Largest lift, at no flow."`
}

// pointEntry is one point of a pump's curve.
type pointEntry struct {
	Pos  document.Pos         `yaml:"-"`
	Flow field[quantity.Flow] `yaml:"flow" need:"yes" doc:"Flow."`
	Head field[length]        `yaml:"head" need:"yes" doc:"Head at that flow."`
}

// emitterEntry is a drip emitter.
type emitterEntry struct {
	Pos      document.Pos          `yaml:"-"`
	Flow     field[quantity.Flow]  `yaml:"flow" need:"yes" doc:"Its flow."`
	At       field[length]         `yaml:"at" need:"yes" doc:"The head at which it has that flow: 10.2 m for 1 bar."`
	Exponent field[quantity.Ratio] `yaml:"exponent" doc:"0.5 turbulent, 1 laminar, 0 compensating; 0.5 if left out."`
	Spread   field[quantity.Ratio] `yaml:"spread" doc:"Maker's coefficient of variation; 0.07 if left out."`
	MinHead  field[length]         `yaml:"least-head" doc:"Head below which it does not work."`
}

// UnmarshalText reads an end as ParseEnd does.
func (e *End) UnmarshalText(text []byte) error {
	got, err := parseEnd(string(text))
	if err != nil {
		return &quantity.Error{Text: string(text), Problem: "is not an end: " + err.Error(), Ask: "write for example " + endExamples}
	}
	*e = got
	return nil
}

// Describe says how an end is written, for files and error messages.
func (*End) Describe() (what string, examples []string) {
	return "one end of a part", []string{"barb 1/2 in", "hose 16 mm", "socket 25 mm", "thread G 1/2 male"}
}
