// Package vessel holds the true relation between level and volume of standing
// water: a box whose free plan area changes with height, where gravel, wood or
// foam take their share, or pipes that rise.
package vessel

import (
	"cmp"
	"fmt"
	"slices"
)

// Layer is free plan area between two heights.
type Layer struct {
	From, To float64 // m, From < To
	Area     float64 // m2, more than 0
}

// Curve is the level-volume relation of one body of water, straight between its
// corners. Above its highest layer the walls are taken to go on. The zero Curve
// holds nothing; use Stack.
type Curve struct {
	level  []float64 // corners, rising, m
	volume []float64 // below each corner, m3
	area   []float64 // above each corner, m2
}

// Stack returns the curve of layers, which may lie over each other: their areas
// add up. The error is of a layer without height or area, or of a height at
// which there is none.
func Stack(layers ...Layer) (Curve, error) {
	if len(layers) == 0 {
		return Curve{}, fmt.Errorf("no volume at all")
	}
	var c Curve
	for _, l := range layers {
		if !(l.From < l.To) || !(l.Area > 0) {
			return Curve{}, fmt.Errorf("a layer from %g to %g m with %g m2 holds nothing", l.From, l.To, l.Area)
		}
		c.level = append(c.level, l.From, l.To)
	}
	slices.Sort(c.level)
	c.level = slices.Compact(c.level)
	top := len(c.level) - 1
	c.volume, c.area = make([]float64, top+1), make([]float64, top+1)
	for i := range top {
		for _, l := range layers {
			if l.From <= c.level[i] && l.To >= c.level[i+1] {
				c.area[i] += l.Area
			}
		}
		if c.area[i] == 0 {
			return Curve{}, fmt.Errorf("nothing holds water from %g to %g m", c.level[i], c.level[i+1])
		}
		c.volume[i+1] = c.volume[i] + c.area[i]*(c.level[i+1]-c.level[i])
	}
	c.area[top] = c.area[top-1]
	return c, nil
}

// Floor returns the height at which the curve starts, m.
func (c *Curve) Floor() float64 { return c.level[0] }

// Top returns the height at which its highest layer ends, m.
func (c *Curve) Top() float64 { return c.level[len(c.level)-1] }

// Volume returns what stands below a level, m3: 0 at and below the floor.
func (c *Curve) Volume(level float64) float64 {
	i := c.below(c.level, level)
	if i < 0 {
		return 0
	}
	return c.volume[i] + c.area[i]*(level-c.level[i])
}

// Level returns the level of a volume, m, the inverse of Volume. Below nothing
// the floor's area is taken to go on downwards, so that it stays one to one.
func (c *Curve) Level(volume float64) float64 {
	i := max(c.below(c.volume, volume), 0)
	return c.level[i] + (volume-c.volume[i])/c.area[i]
}

// Area returns the free plan area at a level, m2: the slope of Volume, 0 below
// the floor.
func (c *Curve) Area(level float64) float64 {
	if i := c.below(c.level, level); i >= 0 {
		return c.area[i]
	}
	return 0
}

// below returns the last corner at or below v, -1 if there is none.
func (c *Curve) below(corners []float64, v float64) int {
	if len(corners) <= 8 {
		i := len(corners) - 1
		for i >= 0 && corners[i] > v {
			i--
		}
		return i
	}
	i, found := slices.BinarySearchFunc(corners, v, cmp.Compare)
	if found {
		return i
	}
	return i - 1
}
