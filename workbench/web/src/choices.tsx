import { signal } from "@preact/signals"
import * as api from "./api"
import { job, Work } from "./jobs"
import { good, tryOut } from "./store"
import type { Sought, SoughtDesign } from "./types"

const things = [
  ["pump", "the pump: on the shelf, or another class"], ["hose", "the hose to the manifold, with its fittings"], ["outlets", "how many outlets"],
  ["holes", "how large their holes"], ["feed", "where the manifold is fed"], ["drain", "the size of the drain"], ["lip", "the height of its lip"],
  ["second", "a second drain"], ["dam", "the glass of the dam"], ["fill", "how far the sump is filled"],
] as const
const goals = [["cheapest", "the cheapest"], ["least-power", "the least power"], ["fewest-buys", "the fewest things to buy"], ["quietest", "the quietest"]] as const

interface Question { open: string[], for: string, front: boolean }

const open = signal<string[]>(["pump", "hose"])
const goal = signal("cheapest")
const front = signal(false)
const picked = signal(0) // of the front
const seeking = job<Sought, Question>((t, q, far, stop) => api.seek({ ...t, ...q }, far, stop))

// Choices: what is left open, and the best design of all that it may be.
export default function Choices() {
  if (!good.value?.report) return <p class="wait">Computing …</p>
  return (
    <div class="curves choices">
      <section class="card" aria-label="Leave it open">
        <h2>Leave it open</h2>
        <p class="lead">Tick what you do not care about. Every design that it allows is gone through, the best first, until one holds with all doubts at their bad end and makes nothing else worse.</p>
        <fieldset class="open">
          <legend>May be chosen</legend>
          {things.map(([word, about]) => (
            <label key={word}><input type="checkbox" checked={open.value.includes(word)} onChange={(e) => {
              const on = e.currentTarget.checked
              open.value = things.map(([w]) => w).filter((w) => w === word ? on : open.value.includes(w))
            }} /> {about}</label>
          ))}
        </fieldset>
        <label class="goal">Wanted most <select value={goal.value} onChange={(e) => { goal.value = e.currentTarget.value }}>{goals.map(([id, name]) => <option key={id} value={id}>{name}</option>)}</select></label>
        <label class="goal"><input type="checkbox" checked={front.value} onChange={(e) => { front.value = e.currentTarget.checked }} /> Look at all of them, and show what more money gives</label>
        <Work of={seeking} q={{ open: open.value, for: goal.value, front: front.value }} start="Look for it" again="Look again">{(r) => <Found r={r} />}</Work>
      </section>
    </div>
  )
}

function Found({ r }: { r: Sought }) {
  const list = r.front ?? []
  const one = list[Math.min(picked.value, list.length - 1)] ?? r.best
  return (
    <>
      {r.best && r.let > 0 && <p>Nothing makes every answer about the water hold; {r.let === 1 ? "those that do not hold as drawn may be tight here." : "any of them may be tight here."}</p>}
      {list.length > 1 && <Front list={list} money={r.currency} />}
      {one ? <Design d={one} money={r.currency} best={list.length === 0 || picked.value === 0} /> : <p><strong>None of the {r.decided} designs that were looked at holds.</strong></p>}
      <h3>Why not others</h3>
      <p>{r.decided} of {r.designs} designs were looked at. {r.proven ? "None of the others is better." : "One of the others may be better."}</p>
      <ul class="plain">
        {Object.entries(r.because).sort((a, b) => b[1] - a[1]).slice(0, 8).map(([id, n]) => <li key={id}>{n} did not pass “{question(id)}”</li>)}
      </ul>
    </>
  )
}

const question = (id: string) => good.value?.report?.answers.find((a) => a.id === id)?.question ?? id

function Design({ d, money, best }: { d: SoughtDesign, money: string, best: boolean }) {
  const left = d.answers.filter((a) => a.verdict !== "holds")
  return (
    <>
      <h3>{best ? "The best of them" : "This one"}: {costs(d, money)} for what is chosen between</h3>
      <ul class="plain">{d.choices.map((c) => <li key={c}>{c}</li>)}</ul>
      <p>{clear(d)}{d.power > 0 ? `; the pump takes ${Math.round(d.power)} W` : ""}.</p>
      {left.length > 0 && (
        <details>
          <summary>What does not hold with it either ({left.length})</summary>
          <ul class="plain">{left.map((a) => <li key={a.id}>{question(a.id)} {a.verdict}</li>)}</ul>
        </details>
      )}
      {d.edits.length > 0 && <button type="button" onClick={() => void tryOut(d.choices.filter((c) => !c.endsWith(": as drawn")).join("; "), d.edits)}>Try it</button>}
    </>
  )
}

const costs = (d: SoughtDesign, money: string) => `${d.priced && !d.memory ? "" : "about "}${Math.round(d.cost)} ${money}${!d.priced ? ", some of it guessed" : d.memory ? ", from memory" : ""}`

const clear = (d: SoughtDesign) => d.margin < 0
  ? `At the bad end “${question(d.near)}” is past its limit by ${Math.round(-100 * d.margin)} %`
  : `At the bad end “${question(d.near)}” is nearest to its limit, ${Math.round(100 * d.margin)} % clear of it`

// Front is cost against margin: each step to the right costs more and stays clearer of
// every limit.
function Front({ list, money }: { list: SoughtDesign[], money: string }) {
  const cost = list.map((d) => d.cost), margin = list.map((d) => d.margin)
  const low = Math.min(...cost), wide = Math.max(...cost) - low || 1
  const least = Math.min(...margin), tall = Math.max(...margin) - least || 1
  const at = (d: SoughtDesign): [number, number] => [8 + 84 * (d.cost - low) / wide, 42 - 34 * (d.margin - least) / tall]
  return (
    <figure class="front">
      <svg viewBox="0 0 100 50" aria-hidden="true">
        <path class="axis" d="M4 46h92M4 46V4" />
        <polyline points={list.map((d) => at(d).join(",")).join(" ")} />
        {list.map((d, i) => <circle key={i} class={i === picked.value ? "at" : ""} cx={at(d)[0]} cy={at(d)[1]} r="2" />)}
      </svg>
      <figcaption>To the right it costs more, {Math.round(low)} to {Math.round(low + wide)} {money}; upwards it stays clearer of its limits.</figcaption>
      <div class="picks" role="group" aria-label="More margin for more money">
        {list.map((d, i) => <button key={i} type="button" aria-pressed={i === picked.value} onClick={() => { picked.value = i }}>{Math.round(d.cost)} {money}, {Math.round(100 * d.margin)} %</button>)}
      </div>
    </figure>
  )
}
