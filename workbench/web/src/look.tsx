import { useEffect, useRef, useState } from "preact/hooks"
import { Flat } from "./flat"
import { Papers } from "./papers"
import { PartCard } from "./partcard"
import { chosen, fogged, good, lit, moment, painted, theme } from "./store"
import { shades } from "./shades"
import { flowUnit, show as showIn, smallFlowUnit } from "./units"
import type { ScenePart, Water } from "./types"
import type { Cut, Space } from "./space"

// Look: the enclosure to scale, in space or as flat views with sizes.
export default function Look({ brief }: { brief?: boolean }) {
  const [how, show] = useState<"space" | "flat" | "paper">(() => !brief && window.innerWidth < 500 ? "flat" : "space")
  const o = good.value
  if (!o?.scene) return <p class="wait">{o ? "Nothing can be drawn of this design yet." : "Computing …"}</p>
  return (
    <div class={brief ? "looking brief" : "looking"}>
      <div class="tabs" role="group" aria-label="Show it">
        <button type="button" aria-pressed={how === "space"} onClick={() => show("space")}>In space</button>
        <button type="button" aria-pressed={how === "flat"} onClick={() => show("flat")}>Flat, with sizes</button>
        <button type="button" aria-pressed={how === "paper"} onClick={() => show("paper")}>Drawings</button>
      </div>
      {how === "flat" ? <Flat scene={o.scene} water={o.water} us={o.report?.units === "us"} /> : how === "paper" ? <Papers /> : <InSpace />}
      {!brief && o.water && <Running w={o.water} us={o.report?.units === "us"} />}
      <PartCard />
    </div>
  )
}

// Running tells in words what the picture shows of the water: what goes where, how
// fast, and what holds each drain back.
function Running({ w, us }: { w: Water, us: boolean }) {
  const flow = flowUnit(us)
  const speed = (v: number) => us ? `${(v / 0.3048).toFixed(1)} ft/s` : `${v.toFixed(2)} m/s`
  return (
    <details class="running">
      <summary>The water in words</summary>
      <ul>
        {w.runs.map((r) => <li key={r.name}>{r.name}: {r.shut ? "shut" : `${showIn(flow, r.flow)} at up to ${speed(r.speed)}`}</li>)}
        {w.manifolds.map((m) => <li key={m.name}>{m.name}: {showIn(flow, m.total)} out of {m.flow.length} outlets, pale ones give most</li>)}
        {w.drains.map((d) => <li key={d.name}>{d.name}: {showIn(flow, d.flow)}, held back by {d.limit.replace(/,$/, "")}; at most {showIn(flow, d.capacity)} before the dam runs over</li>)}
        {w.spills && <li>The pool runs over while it runs.</li>}
      </ul>
    </details>
  )
}

// Shade tells what the colours of the outlets mean.
function Shade({ w, us }: { w: Water, us: boolean }) {
  const all = w.manifolds.flatMap((m) => m.flow)
  if (all.length === 0) return null
  const unit = smallFlowUnit(us)
  return (
    <p class="shade reins">
      Outlets: {showIn(unit, Math.min(...all))}
      <svg viewBox="0 0 4 1" preserveAspectRatio="none" aria-hidden="true">
        {shades.map((c, i) => <rect key={c} x={i} width="1.02" height="1" fill={c} />)}
      </svg>
      {showIn(unit, Math.max(...all))}
    </p>
  )
}

// The cuts, in the trade's words, and from where what is left of each is counted.
const ways: { id: Cut, name: string, from: string }[] = [
  { id: "across", name: "across", from: "the left" },
  { id: "front", name: "front to back", from: "the back" },
  { id: "level", name: "level", from: "the floor" },
]

// InSpace is the picture to turn, at the moment of a fault if one is looked at.
export function InSpace() {
  const canvas = useRef<HTMLCanvasElement>(null)
  const ref = useRef<Space | null>(null)
  const [failed, fail] = useState("")
  const [running, run] = useState(false)
  const [way, putWay] = useState<Cut>("across")
  const [cut, putCut] = useState(100)
  const section = (to: Cut, share: number) => {
    putWay(to)
    putCut(share)
    ref.current?.section(to, share / 100)
  }
  const [apart, putApart] = useState(0)
  const o = good.value
  useEffect(() => {
    let on = true
    import("./space").then(({ space }) => {
      if (!on || !canvas.current) return
      try {
        ref.current = space(canvas.current, (p: ScenePart | null) => { chosen.value = p?.field ?? "" })
        ref.current.paint(painted.peek())
        ref.current.light(lit.peek())
        ref.current.fog(fogged.peek())
        if (good.peek()) ref.current.show(good.peek()!, moment.peek()?.level ?? null)
      } catch {
        fail("This browser cannot draw in three dimensions. The flat views show the same.")
      }
    }, () => fail("This part of the page could not be loaded. Load the page again."))
    return () => {
      on = false
      ref.current?.end()
      ref.current = null
    }
  }, [])
  useEffect(() => { if (o) ref.current?.show(o, moment.value?.level ?? null) }, [o, moment.value])
  useEffect(() => {
    const line = chosen.value.startsWith("line:") ? Number(chosen.value.slice(5)) : 0
    ref.current?.choose(line > 0 ? "" : chosen.value, line)
  }, [chosen.value, o])
  useEffect(() => { ref.current?.paint(painted.value) }, [painted.value])
  useEffect(() => { ref.current?.light(lit.value) }, [lit.value])
  useEffect(() => { ref.current?.fog(fogged.value) }, [fogged.value])
  useEffect(() => { ref.current?.colours() }, [theme.value])
  useEffect(() => ref.current?.run(running), [running])
  const w = o?.water
  const words = w && o?.scene
    ? `The enclosure with ${o.scene.parts.length} parts. The pool stands at ${Math.round((w.pool - w.poolFloor) * 1000)} mm over its floor, the sump at ${Math.round((w.sump - w.sumpFloor) * 1000)} mm.`
    : ""
  return (
    <>
      {failed ? <p class="wait" role="alert">{failed}</p> : <canvas class="space" ref={canvas} role="img" aria-label={`${words} The list of parts below names each; the curves tell what each outlet gives.`} />}
      {w && <Shade w={w} us={o?.report?.units === "us"} />}
      <div class="reins" role="group" aria-label="The picture">
        {(["corner", "front", "left", "top"] as const).map((f) => <button key={f} type="button" onClick={() => ref.current?.look(f)}>{f === "left" ? "side" : f}</button>)}
        <button type="button" aria-pressed={running} onClick={() => run(!running)}>{running ? "Stop the water" : "Let it run"}</button>
        <span class="cut"><label>Cut <select value={way} onChange={(e) => section(e.currentTarget.value as Cut, cut < 100 ? cut : 50)}>
          {ways.map((w) => <option key={w.id} value={w.id}>{w.name}</option>)}
        </select></label>
        <input type="range" min="2" max="100" value={cut} aria-label="How much of it is left" aria-valuetext={cut === 100 ? "whole" : `${cut} % left, from ${ways.find((w) => w.id === way)?.from}`} onInput={(e) => section(way, e.currentTarget.valueAsNumber)} /></span>
        <label>Pull apart <input type="range" min="0" max="100" value={apart} onInput={(e) => { putApart(e.currentTarget.valueAsNumber); ref.current?.explode(e.currentTarget.valueAsNumber / 100) }} /></label>
      </div>
    </>
  )
}
