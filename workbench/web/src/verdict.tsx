import type { Verdict } from "./types"

// A verdict has a shape and a word, so that it can be told without its colour.
const shape: Record<Verdict, string> = { "holds": "●", "tight": "▲", "not known yet": "◇", "fails": "■" }
export const word: Record<Verdict, string> = { "holds": "holds", "tight": "tight", "not known yet": "not known", "fails": "fails" }
export const classOf = (v: Verdict) => `v-${v.replaceAll(" ", "-")}`

export function VerdictMark({ of }: { of: Verdict }) {
  return <span class={`verdict ${classOf(of)}`}><span aria-hidden="true">{shape[of]}</span> {word[of]}</span>
}
