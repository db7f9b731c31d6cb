import { chosen } from "./store"
import { levelUnit } from "./units"
import type { Scene, ScenePart, Water } from "./types"

// Flat shows the enclosure from the front and from the side, to one scale, with
// its main sizes; for phones, and for paper.
interface Side { name: string, u: 0 | 1, flip: boolean }
const sides: Side[] = [{ name: "From the front", u: 0, flip: false }, { name: "From the right side, front at the left", u: 1, flip: true }]

export function Flat({ scene, water, us }: { scene: Scene, water: Water | undefined, us: boolean }) {
  return (
    <div class="flat">
      {sides.map((s) => <View key={s.name} s={s} scene={scene} water={water} us={us} />)}
    </div>
  )
}

const drawnKinds = ["stand", "foot", "sump", "sump water", "pool", "hidden", "pane", "dam", "rim", "brace", "grid", "grid brace", "standpipe", "strainer", "drain pipe", "elbow", "manifold", "run", "outlet", "hole", "way", "hardscape", "pump", "lamp"]

function View({ s, scene, water, us }: { s: Side, scene: Scene, water: Water | undefined, us: boolean }) {
  const unit = levelUnit(us)
  // Every side takes the width of the widest: one scale for all.
  const widest = Math.max(...sides.map((q) => across(scene, q.u)[1] - across(scene, q.u)[0]))
  const [own0, own1] = across(scene, s.u)
  const u0 = own0 - (widest - (own1 - own0)) / 2
  const u1 = u0 + widest
  const z0 = scene.floor
  const z1 = Math.max(scene.outside.max[2], ...scene.parts.map((p) => extent(p, 2)[1]))
  const k = 1000 // the drawing counts in mm
  const pad = { left: 150, right: us ? 330 : 370, top: 60, bottom: 150 }
  const w = (u1 - u0) * k + pad.left + pad.right
  const h = (z1 - z0) * k + pad.top + pad.bottom
  const x = (u: number) => pad.left + (s.flip ? u1 - u : u - u0) * k
  const y = (z: number) => pad.top + (z1 - z) * k
  const say = (v: number) => `${unit.of(v).toFixed(us ? 2 : 0)} ${unit.name}`
  const parts = [...scene.parts].filter((p) => drawnKinds.includes(p.kind)).sort((a, b) => drawnKinds.indexOf(a.kind) - drawnKinds.indexOf(b.kind))
  const out = scene.outside
  const right = x(s.flip ? own0 : own1)
  const levels = water ? [
    { name: "dam", z: water.damTop + scene.floor },
    { name: "pool", z: water.pool + scene.floor },
    { name: "sump", z: water.sump + scene.floor },
  ].sort((a, b) => b.z - a.z) : []
  // Each text stands at its level, or as far below the one above as letters are high.
  let above = -Infinity
  const rows = levels.map((l) => ({ ...l, at: above = Math.max(y(l.z), above + 46) }))
  return (
    <figure>
      <svg viewBox={`0 0 ${w} ${h}`} role="img" aria-label={`${s.name}: outside ${say(out.max[s.u] - out.min[s.u])} by ${say(out.max[2] - out.min[2])}.`}>
        <line class="ground" x1="0" x2={w} y1={y(z0)} y2={y(z0)} />
        {parts.map((p, i) => <Piece key={i} p={p} s={s} x={x} y={y} water={water} floor={scene.floor} />)}
        <Across from={x(s.flip ? out.max[s.u] : out.min[s.u])} to={x(s.flip ? out.min[s.u] : out.max[s.u])} at={y(z0) + 60} text={say(out.max[s.u] - out.min[s.u])} />
        <Up x={x(s.flip ? own1 : own0) - 70} from={y(out.min[2])} to={y(out.max[2])} text={say(out.max[2] - out.min[2])} />
        {rows.map((l) => (
          <g key={l.name} class="level">
            <polyline points={`${right + 8},${y(l.z)} ${right + 24},${y(l.z)} ${right + 50},${l.at}`} />
            <text x={right + 56} y={l.at + 14}>{l.name} {say(l.z - scene.floor)}</text>
          </g>
        ))}
      </svg>
      <figcaption>{s.name}. Heights at the right are above the room floor.</figcaption>
    </figure>
  )
}

