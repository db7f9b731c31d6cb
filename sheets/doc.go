// Package sheets draws an enclosure and its results on sheets of paper, in no
// file format: plots, views, panes, cell maps and templates. It computes nothing;
// every figure on a sheet is one of the design file, or of package layout, answers or
// faults.
package sheets
