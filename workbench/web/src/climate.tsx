import type uPlot from "uplot"
import type { ComponentChildren } from "preact"
import { useEffect, useMemo, useRef, useState } from "preact/hooks"
import * as api from "./api"
import { axes } from "./curves"
import { lazy } from "./lazy"
import { Plot } from "./plot"
import { useReply } from "./reply"
import { fogged, good, painted } from "./store"
import { stepShade } from "./shades"
import { digits, hour, showPart, tempUnit, volumeUnit, show } from "./units"
import type { Painted, SeasonShown } from "./climatetypes"

const Picture = lazy<object>(async () => ({ default: (await import("./look")).InSpace }))

// Climate: a day of heat and moisture with the front fogging in the picture, and the
// light painted on wall and water.
export default function Climate() {
  const c = useReply(api.climate)
  const [season, choose] = useState(0)
  const report = good.value?.report
  useEffect(() => () => {
    fogged.value = false
    painted.value = null
  }, [])
  if (!report || !c) return <p class="wait">Following a day …</p>
  const us = report.units === "us"
  const s = c.seasons[season]
  return (
    <div class="whatif aside climate">
      {s && (
        <Day s={s} us={us}>
          <div class="tabs" role="group" aria-label="Season">
            {c.seasons.map((x, i) => <button key={x.name} type="button" aria-pressed={i === season} onClick={() => choose(i)}>With the {x.name}</button>)}
          </div>
        </Day>
      )}
      <Map p={c.light} none="The file lists no lamp with its lumens or its power, so no light can be painted. Daylight is not counted." />
      <p class="quiet">As is likely. Taken for granted: {c.taken.join("; ")}.</p>
    </div>
  )
}

