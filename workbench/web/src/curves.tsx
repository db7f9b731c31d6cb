import type uPlot from "uplot"
import { useEffect, useMemo, useRef, useState } from "preact/hooks"
import { Plot } from "./plot"
import { busy, good, setValues, withCurves } from "./store"
import { flowUnit, headUnit, show, smallFlowUnit } from "./units"
import type { FormField, OutletsWater, PumpCurves } from "./types"

// Curves: where the pump and the circuit meet, with the valves to turn, and what
// each outlet gives.
export default function Curves() {
  const o = good.value
  useEffect(() => withCurves(), [o, busy.value])
  if (!o?.report || !o.water || !o.curves) return <p class="wait">{o ? "Nothing to draw yet." : "Computing …"}</p>
  const us = o.report.units === "us"
  return (
    <div class="curves">
      {o.pump ? <Pump p={o.pump} us={us} valves={valvesOf(o.form)} /> : <p class="wait">With several pumps there is no single curve to draw; the answers count them all.</p>}
      {o.water.manifolds.map((m) => <Outlets key={m.name} m={m} us={us} />)}
    </div>
  )
}

function Pump({ p, us, valves }: { p: PumpCurves, us: boolean, valves: ValveAt[] }) {
  const flow = flowUnit(us)
  const head = headUnit(us)
  const data = useMemo(() => {
    const y = (v: number[]) => v.map((h) => Math.max(0, head.of(h)))
    return [p.flow.map(flow.of), y(p.pump[0]), y(p.pump[1]), y(p.pump[2]), y(p.system[0]), y(p.system[1]), y(p.system[2])] as uPlot.AlignedData
  }, [p, us])
  const top = head.of(Math.max(...p.pump[2], ...p.pump[0])) * 1.05
  const options = useMemo(() => (ink: string, line: string, water: string): Omit<uPlot.Options, "width" | "height"> => ({
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: false }, y: { range: [0, top] } },
    axes: axes(ink, line, `flow, ${flow.name}`, `head, ${head.name}`),
    bands: [{ series: [3, 1], fill: `${water}2c` }, { series: [4, 6], fill: `${ink}16` }],
    series: [
      {},
      ...[[1, water, [4, 3]], [2.5, water, []], [1, water, [4, 3]], [1, ink, [2, 3]], [2, ink, []], [1, ink, [2, 3]]].map(([width, stroke, dash]) => (
        { width, stroke, dash, points: { show: false } } as uPlot.Series)),
    ],
    hooks: {
      draw: [(u) => {
        const x = u.valToPos(flow.of(p.atFlow), "x", true)
        const y = u.valToPos(head.of(p.atHead), "y", true)
        const c = u.ctx
        c.save()
        c.fillStyle = ink
        c.beginPath()
        c.arc(x, y, 5 * devicePixelRatio, 0, 2 * Math.PI)
        c.fill()
        if (p.target > 0) {
          const t = u.valToPos(flow.of(p.target), "x", true)
          c.strokeStyle = ink
          c.setLineDash([1, 4])
          c.beginPath()
          c.moveTo(t, u.bbox.top)
          c.lineTo(t, u.bbox.top + u.bbox.height)
          c.stroke()
        }
        c.restore()
      }],
    },
  }), [us, top, p.atFlow, p.atHead, p.target])
  // The point is drawn to where the pointer is by turning the first valve, a bit with
  // each answer that comes.
  const plot = useRef<uPlot | null>(null)
  const wanted = useRef(0)
  const turn = () => {
    const v = valves[0]
    if (!v || !(wanted.current > 0) || !(p.atFlow > 0)) return
    const off = wanted.current / p.atFlow
    const to = Math.round(Math.min(100, Math.max(5, v.open * Math.min(1.5, Math.max(0.6, off)))))
    if (Math.abs(off - 1) > 0.01 && to !== Math.round(v.open)) void setValues([{ path: v.path, to: `${to} %` }], true)
  }
  useEffect(turn, [p.atFlow])
  const aim = (e: { currentTarget: HTMLElement, clientX: number }) => {
    const u = plot.current
    if (!u) return
    const x = u.posToVal(e.clientX - u.over.getBoundingClientRect().left, "x")
    wanted.current = x / flow.of(1)
    turn()
  }
  return (
    <section class="card" aria-label="Pump and circuit">
      <h2>Pump and circuit</h2>
      <p class="lead">It runs at <strong>{show(flow, p.atFlow)}</strong> under {show(head, p.atHead)} of head{p.target > 0 ? <>; you want {show(flow, p.target)} (dotted)</> : null}.</p>
      <div
        class={valves[0] ? "dragged" : ""}
        onPointerDown={(e) => {
          if (!valves[0]) return
          e.currentTarget.setPointerCapture(e.pointerId)
          aim(e)
        }}
        onPointerMove={(e) => { if (e.currentTarget.hasPointerCapture(e.pointerId)) aim(e) }}
        onPointerUp={() => { wanted.current = 0 }}
      >
        <Plot options={options} data={data} height={300} ready={(u) => { plot.current = u }} />
      </div>
      {valves[0] && <p class="key">Drag the point to the flow you want: the {valves[0].name} turns until it runs there, or as near as it can.</p>}
      <p class="key"><span class="k-water" aria-hidden="true" /> what the pump gives, from its bad to its good end <span class="k-ink" aria-hidden="true" /> what the circuit asks for</p>
      {valves.map((v) => <Valve key={v.path} v={v} />)}
    </section>
  )
}

