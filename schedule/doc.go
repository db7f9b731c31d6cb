// Package schedule says when each task of a project can be done, what holds it
// back and how sure the end is.
//
// A task is work, which needs people or things in their hours, followed by
// waiting, which runs on through nights and holidays. Both are bands. It may begin
// once its causes are over. The plan places one task after another, each as early
// as causes, hours and what is placed already allow (serial schedule generation,
// Kelley 1963, from memory). Next comes the task with the longest way still to go
// to the end; of equals the one listed first. So the same project gives the same
// plan. It is a good plan, not proven the shortest.
//
// Nothing here reads a clock: now is an argument. Times are whole minutes of civil
// time without zone; lengths are rounded up to them.
package schedule
