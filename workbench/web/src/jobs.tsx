// Long work of the program. It goes on while other views are looked at, tells how far
// it is, and can be called off. One piece of work is under way at a time of each kind.
import { signal, type Signal } from "@preact/signals"
import type { ComponentChildren } from "preact"
import { name, tell, text } from "./state"
import type { TextRequest } from "./types"

export type Far = (done: number, of: number) => void

export interface Job<T, Q = undefined> {
  far: Signal<{ done: number, of: number } | null> // null while nothing is under way
  found: Signal<{ design: string, of: string, got: T } | null>
  start: (q: Q) => void
  end: () => void
}

export function job<T, Q = undefined>(call: (t: TextRequest, q: Q, far: Far, stop: AbortSignal) => Promise<T>): Job<T, Q> {
  const far: Job<T>["far"] = signal(null)
  const found: Job<T>["found"] = signal(null)
  let stop: AbortController | null = null
  return {
    far, found,
    start(q) {
      stop?.abort()
      const mine = stop = new AbortController()
      const t = { name: name.value, text: text.value }
      far.value = { done: 0, of: 1 }
      call(t, q, (done, of) => { if (stop === mine) far.value = { done, of } }, mine.signal)
        .then((got) => { if (stop === mine) found.value = { design: t.name, of: t.text, got } }, (e: unknown) => { if (!mine.signal.aborted) tell(e) })
        .finally(() => { if (stop === mine) far.value = null })
    },
    end() { stop?.abort() },
  }
}

// Work is a button that begins a job, in its place how far it is and the way to call
// it off, and below what was found, if that is of this design.
export function Work<T, Q>({ of, q, start, again, children }: { of: Job<T, Q>, q: Q, start: string, again: string, children: (got: T) => ComponentChildren }) {
  const far = of.far.value
  const found = of.found.value?.design === name.value ? of.found.value : null
  return (
    <>
      {far
        ? <p class="far"><progress value={far.done} max={far.of} aria-label="How far it is" /> <button type="button" onClick={of.end}>Call it off</button></p>
        : <button type="button" class="main" onClick={() => of.start(q)}>{found ? again : start}</button>}
      {found && found.of !== text.value && <p class="quiet" role="status">This is of the text before the last change.</p>}
      {found && children(found.got)}
    </>
  )
}
