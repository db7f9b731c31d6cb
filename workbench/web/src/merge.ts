import { mergeDiff3 } from "node-diff3"

// merged brings two changed texts of one origin together line by line, null where
// both changed the same lines in their own way.
export function merged(mine: string, origin: string, theirs: string): string | null {
  const lines = (s: string) => s.split("\n")
  const m = mergeDiff3(lines(mine), lines(origin), lines(theirs), { excludeFalseConflicts: true })
  return m.conflict ? null : m.result.join("\n")
}
