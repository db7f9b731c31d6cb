// Package faults follows an enclosure through time when something goes wrong:
// the power fails, a drain blocks, a hose comes off. Every body of water is a
// store with its true level-volume curve; at each instant the supply is the
// solved circuit at the levels of that instant, and the drains are those of
// package gravity. What switches (a lip reached, an inlet uncovered, a siphon
// broken, a float or timer) ends a step exactly there. Water is moved, never
// made or lost: what left one store is in another or in the ledger as spilled,
// evaporated or soaked away.
//
// No credit is given to what cannot be relied on: a check valve is taken to leak,
// a drain to be without the pull of a siphon, and a return that ends under water
// to siphon unless a hole breaks it.
//
// Left out: the inertia of the water in pipes (seconds), the water in the drain
// pipes, which run part full, and air locks.
package faults
