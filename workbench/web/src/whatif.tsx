import type uPlot from "uplot"
import { useEffect, useMemo, useRef, useState } from "preact/hooks"
import * as api from "./api"
import { axes } from "./curves"
import { job, Work } from "./jobs"
import { lazy } from "./lazy"
import { Plot } from "./plot"
import { good, moment, name, tell, text } from "./store"
import { clock, levelUnit, show, volumeUnit } from "./units"
import type { CourseReply, FaultRow, Faults } from "./types"
import { VerdictMark } from "./verdict"
import { Section } from "./section"

const Picture = lazy<object>(async () => ({ default: (await import("./look")).InSpace }))

// What if: one thing goes wrong, and the water is followed through time. Moving
// through the time moves the water of the picture.
export default function WhatIf() {
  const [list, putList] = useState<FaultRow[]>([])
  const [id, put] = useState("")
  const [course, putCourse] = useState<CourseReply | null>(null)
  const of = text.value
  const report = good.value?.report
  useEffect(() => {
    let on = true
    const wait = window.setTimeout(() => {
      api.faults(name.value, of).then((r) => {
        if (!on) return
        putList(r.faults)
        if (!r.faults.some((f) => f.id === id)) put(r.faults[0]?.id ?? "")
      }, () => { /* the text has mistakes: the strip above says so */ })
    }, 150)
    return () => {
      on = false
      window.clearTimeout(wait)
    }
  }, [of, name.value])
  useEffect(() => {
    if (!id) return
    const stop = new AbortController()
    const wait = window.setTimeout(() => {
      api.course({ name: name.value, text: of, id }, stop.signal).then((c) => {
        putCourse(c)
        moment.value = levelsAt(c, 0)
      }, (e: unknown) => { if (!stop.signal.aborted) tell(e) })
    }, 100)
    return () => {
      stop.abort()
      window.clearTimeout(wait)
    }
  }, [id, of])
  useEffect(() => () => { moment.value = null }, [])
  if (!report) return <p class="wait">Computing …</p>
  const us = report.units === "us"
  return (
    <div class="whatif">
      <div class="card">
        <label>What goes wrong
          <select value={id} onChange={(e) => put(e.currentTarget.value)}>
            {list.map((f) => <option key={f.id} value={f.id}>{f.question}</option>)}
          </select>
        </label>
        {course && course.course.id === id ? <Course c={course} us={us} /> : <p class="quiet">Following the water …</p>}
      </div>
      <Everything us={us} />
    </div>
  )
}

const following = job<Faults>((t, _, far, stop) => api.everything(t, far, stop))

// Everything follows all faults over all doubts, and every two at once, which takes
// seconds.
function Everything({ us }: { us: boolean }) {
  return (
    <section class="card" aria-label="Everything that may go wrong">
      <h2>Everything that may go wrong</h2>
      <p class="lead">All faults with every doubt at its bad end, and every two at once.</p>
      <Work of={following} q={undefined} start="Follow them all" again="Follow them again">{(f) => (
        <>
          <ul class="all">{f.answers.map((a) => <li key={a.id}><VerdictMark of={a.verdict} /> {a.question} <span class="quiet">{a.figures[0]?.text}</span></li>)}</ul>
          <h3>The worst two at once, likely</h3>
          <ol class="all">{f.pairs.slice(0, 8).map((p, i) => <li key={i}>{p.what}: {p.spilled > 5e-6 ? `${show(volumeUnit(us), p.spilled)} on the floor` : "nothing on the floor"}</li>)}</ol>
        </>
      )}</Work>
    </section>
  )
}

export interface Moment { time: number, level: Map<string, number> }

// levelsAt reads all levels at a time, between two steps along a straight line.
export function levelsAt(c: CourseReply, t: number): Moment {
  const time = c.course.time
  let k = time.findIndex((x) => x >= t)
  if (k < 0) k = time.length - 1
  const b = time[k] ?? 0
  const a = time[Math.max(0, k - 1)] ?? b
  const share = b > a ? (t - a) / (b - a) : 1
  const level = new Map<string, number>()
  for (const l of c.levels) {
    const from = l.level[Math.max(0, k - 1)] ?? 0
    level.set(l.name, from + share * ((l.level[k] ?? from) - from))
  }
  return { time: t, level }
}

