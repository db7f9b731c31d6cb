// Package workbench serves the page on which a design is seen, changed and
// answered at once. The page shows, this package reads, computes and saves; what
// it sends is made by the chain and by nothing else.
//
// It is meant for the machine it runs on. Requests are taken from the loopback
// addresses alone, unless the caller allows others and asks for a key; files are
// read and written in one folder, and links are not followed out of it.
package workbench