interface ValveAt { path: string, line: number, name: string, run: string, open: number }

// valvesOf finds the valves of the runs; one without a setting is open.
function valvesOf(form: FormField[]): ValveAt[] {
  return form.flatMap((f) => {
    const m = /^runs\[([^\]]*)\]\.pieces\[\d+\]\.part$/.exec(f.path)
    if (!m || !f.text.includes("valve") || f.text.includes("check valve")) return []
    const path = f.path.replace(/part$/, "open")
    const open = form.find((x) => x.path === path)
    return [{ path, line: f.line, name: f.text, run: m[1] ?? "", open: open ? Number.parseFloat(open.text) : 100 }]
  })
}

// Valve turns one valve; the answers follow while it is dragged, and the drag is
// one step of undo.
function Valve({ v }: { v: ValveAt }) {
  const given = v.open
  const [typed, put] = useState<number | null>(null)
  const id = `valve-${v.path.replace(/\W/g, "_")}`
  return (
    <div class="valve">
      <label for={id}>{v.name} in the {v.run}, line {v.line}: {typed ?? given} % open</label>
      <input
        id={id} type="range" min="5" max="100" step="1" value={typed ?? given}
        onInput={(e) => {
          const to = e.currentTarget.valueAsNumber
          put(to)
          void setValues([{ path: v.path, to: `${to} %` }], true)
        }}
        onChange={() => put(null)}
      />
    </div>
  )
}

function Outlets({ m, us }: { m: OutletsWater, us: boolean }) {
  const unit = smallFlowUnit(us)
  const mean = m.flow.reduce((a, b) => a + b, 0) / Math.max(1, m.flow.length)
  const most = Math.max(...m.high, 1e-12)
  const driest = m.flow.indexOf(Math.min(...m.flow))
  const wettest = m.flow.indexOf(Math.max(...m.flow))
  if (m.flow.length === 0) return null
  return (
    <section class="card" aria-label={`Outlets of ${m.name}`}>
      <h2>Outlets of the {m.name}</h2>
      <p class="lead">
        {m.flow.length} outlets give {show(flowUnit(us), m.total)} together, {show(unit, mean)} each in the mean.
        The driest is number {driest + 1} with {show(unit, m.flow[driest] ?? 0)}, the wettest number {wettest + 1} with {show(unit, m.flow[wettest] ?? 0)}.
      </p>
      {m.flow.length <= 400 && (
        <svg class="bars" viewBox={`0 0 ${m.flow.length * 10} 100`} preserveAspectRatio="none" aria-hidden="true">
          {m.flow.map((q, i) => (
            <g key={i}>
              <rect x={i * 10 + 1} width="8" y={100 - 96 * q / most} height={96 * q / most} class={q < 0.8 * mean ? "dry" : q > 1.2 * mean ? "wet" : "fair"} />
              <line x1={i * 10 + 5} x2={i * 10 + 5} y1={100 - 96 * (m.low[i] ?? q) / most} y2={100 - 96 * (m.high[i] ?? q) / most} class="whisker" />
            </g>
          ))}
        </svg>
      )}
      <details>
        <summary>As a table</summary>
        <table>
          <thead><tr><th scope="col">Outlet</th><th scope="col">Low</th><th scope="col">Likely</th><th scope="col">High</th></tr></thead>
          <tbody>
            {m.flow.slice(0, 400).map((q, i) => (
              <tr key={i}><th scope="row">{i + 1}</th><td>{unit.of(m.low[i] ?? q).toFixed(1)}</td><td>{unit.of(q).toFixed(1)}</td><td>{unit.of(m.high[i] ?? q).toFixed(1)}</td></tr>
            ))}
          </tbody>
          <caption>in {unit.name}</caption>
        </table>
      </details>
    </section>
  )
}

export function axes(ink: string, line: string, x: string, y: string): uPlot.Axis[] {
  const font = "13px system-ui, sans-serif"
  const one = { stroke: ink, grid: { stroke: line, width: 1 }, ticks: { stroke: line, width: 1 }, font, labelFont: font, labelSize: 22 }
  return [{ ...one, label: x }, { ...one, label: y, size: 52 }]
}
