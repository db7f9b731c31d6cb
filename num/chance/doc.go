// Package chance weighs what is known only as a band: it draws values from
// distributions, spreads draws evenly by a quasi-random sequence, sums up what
// came out of them, and ranks inputs by how much of the output's variance each
// one makes. It knows nothing of what the numbers mean.
//
// The same seed gives the same draws whatever the order in which they are asked
// for, so they can be shared out among any number of workers.
package chance