// across is from where to where everything reaches.
function across(scene: Scene, axis: 0 | 1): [number, number] {
  const all = scene.parts.map((p) => extent(p, axis))
  return [Math.min(scene.outside.min[axis], ...all.map((e) => e[0])), Math.max(scene.outside.max[axis], ...all.map((e) => e[1]))]
}

function extent(p: ScenePart, axis: 0 | 1 | 2): [number, number] {
  if (p.box) return [p.box.min[axis], p.box.max[axis]]
  const v = (p.corners ?? p.points ?? []).map((q) => q[axis])
  return v.length ? [Math.min(...v) - (p.radius ?? 0), Math.max(...v) + (p.radius ?? 0)] : [0, 0]
}

function Piece({ p, s, x, y, water, floor }: { p: ScenePart, s: Side, x: (u: number) => number, y: (z: number) => number, water: Water | undefined, floor: number }) {
  const on = chosen.value !== "" && (p.field === chosen.value || chosen.value === `line:${p.line}`)
  const cls = `p-${p.kind.replace(" ", "-")}${on ? " on" : ""}`
  const pick = () => { chosen.value = p.field }
  if (p.box) {
    let top = p.box.max[2]
    if (water && (p.kind === "pool" || p.kind === "hidden")) top = water.pool + floor
    if (water && p.kind === "sump water") top = water.sump + floor
    const a = x(s.flip ? p.box.max[s.u] : p.box.min[s.u])
    const b = x(s.flip ? p.box.min[s.u] : p.box.max[s.u])
    return <rect class={cls} x={a} y={y(top)} width={Math.max(1, b - a)} height={Math.max(1, y(p.box.min[2]) - y(top))} onClick={pick}><title>{p.name}</title></rect>
  }
  if (p.corners) {
    // From its end a prism is its section, from any side the box that it covers.
    const n = p.corners.length / 2
    const [q, r] = [p.corners[0], p.corners[n]]
    const [u, z] = [extent(p, s.u), extent(p, 2)]
    const end = q?.[s.u] === r?.[s.u] && q?.[2] === r?.[2]
    const at = end ? p.corners.slice(0, n).map((c) => [c[s.u], c[2]]) : [[u[0], z[0]], [u[1], z[0]], [u[1], z[1]], [u[0], z[1]]]
    const d = at.map(([h = 0, v = 0]) => `${x(h)},${y(v)}`).join(" ")
    return <polygon class={cls} points={d} onClick={pick}><title>{p.name}</title></polygon>
  }
  const pts = p.points ?? []
  const r = Math.max(4, (p.radius ?? 0) * 1000)
  if (pts.length === 1) {
    const q = pts[0]
    return q ? <circle class={cls} cx={x(q[s.u])} cy={y(q[2])} r={p.kind === "outlet" ? 4 : 16} onClick={pick}><title>{p.name}</title></circle> : null
  }
  // What points at the viewer is a circle.
  const flat = pts.every((q) => Math.abs(q[s.u] - (pts[0]?.[s.u] ?? 0)) < 1e-6 && Math.abs(q[2] - (pts[0]?.[2] ?? 0)) < 1e-6)
  if (flat && pts[0]) return <circle class={cls} cx={x(pts[0][s.u])} cy={y(pts[0][2])} r={r} onClick={pick}><title>{p.name}</title></circle>
  return <polyline class={cls} points={pts.map((q) => `${x(q[s.u])},${y(q[2])}`).join(" ")} stroke-width={2 * r} onClick={pick}><title>{p.name}</title></polyline>
}

function Across({ from, to, at, text }: { from: number, to: number, at: number, text: string }) {
  return (
    <g class="size">
      <line x1={from} x2={to} y1={at} y2={at} />
      <line x1={from} x2={from} y1={at - 16} y2={at + 16} />
      <line x1={to} x2={to} y1={at - 16} y2={at + 16} />
      <text x={(from + to) / 2} y={at + 58} text-anchor="middle">{text}</text>
    </g>
  )
}

function Up({ x, from, to, text }: { x: number, from: number, to: number, text: string }) {
  return (
    <g class="size">
      <line x1={x} x2={x} y1={from} y2={to} />
      <line x1={x - 16} x2={x + 16} y1={from} y2={from} />
      <line x1={x - 16} x2={x + 16} y1={to} y2={to} />
      <text x={x - 14} y={(from + to) / 2} text-anchor="middle" transform={`rotate(-90 ${x - 14} ${(from + to) / 2})`}>{text}</text>
    </g>
  )
}
