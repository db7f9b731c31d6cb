import { batch } from "@preact/signals"
import * as api from "./api"
import { busy, good, measured, name, outcome, stale, tell, text, view } from "./state"
import type { Outcome } from "./types"

// Answers. A first pass without fixes repaints at once, a second finds them. Of
// many changes in a row, as in a drag, the newest is asked for when the answer to
// the one under way is there: so the page follows, and the program is not flooded.
let asking: { stop: AbortController, design: string, fixes: boolean } | null = null
let more = false
let slow = 0
let answered: string | null = null // the text that outcome is of

// isAnswered reports whether the outcome is of the text that stands.
export const isAnswered = () => answered === text.value

export function forgetAnswer(): void { answered = null }

export async function ask(fixes = false): Promise<void> {
  window.clearTimeout(slow)
  if (asking && !asking.fixes && asking.design === name.value) {
    more = true
    return
  }
  asking?.stop.abort()
  const mine = asking = { stop: new AbortController(), design: name.value, fixes }
  const of = text.value
  busy.value = true
  try {
    const o = await api.compute({ name: mine.design, text: of, fixes, curves: view.value === "curves", measured: measured.value }, mine.stop.signal)
    if (asking !== mine || mine.design !== name.value) return
    answered = of
    batch(() => {
      outcome.value = o
      stale.value = !o.report
      if (o.report) good.value = o
    })
    if (!fixes && o.report) slow = window.setTimeout(() => void ask(true), 350)
  } catch (e) {
    if (asking !== mine) return
    if (e instanceof api.Refusal && e.status === 429) slow = window.setTimeout(() => void ask(fixes), 1000)
    else tell(e)
  } finally {
    if (asking === mine) {
      asking = null
      busy.value = false
      if (more) {
        more = false
        void ask()
      }
    }
  }
}

// withCurves asks again if the last outcome came without them, once: if nothing
// better comes, it would not the next time.
let without: Outcome | null = null

export function withCurves(): void {
  const o = good.value
  if (!o || o.curves || busy.value || o === without) return
  without = o
  void ask()
}
