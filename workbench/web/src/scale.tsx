import type { Figure } from "./types"
import { digits } from "./units"

// plain is a limit as people write it.
const plain = (v: number) => digits(v).replace(/(\.\d*?)0+$/, "$1").replace(/\.$/, "")

// Scale draws a figure's band with its likely value, and its limit where one number
// tells that: a bracket that opens to the side that will do, the rail dashed on the
// other. The words below say the same, so the drawing is hidden from those who hear
// the page.
export function Scale({ f }: { f: Figure }) {
  const bound = f.bound // 0 is a limit too: no water on the floor
  if (f.words || !(f.high > f.low) && bound === undefined) return null
  const lo = Math.min(0, f.low, bound ?? 0)
  const span = Math.max(f.high, bound ?? 0) * 1.08 - lo
  const x = (v: number) => 100 * (v - lo) / span
  const turn = f.least ? 2 : -2
  const b = x(bound ?? 0)
  return (
    <>
      {span > 0 && (
        <svg class="scale" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
          {bound === undefined
            ? <path class="rail" d="M0 4h100" />
            : <><path class="rail" d={f.least ? `M${b} 4H100` : `M0 4H${b}`} /><path class="rail off" d={f.least ? `M0 4H${b}` : `M${b} 4H100`} /></>}
          <rect class="band" x={x(f.low)} y="1.5" width={Math.max(0.8, x(f.high) - x(f.low))} height="5" />
          <rect class="likely" x={x(f.likely) - 0.5} y="0" width="1" height="8" />
          {bound !== undefined && <path class="bound" d={`M${b + turn} 0.5H${b}V7.5h${turn}`} />}
        </svg>
      )}
      {bound !== undefined && <span class="about">{f.least ? "at least" : "at most"} {plain(bound)} {f.unit}</span>}
    </>
  )
}
