package design

import "fmt"

// air checks what moves and wets the air inside.
func (c *checker) air() {
	if m := &c.d.Misting; m.Given() && reads(c, m.Each) {
		if times, each := m.Runs(); float64(times)*each > 86400 {
			c.report(m.Each.Pos, "misting.each", fmt.Sprintf("%d times %s is more than a day", times, m.Each.Text), "write how long it runs each time, and how often in times")
		}
	}
	inside := c.d.Enclosure.Inside.Height
	for i := range c.d.Vents {
		v := &c.d.Vents[i]
		path := entry("vents", v.Name, i)
		if reads(c, v.Up) && reads(c, inside) && v.Up.Value > inside.Value {
			c.warn(v.Up.Pos, path+".up", fmt.Sprintf("the vent's middle is %s up and the inside ends at %s", v.Up.Text, inside.Text), "measure it from the enclosure's inside bottom; one in the top is as far up as the inside is high")
		}
	}
}
