import { useEffect, useState } from "preact/hooks"
import * as api from "./api"
import { recall, remember } from "./memory"
import { good, name, tell, text, tryOut, view } from "./store"
import type { AisleRow, PumpSeen } from "./aisletypes"
import { VerdictMark, classOf } from "./verdict"

// Aisle: boxes on the shelf, by the two figures that stand on each. For one hand
// and little time: large fields, number pads, the best first.
interface Box { flow: string, flowUnit: string, head: string, headUnit: string }

const flowUnits = ["L/h", "L/min", "US gal/h", "imp gal/h"]
const headUnits = ["m", "ft", "in", "cm"]
const empty = (us: boolean): Box => ({ flow: "", flowUnit: us ? "US gal/h" : "L/h", head: "", headUnit: us ? "ft" : "m" })

function remembered(us: boolean): Box[] {
  try {
    const b = JSON.parse(recall("aisle") ?? "") as Box[]
    if (Array.isArray(b) && b.length > 0) return b.slice(0, 4)
  } catch { /* none yet */ }
  return [empty(us), empty(us)]
}

export default function Aisle() {
  const us = good.value?.report?.units === "us"
  const [boxes, put] = useState<Box[]>(() => remembered(us))
  const [rows, putRows] = useState<AisleRow[]>([])
  const of = text.value
  useEffect(() => remember("aisle", JSON.stringify(boxes)), [boxes])
  useEffect(() => {
    const pumps: PumpSeen[] = boxes.flatMap((b, i) => b.flow && b.head ? [{ name: `Box ${i + 1}`, flow: `${b.flow} ${b.flowUnit}`, head: `${b.head} ${b.headUnit}` }] : [])
    if (pumps.length === 0) {
      putRows([])
      return
    }
    const stop = new AbortController()
    const wait = window.setTimeout(() => {
      api.aisle({ name: name.value, text: of, pumps, piece: "", parts: [] }, stop.signal).then((r) => putRows(r.rows), (e: unknown) => { if (!stop.signal.aborted) tell(e) })
    }, 120)
    return () => {
      stop.abort()
      window.clearTimeout(wait)
    }
  }, [boxes, of])
  const edit = (i: number, with_: Partial<Box>) => put(boxes.map((b, k) => k === i ? { ...b, ...with_ } : b))
  return (
    <div class="aisle">
      <p class="lead">Type the two figures from each box, the most it says of each. Neither is what you will get: at your height, through your hose, it is less.</p>
      {boxes.map((b, i) => {
        const row = rows.find((r) => r.name === `Box ${i + 1}`)
        const id = `box-${i}`
        return (
          <section key={i} class={`box ${row ? classOf(row.verdict) : ""}`} aria-label={`Box ${i + 1}`}>
            <h2>Box {i + 1} {row && !row.problem && <VerdictMark of={row.verdict} />}</h2>
            <div class="pair">
              <label for={`${id}-f`}>Flow</label>
              <input id={`${id}-f`} inputMode="decimal" value={b.flow} onInput={(e) => edit(i, { flow: e.currentTarget.value.replace(",", ".") })} />
              <select aria-label={`Unit of flow, box ${i + 1}`} value={b.flowUnit} onChange={(e) => edit(i, { flowUnit: e.currentTarget.value })}>{flowUnits.map((u) => <option key={u}>{u}</option>)}</select>
            </div>
            <div class="pair">
              <label for={`${id}-h`}>Head</label>
              <input id={`${id}-h`} inputMode="decimal" value={b.head} onInput={(e) => edit(i, { head: e.currentTarget.value.replace(",", ".") })} />
              <select aria-label={`Unit of head, box ${i + 1}`} value={b.headUnit} onChange={(e) => edit(i, { headUnit: e.currentTarget.value })}>{headUnits.map((u) => <option key={u}>{u}</option>)}</select>
            </div>
            {row && <Verdicts row={row} />}
          </section>
        )
      })}
      {boxes.length < 4 && <button type="button" class="more" onClick={() => put([...boxes, empty(us)])}>Another box</button>}
      <PartLook />
    </div>
  )
}

