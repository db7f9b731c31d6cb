import { useEffect, useRef } from "preact/hooks"
import { ask, chosen, good, list, measured, openAnswer, stale, trial, tryOut, view } from "./store"
import { Scale } from "./scale"
import type { Answer, Edit, Fix } from "./types"
import { VerdictMark, classOf } from "./verdict"

export function Answers() {
  const r = good.value?.report
  if (!r) return <p class="wait">{good.value === null ? "Computing …" : "No answers yet."}</p>
  const counts = (["fails", "not known yet", "tight", "holds"] as const).map((v) => [v, list.value.filter((a) => a.verdict === v).length] as const).filter(([, n]) => n > 0)
  return (
    <div class={stale.value ? "answers stale" : "answers"}>
      <h2>{stale.value ? "Answers to the text before" : "Answers"} <span class="counts">{counts.map(([v, n]) => <span key={v}>{n} <VerdictMark of={v} /></span>)}</span></h2>
      {(good.value?.readings ?? 0) > 0 && (
        <label class="measured"><input type="checkbox" checked={measured.value} onChange={(e) => { measured.value = e.currentTarget.checked; void ask() }} /> Answer from what was measured ({good.value?.readings} in the first month)</label>
      )}
      <ul class="asked">
        {list.value.map((a) => <Row key={a.id} a={a} />)}
      </ul>
      <Assumed />
      <p class="certificate">This is arithmetic, not a certificate: glass, weight, mains near water and animals need your own judgement, local codes and licensed trades.</p>
    </div>
  )
}

function Row({ a }: { a: Answer }) {
  const open = openAnswer.value === a.id
  const ref = useRef<HTMLLIElement>(null)
  useEffect(() => {
    if (open) ref.current?.scrollIntoView({ block: "nearest" })
  }, [open])
  const id = `answer-${a.id.replace(/[^\w-]/g, "_")}`
  return (
    <li ref={ref} class={`answer ${classOf(a.verdict)}${open ? " open" : ""}`}>
      <h3>
        <button type="button" aria-expanded={open} aria-controls={id} onClick={() => {
          openAnswer.value = open ? "" : a.id
          if (!open && a.limitingLine) chosen.value = `line:${a.limitingLine}`
        }}>
          <VerdictMark of={a.verdict} />
          <span class="question">{a.question}</span>
          <span class="first">{a.figures[0]?.text ?? ""}</span>
        </button>
      </h3>
      <div id={id} hidden={!open}>{open && <Detail a={a} />}</div>
    </li>
  )
}

function Detail({ a }: { a: Answer }) {
  return (
    <div class="detail">
      <p class="say">{a.say}</p>
      <dl class="figures">
        {a.figures.map((f, i) => <div key={i}><dt>{f.name}</dt><dd>{f.text}<Scale f={f} /></dd></div>)}
      </dl>
      {a.limit.text && <p><b>Limit</b> {a.limit.text}{a.limit.mark ? ` (${a.limit.mark})` : ""}</p>}
      {a.margin && <p><b>Margin</b> {a.margin}</p>}
      {(a.limiting || a.limitingLine) && (
        <p><b>Limited by</b> {a.limiting} {a.limitingLine ? <button type="button" class="link" onClick={() => { chosen.value = `line:${a.limitingLine}`; view.value = "file" }}>line {a.limitingLine}</button> : null}</p>
      )}
      {(a.matters?.length ?? 0) > 0 && (
        <>
          <h4>Depends most on</h4>
          <ol class="matters">
            {a.matters?.map((m, i) => (
              <li key={i}>{m.what}, {m.range}: {m.effect}. {m.settle ? `To settle it: ${m.settle}.` : ""} {m.line ? <button type="button" class="link" onClick={() => { chosen.value = `line:${m.line}`; view.value = "file" }}>line {m.line}</button> : null}</li>
            ))}
          </ol>
        </>
      )}
      {(a.fixes?.length ?? 0) > 0 && (
        <>
          <h4>What would help, cheapest first</h4>
          <ul class="fixes">{a.fixes?.map((f, i) => <FixRow key={i} f={f} />)}</ul>
        </>
      )}
      {a.cautions?.map((c, i) => <p key={i} class="caution">{c}</p>)}
    </div>
  )
}

function FixRow({ f }: { f: Fix }) {
  const edits: Edit[] = f.edits ?? []
  return (
    <li>
      <p>{f.do}</p>
      <p class="quiet">{f.before} → {f.after} <VerdictMark of={f.verdict} /> · costs {f.cost}{f.breaks?.length ? ` · worse: ${f.breaks.map((b) => b.question).join("; ")}` : ""}</p>
      {edits.length > 0 && <button type="button" onClick={() => void tryOut(f.do, edits)}>{trial.value ? "Try this instead" : "Try it"}</button>}
    </li>
  )
}

function Assumed() {
  const r = good.value?.report
  if (!r) return null
  return (
    <details class="assumed">
      <summary>Taken for granted ({r.assumed.length + r.doubts.filter((d) => !d.line).length})</summary>
      <ul>
        {r.doubts.filter((d) => !d.line).map((d) => <li key={d.id}>{d.what}: {d.text} ({d.why})</li>)}
        {r.assumed.map((d, i) => <li key={i}>{d.what}: {d.value} ({d.why}); the key {d.field} says otherwise</li>)}
      </ul>
    </details>
  )
}
