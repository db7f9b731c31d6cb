// Package asbuilt works out what readings tell of an enclosure as it was built:
// which figures in doubt they settle, which cannot be told apart, which readings do
// not belong, and, where something has gone wrong, what explains them best and what
// to measure next. Readings are figures in SI; where they come from is told by
// package record. Nothing is remembered between calls.
//
// The figures in doubt are those of package enclosure, each within its band, and
// two of each pump that its label leaves open: how far its flow and its greatest
// head are from it. Readings are computed by the networks of package study.
package asbuilt
