// Package sheets draws an enclosure and its results on sheets of paper, in no
// file format: plots, and later plans, sections and templates. It computes
// nothing; every figure on a sheet is one of package answers or faults.
package sheets
