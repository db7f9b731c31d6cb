import { clash, dropTrial, good, keepTrial, leaveDraft, message, settle, stale, takeDraft, there, trial, typed, outcome } from "./store"
import { useEffect, useRef } from "preact/hooks"
import { VerdictMark } from "./verdict"
import type { Answer } from "./types"
import { view } from "./store"

// Whatever the page has to say besides answers, one strip each, below the views.
export function Notices() {
  const m = message.value
  const d = typed.value
  const c = clash.value
  return (
    <div class="notices">
      {!there.value && <div class="notice bad" role="alert">The program behind this page does not answer. What you type is kept in this browser; start the program again and it goes on.</div>}
      {m && (
        <div class={m.bad ? "notice bad" : "notice"} role={m.bad ? "alert" : "status"}>
          <span>{m.what} {m.todo}</span>
          <button type="button" onClick={() => { message.value = null }}>Close</button>
        </div>
      )}
      {d && (
        <div class="notice" role="alert">
          <span>There is a text of this design that was typed{d.from ? ` on ${new Date(d.from).toLocaleString()}` : ""} and not kept.</span>
          <button type="button" class="main" onClick={takeDraft}>Take it up</button>
          <button type="button" onClick={leaveDraft}>Drop it</button>
        </div>
      )}
      {c && (
        <div class="notice bad" role="alert">
          <span>Another program changed the same lines of this file as you did. Nothing is lost: choose which text to go on with, the other one stays reachable by undo.</span>
          <button type="button" onClick={() => settle(true)}>Go on with mine</button>
          <button type="button" onClick={() => settle(false)}>Take theirs</button>
        </div>
      )}
      {stale.value && <Faults />}
      <Trial />
    </div>
  )
}

function Faults() {
  const o = outcome.value
  if (!o) return null
  const bad = o.findings.filter((f) => f.severity === "error")
  return (
    <div class="notice bad" role="status">
      <span>
        {o.fault || `${bad.length} to mend in the file. First, line ${bad[0]?.place.line ?? 0}: ${bad[0]?.what ?? ""}.`} {bad[0]?.do ? `Do: ${bad[0].do}.` : ""}
      </span>
      <button type="button" onClick={() => { view.value = "file" }}>To the file</button>
    </div>
  )
}

// Trial shows what a change does before it is kept: every answer that moved.
function Trial() {
  const t = trial.value
  const take = useRef<HTMLButtonElement>(null)
  // The answers that it was tried from are soon others: here is what is to be decided.
  useEffect(() => take.current?.focus(), [t])
  if (!t) return null
  const now = new Map((good.value?.report?.answers ?? []).map((a) => [a.id, a]))
  const moved = t.compare.flatMap((a): { a: Answer, b: Answer | null }[] => {
    const b = now.get(a.id)
    if (!b) return [{ a, b: null }]
    return a.verdict !== b.verdict || a.figures[0]?.text !== b.figures[0]?.text ? [{ a, b }] : []
  })
  return (
    <section class="notice trial" aria-label="Tried out">
      <div>
        <strong>Tried: {t.what}</strong>
        {t.instead && <p>It takes the place of what was tried before, which is taken out again: {t.instead}.</p>}
        {t.together && <p>Both are in the text: what was typed since the first one hangs on it.</p>}
        <ul tabIndex={0} aria-label="What it changes">
          {moved.length === 0 && <li>No answer moved.</li>}
          {moved.map(({ a, b }) => (
            <li key={a.id}>
              {a.question} <VerdictMark of={a.verdict} /> {a.figures[0]?.text ?? ""} <span aria-label="becomes">→</span> {b ? <><VerdictMark of={b.verdict} /> {b.figures[0]?.text ?? ""}</> : "no longer asked"}
            </li>
          ))}
        </ul>
      </div>
      <button type="button" class="main" ref={take} onClick={keepTrial}>{t.together ? "Take both" : "Take it"}</button>
      <button type="button" onClick={dropTrial}>{t.instead || t.together ? "Back to before the first" : "Put it back"}</button>
    </section>
  )
}
