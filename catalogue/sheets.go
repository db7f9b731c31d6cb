package catalogue

import "rillwright/quantity"

// Sheet is a size that glass, plastic or lighting grid is sold in.
type Sheet struct {
	What          string          // glass, acrylic, polycarbonate or grid sheet
	US            bool            // offered to designs in US units; to metric ones otherwise
	Label         string          // what the shop calls it: "2 x 4 ft"
	Width, Height quantity.Length // what is really there
	Trim          quantity.Length // taken off each edge before anything is cut
	Source        string          // key of package source
	Mark          Mark
	Note          string
}

// Sheets returns the sizes that flat stock is sold in, by material, then units,
// smallest first. The caller must not change them.
func (c *Catalogue) Sheets() []Sheet { return c.sheets }

func (b *builder) flat(t *table) {
	b.sheets = append(b.sheets, Sheet{
		What: t.text("what"), US: t.text("units") == "us", Label: t.text("label"),
		Width: t.length("width_mm", mm), Height: t.length("height_mm", mm), Trim: t.length("trim_mm", mm),
		Source: t.text("source"), Mark: Mark(t.text("mark")), Note: t.text("note"),
	})
}
