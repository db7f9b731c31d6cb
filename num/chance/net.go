package chance

import (
	"fmt"
	"math/bits"
	"strconv"
	"strings"
)

// Dimensions is how many of a Net's dimensions are of the published sequence. Those
// beyond are filled by a generator of random numbers, no more evenly than by chance.
const Dimensions = 256

const digits = 32

// Net is the sequence of Sobol 1967 with the direction numbers of Joe & Kuo 2008,
// moved by a digital shift: its first 2^m points fill the unit cube more evenly
// than chance would.
type Net struct {
	columns [][digits]uint32
	shift   []uint32
	seed    uint64
}

// NewNet returns a sequence in the given number of dimensions, shifted by seed; seed
// 0 leaves it as published. The error is of a number of dimensions below 1.
func NewNet(dimensions int, seed uint64) (*Net, error) {
	if dimensions < 1 {
		return nil, fmt.Errorf("a sequence of %d dimensions: 1 at least can be made", dimensions)
	}
	dimensions = min(dimensions, Dimensions)
	n := &Net{columns: make([][digits]uint32, dimensions), shift: make([]uint32, dimensions), seed: seed}
	for k := range digits {
		n.columns[0][k] = 1 << (digits - 1 - k)
	}
	lines := strings.Split(strings.TrimSpace(directions), "\n")
	for d := 1; d < dimensions; d++ {
		n.columns[d] = column(lines[d-1])
	}
	if seed != 0 {
		for d := range n.shift {
			n.shift[d] = uint32(next(&seed) >> 32)
		}
	}
	return n, nil
}

// next returns the next number of the generator splitmix64 of Steele, Lea & Flood
// 2014 (constants from memory; the tests hold a known output). It is small enough to
// stand here, so that no library's change can change a result.
func next(state *uint64) uint64 {
	*state += 0x9e3779b97f4a7c15
	z := *state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// column expands one line of the table by the recurrence of Bratley & Fox 1988.
func column(line string) (v [digits]uint32) {
	var num []uint32
	for _, f := range strings.Fields(line) {
		x, err := strconv.ParseUint(f, 10, 32)
		if err != nil {
			panic("chance: table of direction numbers: " + err.Error())
		}
		num = append(num, uint32(x))
	}
	degree, inner, first := int(num[0]), num[1], num[2:]
	for k := range digits {
		if k < degree {
			v[k] = first[k] << (digits - 1 - k)
			continue
		}
		v[k] = v[k-degree] ^ v[k-degree]>>degree
		for i := 1; i < degree; i++ {
			if inner>>(degree-1-i)&1 == 1 {
				v[k] ^= v[k-i]
			}
		}
	}
	return v
}

// At writes point i of the sequence, counted from 0, into x: one number a dimension,
// each between 0 and 1 and neither of them. len(x) must not be above the dimensions.
func (n *Net) At(i uint32, x []float64) {
	for d := range x {
		x[d] = n.Coordinate(i, d)
	}
}

// Coordinate returns the number that At writes into x[d].
func (n *Net) Coordinate(i uint32, d int) float64 {
	out := uint32(0)
	if d < len(n.columns) {
		out = n.bits(i, d) ^ n.shift[d]
	} else {
		out = n.random(i, d)
	}
	return (float64(out) + 0.5) / (1 << digits)
}

// random is coordinate d of point i beyond the published dimensions, in units of 2^-32.
// It depends on nothing but seed, point and dimension.
func (n *Net) random(i uint32, d int) uint32 {
	state := n.seed
	state = next(&state) ^ (uint64(i)<<digits | uint64(d))
	return uint32(next(&state) >> digits)
}

// bits is coordinate d of point i in the order of Gray codes, as in the published
// points, in units of 2^-32.
func (n *Net) bits(i uint32, d int) (out uint32) {
	for g := i ^ i>>1; g != 0; g &= g - 1 {
		out ^= n.columns[d][bits.TrailingZeros32(g)]
	}
	return out
}