function Verdicts({ row }: { row: AisleRow }) {
  if (row.problem) return <p class="wrong" role="status">{row.problem.what}. {row.problem.do}</p>
  return (
    <div role="status">
      {row.answers.map((a) => <p key={a.id}><VerdictMark of={a.verdict} /> {a.id === "lift" ? <strong>{a.figures[0]?.text}</strong> : null} {a.say}</p>)}
      <button type="button" onClick={() => { void tryOut(`${row.name} in place of the pump`, row.edits).then(() => { view.value = "answers" }) }}>Put it into the design</button>
    </div>
  )
}

// PartLook compares up to four fittings for one place of the design, and tells how
// far the figures of each can be trusted.
function PartLook() {
  const [look, put] = useState("")
  const [found, putFound] = useState<{ name: string, kind: string, mark: string, note?: string }[]>([])
  const [piece, putPiece] = useState("")
  const [parts, putParts] = useState<string[]>([])
  const [rows, putRows] = useState<AisleRow[]>([])
  const of = text.value
  const pieces = (good.value?.form ?? []).filter((f) => /\.pieces\[\d+\]\.part$/.test(f.path) || /^drains\[[^\]]*\]\.part$/.test(f.path))
  const place = piece || pieces[0]?.path.replace(/\.part$/, "") || ""
  useEffect(() => {
    if (look.trim().length < 2) {
      putFound([])
      return
    }
    let on = true
    const wait = window.setTimeout(() => { api.parts(look).then((r) => { if (on) putFound(r.parts) }, tell) }, 150)
    return () => {
      on = false
      window.clearTimeout(wait)
    }
  }, [look])
  useEffect(() => {
    if (parts.length === 0 || !place) {
      putRows([])
      return
    }
    const stop = new AbortController()
    api.aisle({ name: name.value, text: of, pumps: [], piece: place, parts }, stop.signal).then((r) => putRows(r.rows), (e: unknown) => { if (!stop.signal.aborted) tell(e) })
    return () => stop.abort()
  }, [parts, place, of])
  return (
    <section class="box fittings" aria-label="A fitting in your hand">
      <h2>A fitting in your hand</h2>
      <label class="wide">In the place of
        <select value={place} onChange={(e) => putPiece(e.currentTarget.value)}>
          {pieces.map((f) => <option key={f.path} value={f.path.replace(/\.part$/, "")}>{f.text}, line {f.line}</option>)}
        </select>
      </label>
      <label class="wide">Words on it <input type="search" value={look} onInput={(e) => put(e.currentTarget.value)} placeholder="elbow 16 mm" /></label>
      <ul class="found">
        {found.slice(0, 8).map((p) => (
          <li key={p.name}>
            <button type="button" disabled={parts.includes(p.name) || parts.length >= 4} onClick={() => putParts([...parts, p.name])}>{p.name}</button>
            <span class="quiet">{p.kind}; figures: {p.mark}{p.note ? `; ${p.note}` : ""}</span>
          </li>
        ))}
      </ul>
      {rows.map((row) => (
        <div key={row.name} class={`box ${classOf(row.verdict)}`}>
          <h3>{row.name}</h3>
          {row.problem
            ? <p class="wrong">{row.problem.what}. {row.problem.do}</p>
            : row.answers.map((a) => <p key={a.id}><VerdictMark of={a.verdict} /> {a.question} {a.figures[0]?.text}</p>)}
          {!row.problem && <button type="button" onClick={() => { void tryOut(`${row.name} in its place`, row.edits).then(() => { view.value = "answers" }) }}>Put it into the design</button>}
          <button type="button" onClick={() => putParts(parts.filter((x) => x !== row.name))}>Leave it out</button>
        </div>
      ))}
    </section>
  )
}