function Course({ c, us }: { c: CourseReply, us: boolean }) {
  const unit = levelUnit(us)
  const end = c.course.time.at(-1) ?? 0
  const [at, put] = useState(0)
  const [playing, play] = useState(false)
  const plot = useRef<uPlot | null>(null)
  const go = (t: number) => {
    put(t)
    moment.value = levelsAt(c, t)
  }
  useEffect(() => { go(0); play(false) }, [c])
  useEffect(() => {
    if (!playing) return
    let frame = 0
    let last = 0
    let t = at >= end ? 0 : at
    const step = (now: number) => {
      // The whole course in twelve seconds, however long it is.
      t = Math.min(end, t + (last ? (now - last) / 12000 * end : 0))
      last = now
      go(t)
      if (t >= end) play(false)
      else frame = requestAnimationFrame(step)
    }
    frame = requestAnimationFrame(step)
    return () => cancelAnimationFrame(frame)
  }, [playing])
  useEffect(() => { plot.current?.redraw(false) }, [at])
  const scale = end > 7200 ? { name: "hours", s: 3600 } : end > 120 ? { name: "minutes", s: 60 } : { name: "seconds", s: 1 }
  const data = useMemo(() => [c.course.time.map((t) => t / scale.s), ...c.levels.map((l) => l.level.map((h) => unit.of(h - floorOf(l.name))))] as uPlot.AlignedData, [c, us])
  const now = useRef(0)
  now.current = at / scale.s
  const options = useMemo(() => (ink: string, line: string, water: string): Omit<uPlot.Options, "width" | "height"> => ({
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: false } },
    axes: axes(ink, line, scale.name, `above its own floor, ${unit.name}`),
    series: [{}, ...c.levels.map((_, i) => ({ stroke: i === 0 ? water : ink, width: 2, dash: dashes[i % dashes.length] ?? [], points: { show: false } }))],
    hooks: {
      draw: [(u) => {
        const x = u.valToPos(now.current, "x", true)
        u.ctx.save()
        u.ctx.strokeStyle = ink
        u.ctx.lineWidth = 2 * devicePixelRatio
        u.ctx.beginPath()
        u.ctx.moveTo(x, u.bbox.top)
        u.ctx.lineTo(x, u.bbox.top + u.bbox.height)
        u.ctx.stroke()
        u.ctx.restore()
      }],
    },
  }), [c, us])
  const spilled = c.course.spilled
  return (
    <>
      <p class="lead">{spilled > 5e-6 ? <><strong>{show(volumeUnit(us), spilled)}</strong> reach the floor{c.course.spills.length ? `: ${c.course.spills.filter((s) => s.volume > 5e-6).map((s) => `${show(volumeUnit(us), s.volume)} ${s.from}`).join(", ")}` : ""}.</> : "No water reaches the floor."} Figures as likely; the answer to it counts their bad end.</p>
      <div class="scrub">
        <button type="button" class="main" onClick={() => play(!playing)}>{playing ? "Stop" : at >= end ? "Again" : "Run"}</button>
        <label class="time">{clock(at)}
          <input type="range" min="0" max={end} step={end / 400 || 1} value={at} aria-label="Time since it began" aria-valuetext={clock(at)} onInput={(e) => { play(false); go(e.currentTarget.valueAsNumber) }} />
        </label>
      </div>
      <div class="both">
        <div class="picture"><Picture /></div>
        <Section />
      </div>
      <Plot options={options} data={data} height={240} ready={(u) => { plot.current = u }} />
      <ul class="key">{c.levels.map((l, i) => <li key={l.name}><svg width="34" height="10" aria-hidden="true"><line x1="0" x2="34" y1="5" y2="5" class={i === 0 ? "line-water" : "line-ink"} stroke-dasharray={(dashes[i % dashes.length] ?? []).join(" ")} /></svg> {l.name}, {show(unit, (moment.value?.level.get(l.name) ?? l.level[0] ?? 0) - floorOf(l.name))}</li>)}</ul>
      <h3>What happens</h3>
      <ol class="events">
        {c.course.events.slice(0, 60).map((e, i) => (
          <li key={i} class={e.at <= at ? "past" : ""}><button type="button" class="link" onClick={() => { play(false); go(e.at) }}>{clock(e.at)}</button> {e.what}</li>
        ))}
      </ol>
    </>
  )
}

// Each water has its own floor, so that a rise of a few millimetres can be seen.
function floorOf(water: string): number {
  const w = good.value?.water
  if (!w) return 0
  return w.chambers.includes(water) || water === "sump" ? w.sumpFloor : w.poolFloor
}

const dashes = [[], [], [8, 4], [2, 3], [10, 3, 2, 3], [5, 5]]
