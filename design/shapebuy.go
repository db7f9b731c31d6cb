package design

import "rillwright/quantity"

// Foam is a body of expanding foam, as it is when carved: three sizes, or a volume.
type Foam struct {
	Pos       Pos           `yaml:"-"`
	Name      Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	Width     Field[length] `yaml:"width" doc:"Width of it."`
	Height    Field[length] `yaml:"height" doc:"Height of it."`
	Thickness Field[length] `yaml:"thickness" doc:"Mean thickness once it is carved."`
	Volume    Field[volume] `yaml:"volume" doc:"In place of the three sizes, how much it is once carved."`
	Layers    Field[int]    `yaml:"layers" range:"[1,50]" doc:"In how many layers it is laid; 2 if left out. What is cut off each is counted."`
}

// Coat is sealant spread over carved foam for its texture.
type Coat struct {
	Pos       Pos               `yaml:"-"`
	Name      Field[string]     `yaml:"name" need:"yes" doc:"Its name."`
	Width     Field[length]     `yaml:"width" doc:"Width of what is coated."`
	Height    Field[length]     `yaml:"height" doc:"Height of what is coated."`
	Area      Field[area]       `yaml:"area" range:"(0,100]" doc:"In place of the two, its area, hollows and all."`
	Thickness Field[LengthBand] `yaml:"thickness" range:"(0,0.02]" doc:"How thick it lies; 1 to 2 mm if left out."`
}

// Fill is loose stuff that is bought by volume.
type Fill struct {
	Pos    Pos           `yaml:"-"`
	What   Field[string] `yaml:"what" need:"yes" doc:"What it is: clay balls, bark, gravel."`
	Width  Field[length] `yaml:"width" doc:"Width of where it lies."`
	Depth  Field[length] `yaml:"depth" doc:"Depth of where it lies, front to back."`
	Height Field[length] `yaml:"height" doc:"How high it lies."`
	Volume Field[volume] `yaml:"volume" doc:"In place of the three sizes, how much it is."`
}

// Plants is some plants alike.
type Plants struct {
	Pos      Pos                   `yaml:"-"`
	What     Field[string]         `yaml:"what" need:"yes" doc:"What they are."`
	Count    Field[int]            `yaml:"count" need:"yes" doc:"How many."`
	Cuttings Field[bool]           `yaml:"cuttings" doc:"yes if you take cuttings, which cost about half."`
	Price    Field[quantity.Money] `yaml:"price" doc:"What one costs."`
}

// Wanted is anything else to be bought.
type Wanted struct {
	Pos   Pos                   `yaml:"-"`
	What  Field[string]         `yaml:"what" need:"yes" doc:"What."`
	Count Field[int]            `yaml:"count" doc:"How many; one if left out."`
	Shop  Field[string]         `yaml:"shop" words:"glass counter|plumbing aisle|garden or pet shop|hardware shop" doc:"Where you get it; the hardware shop if left out."`
	Price Field[quantity.Money] `yaml:"price" doc:"What one costs."`
}