// Day is one day: what it comes to, a slider through it that fogs the picture, and its
// course.
function Day({ s, us, children }: { s: SeasonShown, us: boolean, children: ComponentChildren }) {
  const [at, put] = useState(12 * 12)
  const [playing, play] = useState(false)
  const plots = useRef<(uPlot | null)[]>([null, null])
  const deg = tempUnit(us)
  const last = s.time.length - 1
  useEffect(() => {
    fogged.value = s.fogged[at] ?? false
    for (const u of plots.current) u?.redraw(false)
  }, [at, s])
  useEffect(() => {
    if (!playing) return
    let frame = 0
    let began = 0
    const from = at >= last ? 0 : at
    const step = (now: number) => {
      began ||= now
      const to = Math.min(last, from + Math.floor((now - began) / 12000 * last)) // a day in twelve seconds
      put(to)
      if (to >= last) play(false)
      else frame = requestAnimationFrame(step)
    }
    frame = requestAnimationFrame(step)
    return () => cancelAnimationFrame(frame)
  }, [playing])
  const now = useRef(0)
  now.current = (s.time[at] ?? 0) / 3600
  const hours = s.time.map((t) => t / 3600)
  const temps = useMemo(() => [hours, s.air.map(deg.of), s.water.map(deg.of), s.room.map(deg.of)] as uPlot.AlignedData, [s, us])
  const damp = useMemo(() => [hours, s.humidity.map((v) => 100 * v), s.roomHumidity.map((v) => 100 * v)] as uPlot.AlignedData, [s])
  const options = (label: string, dashes: number[][], fog: boolean) => (ink: string, line: string, water: string): Omit<uPlot.Options, "width" | "height"> => ({
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: false, range: [0, 24] } },
    axes: axes(ink, line, "hour of the day", label),
    series: [{}, ...dashes.map((dash, i) => ({ stroke: i === 1 && dashes.length === 3 ? water : ink, width: i === 0 ? 2.5 : 1.5, dash, points: { show: false } }))],
    hooks: {
      draw: [(u) => {
        const x = (h: number) => u.valToPos(h, "x", true)
        const c = u.ctx
        c.save()
        c.fillStyle = c.strokeStyle = ink
        if (fog) {
          c.globalAlpha = 0.18
          for (const [a, b] of s.fog) c.fillRect(x(a / 3600), u.bbox.top, x(b / 3600) - x(a / 3600), u.bbox.height)
          c.globalAlpha = 1
        }
        c.setLineDash([])
        c.lineWidth = 2 * devicePixelRatio
        c.beginPath()
        c.moveTo(x(now.current), u.bbox.top)
        c.lineTo(x(now.current), u.bbox.top + u.bbox.height)
        c.stroke()
        c.restore()
      }],
    },
  })
  const temp = useMemo(() => options(`temperature, ${deg.name}`, [[], [], [3, 4]], false), [s, us])
  const humid = useMemo(() => options("humidity, %", [[], [3, 4]], true), [s])
  const t = (v: number | undefined) => show(deg, v ?? 0)
  const pc = (v: number | undefined) => `${Math.round(100 * (v ?? 0))} %`
  const fog = s.fog.reduce((sum, [a, b]) => sum + b - a, 0)
  const range = (v: number[]) => `${t(Math.min(...v))} to ${t(Math.max(...v))}`
  const clear = s.clear[at] ?? 0
  const litres = volumeUnit(us)
  const front = good.value?.scene?.parts.some((p) => p.at === "front" || p.at === "door")
  return (
    <>
      <section class="card" aria-label="A day in it">
      <h2>A day in it</h2>
      {children}
      <p class="lead">
        Air {range(s.air)}, water {range(s.water)}, in a room of {range(s.room)}. Humidity {pc(Math.min(...s.humidity))} to {pc(Math.max(...s.humidity))}.{" "}
        {fog >= 86400 ? <strong>The front is fogged all day.</strong> : fog > 0 ? <>The front is fogged for <strong>{showPart(fog)}</strong> a day: {s.fog.slice(0, 4).map(([a, b]) => `${hour(a)} to ${hour(b)}`).join(", ")}.</> : "The front stays clear."}{" "}
        {digits(litres.of(s.evaporated / 998))} {litres.name} a day go into the air, which changes {s.changes.toFixed(1)} times an hour.{s.lit.length > 0 ? ` Lamps are on from ${s.lit.map(([a, b]) => `${hour(a)} to ${hour(b)}`).join(", ")}.` : ""}
      </p>
      <div class="scrub">
        <button type="button" class="main" onClick={() => play(!playing)}>{playing ? "Stop" : at >= last ? "Again" : "Run"}</button>
        <label class="time">{hour(s.time[at] ?? 0)}
          <input type="range" min="0" max={last} step="1" value={at} aria-label="Time of day" aria-valuetext={hour(s.time[at] ?? 0)} onInput={(e) => { play(false); put(e.currentTarget.valueAsNumber) }} />
        </label>
      </div>
      <p class="now">Air {t(s.air[at])}, water {t(s.water[at])}, humidity {pc(s.humidity[at])}; the room {t(s.room[at])} at {pc(s.roomHumidity[at])}. {s.fogged[at] ? "The front is fogged." : clear < 0 ? "Vapour settles on the front, too thin to be seen." : `The front is ${show(tempStep(us), clear)} warmer than the dew point: clear.`}{s.fogged[at] && !front ? " The file lists no pane at the front, so the picture shows none." : ""}</p>
      </section>
      <div class="picture"><Picture /></div>
      <section class="card" aria-label="The course of the day">
      <Plot options={temp} data={temps} height={220} ready={(u) => { plots.current[0] = u }} />
      <ul class="key"><Key at="line-ink" dash="">air</Key><Key at="line-water" dash="">water</Key><Key at="line-ink" dash="3 4">room</Key></ul>
      <Plot options={humid} data={damp} height={180} ready={(u) => { plots.current[1] = u }} />
      <ul class="key"><Key at="line-ink" dash="">inside</Key><Key at="line-ink" dash="3 4">room</Key>{fog > 0 && <li>grey: the front is fogged</li>}</ul>
      </section>
    </>
  )
}

const tempStep = (us: boolean) => us ? { name: "F", of: (k: number) => 1.8 * k, digits: 1 } : { name: "K", of: (k: number) => k, digits: 1 }

function Key({ at, dash, children }: { at: string, dash: string, children: string }) {
  return <li><svg width="34" height="10" aria-hidden="true"><line x1="0" x2="34" y1="5" y2="5" class={at} stroke-dasharray={dash} /></svg> {children}</li>
}

// Map paints a figure on the picture, on demand, and tells it in words.
function Map({ p, none }: { p: Painted | undefined, none: string }) {
  const shown = painted.value !== null && p !== undefined
  useEffect(() => { if (painted.peek()) painted.value = p ?? null }, [p])
  if (!p) return <p class="quiet">{none}</p>
  return (
    <section class="card map" aria-label={p.title}>
      <h2>{p.title[0]?.toUpperCase()}{p.title.slice(1)} on wall and water</h2>
      <p class="lead">In {p.unit}: {p.says.join("; ")}.</p>
      <button type="button" aria-pressed={shown} onClick={() => { painted.value = shown ? null : p }}>{shown ? "Take the paint off" : "Paint it on the picture"}</button>
      <ul>
        {p.steps.map((s, i) => (
          <li key={i}><svg width="20" height="14" aria-hidden="true"><rect width="20" height="14" fill={`rgb(${stepShade(i, p.steps.length).join()})`} /></svg> {s.say}: {Math.round(100 * s.share)} % of the wall</li>
        ))}
      </ul>
      {p.taken.length > 0 && <p class="quiet">Taken: {p.taken.join("; ")}.</p>}
    </section>
  )
}
