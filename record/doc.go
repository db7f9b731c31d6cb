// Package record holds what was measured on a running enclosure: readings, each
// with its time, what was measured, the figures as typed, the state of the design
// then and a note. It reads and writes the lines of a log and the short lines that
// are typed at the floor; no file is opened here and no clock is looked at.
//
// A log is plain text, one reading a line, fields parted by a tab:
//
//	TIME  WHAT  VALUE  DESIGN  NOTE  SUM
//
// TIME is RFC 3339 with its offset, WHAT the id of a check of package commission
// or a word of Words, VALUE the figures as typed, DESIGN the mark of the design
// file then, SUM the first 16 digits of the SHA-256 of all that stands before it.
// Lines are only ever added. The sum is at once what tells a line cut short from a
// whole one and what tells the same reading in two copies of a log, so that copies
// are joined by laying them one behind the other.
package record
