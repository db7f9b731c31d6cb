// From blue over grey to yellow, for what gives little to what gives much: told apart
// with every kind of sight, and in grey.
export const shades = ["#00306f", "#575d6d", "#a59c74", "#ffea46"]

// stepShade is the shade of a step of so many, as bytes.
export function stepShade(step: number, of: number): [number, number, number] {
  const at = Math.min(1, Math.max(0, of > 1 ? step / (of - 1) : 0.5)) * (shades.length - 1)
  const k = Math.min(shades.length - 2, Math.floor(at))
  const byte = (i: number, n: number) => Number.parseInt((shades[i] ?? "").slice(1 + 2 * n, 3 + 2 * n), 16)
  return [0, 1, 2].map((n) => Math.round(byte(k, n) + (at - k) * (byte(k + 1, n) - byte(k, n)))) as [number, number, number]
}
