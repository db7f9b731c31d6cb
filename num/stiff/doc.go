// Package stiff follows amounts that move between stores in time: it integrates
// how much has moved along each path, not what each store holds. What leaves one
// store therefore arrives in another to the last digit, however coarse the
// steps are, and nothing can be lost.
//
// Method: the linearly implicit Runge-Kutta method RODAS3 of Sandu, Verwer,
// Blom, Spee, Carmichael & Potra 1997 ("Benchmarking stiff ODE solvers for
// atmospheric chemistry problems II", coefficients from memory, their order is
// checked in the tests): four stages, order 3, with an error estimate of order 2,
// L-stable, so that a store which answers within a millisecond does not hold up
// one that answers within a day. The slopes are taken by differences.
//
// Whatever switches is an Event: a step in which one happens is taken again with
// another length until it ends there.
package stiff
