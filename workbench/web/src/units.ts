// Figures as the builder writes them. Everything the program sends besides texts
// is SI.
export interface Unit { name: string, of: (si: number) => number, digits: number }

export const flowUnit = (us: boolean): Unit => us ? { name: "US gal/h", of: (v) => v * 3600 / 0.003785411784, digits: 0 } : { name: "L/h", of: (v) => v * 3.6e6, digits: 0 }
export const headUnit = (us: boolean): Unit => us ? { name: "ft", of: (v) => v / 0.3048, digits: 1 } : { name: "m", of: (v) => v, digits: 2 }
export const levelUnit = (us: boolean): Unit => us ? { name: "in", of: (v) => v / 0.0254, digits: 1 } : { name: "mm", of: (v) => v * 1000, digits: 0 }
export const volumeUnit = (us: boolean): Unit => us ? { name: "US gal", of: (v) => v / 0.003785411784, digits: 1 } : { name: "L", of: (v) => v * 1000, digits: 1 }
export const smallFlowUnit = (us: boolean): Unit => us ? { name: "US gal/h", of: (v) => v * 3600 / 0.003785411784, digits: 1 } : { name: "L/h", of: (v) => v * 3.6e6, digits: 1 }

export const show = (u: Unit, si: number) => `${u.of(si).toFixed(u.digits)} ${u.name}`

export const tempUnit = (us: boolean): Unit => us ? { name: "F", of: (v) => 32 + 1.8 * v, digits: 0 } : { name: "C", of: (v) => v, digits: 1 }

// hour is a time of day, from seconds after midnight; showPart a part of a day.
export const hour = (s: number) => `${String(Math.floor(s / 3600) % 24).padStart(2, "0")}:${String(Math.floor(s / 60) % 60).padStart(2, "0")}`
export const showPart = (s: number) => s < 3600 ? `${Math.round(s / 60)} min` : `${Math.floor(s / 3600)} h ${Math.round(s % 3600 / 60)} min`

// digits is a figure for people: three of them, no powers of ten.
export const digits = (v: number) => v === 0 ? "0" : v.toFixed(Math.min(6, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(v))))))

// clock tells a time since the start.
export function clock(s: number): string {
  if (s < 90) return `${Math.round(s)} s`
  if (s < 5400) return `${Math.floor(s / 60)} min ${Math.round(s % 60)} s`
  if (s < 172800) return `${Math.floor(s / 3600)} h ${Math.round(s % 3600 / 60)} min`
  return `${(s / 86400).toFixed(1)} days`
}
