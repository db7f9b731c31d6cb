import { useEffect, useState } from "preact/hooks"
import * as api from "./api"
import { lazy } from "./lazy"
import { useReply } from "./reply"
import { Told } from "./told"
import { lit } from "./store"
import type { PlanReply, PlanStep } from "./plantypes"

const Picture = lazy<object>(async () => ({ default: (await import("./look")).InSpace }))

// Plan: the order of work, a bar a step, with what each one closes off lit in the
// picture before it is done.
export default function Plan() {
  const p = useReply(api.plan)
  const [open, put] = useState("")
  useEffect(() => { lit.value = p?.steps.find((s) => s.id === open)?.lost ?? [] }, [p, open])
  useEffect(() => () => { lit.value = [] }, [])
  if (!p) return <p class="wait">Planning …</p>
  return (
    <div class="whatif aside plan">
      <section class="card" aria-label="When it is done">
        <h2>Order of work</h2>
        {p.says.map((s) => <p key={s}>{s}</p>)}
        <ul class="key">
          <li><Bar days={4}><rect class="work" width="4" y="3" height="6" /></Bar> work</li>
          <li><Bar days={4}><rect class="work sets" width="4" y="3" height="6" /></Bar> work that sets the end</li>
          <li><Bar days={4}><rect class="stands" width="4" y="4" height="4" /></Bar> stands, as to cure</li>
          <li><Bar days={4}><path class="slack" d="M0 6h4" /></Bar> may wait</li>
          {p.deadline !== undefined && <li><Bar days={4}><path class="end" d="M2 0v12" /></Bar> deadline</li>}
        </ul>
      </section>
      <div class="picture"><Picture /></div>
      <section class="card" aria-label="Steps">
        <p class="quiet from">From {p.ticks[0]?.name}; a line is a Monday.</p>
        <ol class="steps">{p.steps.map((s) => <Step key={s.id} s={s} p={p} open={open === s.id} choose={() => put(open === s.id ? "" : s.id)} />)}</ol>
        <p class="quiet">Taken: {p.taken.join("; ")}.</p>
      </section>
    </div>
  )
}

const state = (s: PlanStep) => s.done ? "done" : s.under ? "under way" : s.sets ? "sets the end" : s.slack >= 1 ? `may wait ${Math.floor(s.slack)} days` : ""

function Step({ s, p, open, choose }: { s: PlanStep, p: PlanReply, open: boolean, choose: () => void }) {
  const id = `step-${s.id.replace(/\W/g, "_")}`
  return (
    <li class={s.done ? "past" : ""}>
      <button type="button" aria-expanded={open} aria-controls={id} onClick={choose}>
        <span>{s.say}</span> <span class="quiet">{s.when}{state(s) && `, ${state(s)}`}</span>
      </button>
      <Bar days={p.days}>
        {p.ticks.map((t) => <path key={t.at} class="tick" d={`M${t.at} 0v12`} />)}
        {s.finish > s.end && <rect class="stands" x={s.end} y="4" width={s.finish - s.end} height="4" />}
        {s.slack > 0 && !s.done && <path class="slack" d={`M${s.finish} 6h${s.slack}`} />}
        {s.pieces.map(([a, b]) => <rect key={a} class={s.sets ? "work sets" : "work"} x={a} y="2" width={Math.max(b - a, p.days / 160)} height="8" />)}
        {p.deadline !== undefined && <path class="end" d={`M${p.deadline} 0v12`} />}
      </Bar>
      <div id={id} hidden={!open}>{open && <Told s={s} />}</div>
    </li>
  )
}

function Bar({ days, children }: { days: number, children: preact.ComponentChildren }) {
  return <svg class="span" viewBox={`0 0 ${days} 12`} preserveAspectRatio="none" aria-hidden="true">{children}</svg>
}
