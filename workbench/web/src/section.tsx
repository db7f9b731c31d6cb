import { good, moment } from "./store"

// Section is the water at a moment, seen from the side: pool, dam and sump, to one
// scale of heights.
export function Section() {
  const w = good.value?.water
  if (!w) return null
  const level = moment.value?.level
  const pool = level?.get("pool") ?? w.pool
  const of = level ? [...level].filter(([n]) => n === "sump" || w.chambers.includes(n)).map(([, v]) => v) : []
  const sump = of.length > 0 ? Math.max(...of) : w.sump
  const top = w.damTop + 0.25
  const y = (h: number) => 150 - 145 * h / top
  return (
    <svg class="section" viewBox="0 0 320 155" role="img" aria-label="Levels of pool and sump at this moment">
      <rect class="water" x="20" width="180" y={y(pool)} height={Math.max(0, y(w.poolFloor) - y(pool))} />
      <path class="glass" d={`M20 ${y(w.damTop + 0.2)} V${y(w.poolFloor)} H200 V${y(w.damTop)}`} />
      <rect class="water" x="225" width="80" y={y(sump)} height={Math.max(0, y(w.sumpFloor) - y(sump))} />
      <path class="glass" d={`M225 ${y(w.sumpRim)} V${y(w.sumpFloor)} H305 V${y(w.sumpRim)}`} />
      <line class="floor" x1="5" x2="315" y1={y(0)} y2={y(0)} />
      <text x="110" y={y(w.damTop + 0.06)}>pool</text>
      <text x="265" y={y(w.sumpRim + 0.03)}>sump</text>
    </svg>
  )
}
