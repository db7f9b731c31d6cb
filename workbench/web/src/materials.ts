// What each kind of part looks like in space, by day and by night.
import { Color } from "three"
import { shades } from "./shades"

export const dark = () => getComputedStyle(document.documentElement).colorScheme.includes("dark")

// From blue over grey to yellow: told apart with every kind of sight, and in grey.
const flowScale = shades.map((c) => new Color(c))

export function flowColour(share: number): Color {
  const s = Math.min(0.9999, Math.max(0, share)) * (flowScale.length - 1)
  const k = Math.floor(s)
  return (flowScale[k] ?? new Color()).clone().lerp(flowScale[k + 1] ?? new Color(), s - k)
}

export const seeThrough = (kind: string) => ["pane", "dam", "pool", "hidden", "sump", "sump water", "chamber", "door space", "stand"].includes(kind)

export interface Looks { colour: number, opacity: number, edge: number }

// looks gives each kind its material; null for what is not drawn.
export function looks(kind: string): Looks | null {
  const night = dark()
  const edge = night ? 0xc9d2cc : 0x33413b
  const soft = night ? 0x6f7d76 : 0x8b968f
  switch (kind) {
    case "pane": return { colour: night ? 0x7fa7a0 : 0x9cc4bd, opacity: 0.14, edge }
    case "dam": return { colour: night ? 0x7fc4bd : 0x6fb0a8, opacity: 0.3, edge }
    case "pool": case "hidden": case "sump water": return { colour: night ? 0x3f9db0 : 0x2f8fa3, opacity: 0.5, edge: night ? 0x6cc4d3 : 0x0b6676 }
    case "sump": return { colour: soft, opacity: 0.12, edge }
    case "chamber": case "door space": return null
    case "stand": return { colour: night ? 0x5a4a3a : 0xc2ab8e, opacity: 0.18, edge: soft }
    case "foot": return { colour: 0x6b5a48, opacity: 1, edge: soft }
    case "rim": return { colour: night ? 0x2c3431 : 0x3c4642, opacity: 0.75, edge: soft }
    case "brace": return { colour: 0x8fb8b0, opacity: 0.4, edge }
    case "grid": return { colour: night ? 0xd8d6c8 : 0x6d6a5c, opacity: 1, edge: night ? 0xbdbaa8 : 0x77745f }
    case "grid brace": return { colour: night ? 0xc9c6b4 : 0x85816d, opacity: 0.55, edge: night ? 0xe6e3d3 : 0x4d4a3c }
    case "manifold": return { colour: night ? 0xd7dcd8 : 0x53605a, opacity: 1, edge }
    case "outlet": return { colour: 0x0b6676, opacity: 1, edge }
    case "standpipe": case "strainer": case "elbow": case "drain pipe": return { colour: night ? 0xb9a98a : 0x8a7350, opacity: 0.9, edge }
    case "flange": case "nut": return { colour: 0x4d4a44, opacity: 1, edge }
    case "hole": case "way": return { colour: night ? 0xf0b35c : 0x8a5200, opacity: 0.8, edge }
    case "run": return { colour: night ? 0x9fb5ae : 0x7c938b, opacity: 0.4, edge }
    case "hardscape": return { colour: 0x7a5c3a, opacity: 1, edge }
    case "pump": return { colour: 0x3c4642, opacity: 1, edge }
    case "lamp": return { colour: 0xe8d67a, opacity: 1, edge }
  }
  return { colour: soft, opacity: 0.5, edge }
}
