import type { Figure } from "./types"

// Scale draws a figure's band with its likely value, and its limit where one number
// tells that. It repeats the text, so it is hidden from those who hear the page.
export function Scale({ f }: { f: Figure }) {
  const bound = f.bound // 0 is a limit too: no water on the floor
  if (f.words || !(f.high > f.low) && bound === undefined) return null
  const lo = Math.min(0, f.low, bound ?? 0)
  const span = Math.max(f.high, bound ?? 0) * 1.08 - lo
  if (!(span > 0)) return null
  const x = (v: number) => 100 * (v - lo) / span
  return (
    <svg class="scale" viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
      <rect class="rail" x="0" y="3" width="100" height="2" />
      <rect class="band" x={x(f.low)} y="1.5" width={Math.max(0.8, x(f.high) - x(f.low))} height="5" />
      {bound !== undefined && <path class="bound" d={`M${x(bound)} 0v8`} />}
      <rect class="likely" x={x(f.likely) - 0.5} y="0" width="1" height="8" />
    </svg>
  )
}
