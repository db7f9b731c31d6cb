// What this browser remembers. It may be full or forbidden: then nothing is
// remembered, and nothing breaks.
const key = (k: string) => `rillwright:${k}`

export function remember(k: string, v: string): void {
  try {
    localStorage.setItem(key(k), v)
  } catch { /* not remembered */ }
}

export function recall(k: string): string | null {
  try {
    return localStorage.getItem(key(k))
  } catch {
    return null
  }
}

export function drop(k: string): void {
  try {
    localStorage.removeItem(key(k))
  } catch { /* not remembered anyway */ }
}
