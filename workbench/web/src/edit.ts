import { batch } from "@preact/signals"
import * as api from "./api"
import { ask } from "./ask"
import { later } from "./drafts"
import { merged } from "./merge"
import { base, basis, canRedo, canUndo, list, name, tell, text, trial, type Trial } from "./state"
import type { Edit } from "./types"

// Undo. Typing within a second is one step.
interface Step { text: string, at: number, typing: boolean }
const past: Step[] = []
const future: string[] = []

export function change(to: string, typing = false): void {
  if (to === text.value) return
  const now = Date.now()
  const last = past.at(-1)
  if (!(typing && last?.typing && now - last.at < 1000)) past.push({ text: text.value, at: now, typing })
  else last.at = now
  if (past.length > 500) past.shift()
  future.length = 0
  put(to)
}

export function undo(): void {
  const step = past.pop()
  if (!step) return
  future.push(text.value)
  put(step.text)
}

export function redo(): void {
  const to = future.pop()
  if (to === undefined) return
  past.push({ text: text.value, at: 0, typing: false })
  put(to)
}

// stepTo puts a text in the place of the one that stands, one step to undo.
export function stepTo(to: string): void {
  past.push({ text: text.value, at: 0, typing: false })
  future.length = 0
  put(to)
}

// begin forgets the steps: another design is opened.
export function begin(): void {
  past.length = future.length = 0
  waiting.clear()
  tried.clear()
}

function put(to: string): void {
  batch(() => {
    text.value = to
    canUndo.value = past.length > 0
    canRedo.value = future.length > 0
    const t = trial.value
    const again = tried.get(to) // undo and redo go through what was tried as well
    if (again) trial.value = again
    else if (to === t?.before) trial.value = null
    if (to === base.value.text) basis.value = null
  })
  later()
  void ask()
}

// Values by their paths: the program changes those bytes and no others. One call
// at a time, each on the text as it then is; while one is under way, a later value
// for the same path takes the place of one that waits, as in a drag.
let calls: Promise<boolean> = Promise.resolve(true)
const waiting = new Map<string, Edit>()

export function setValues(edits: Edit[], dragging = false): Promise<boolean> {
  const design = name.value
  for (const e of edits) waiting.set(e.kind ? `${e.kind} ${e.path} ${e.to}` : e.path, e)
  calls = calls.then(() => {
    const now = [...waiting.values()]
    waiting.clear()
    if (now.length === 0) return true // went along with an earlier call
    return make(design, (of) => api.set(of, now), dragging)
  })
  return calls
}

// make puts what comes of the text in its place, reckoned again if something was
// typed meanwhile.
async function make(design: string, to: (of: string) => Promise<string>, dragging = false): Promise<boolean> {
  while (name.value === design) { // else another one was opened meanwhile
    const of = text.value
    try {
      const made = await to(of)
      if (name.value !== design) return false
      if (text.value !== of) continue
      change(made, dragging)
      return true
    } catch (e) {
      if (e instanceof api.Refusal && e.status === 429) {
        await new Promise((go) => setTimeout(go, 1000)) // too fast is no reason to lose a value
        continue
      }
      tell(e)
      return false
    }
  }
  return false
}

// without is a text with what is tried out taken out again and all else left, null
// where the two hang together.
function without(t: Trial, of: string): string | null {
  return of === t.after ? t.before : merged(of, t.after, t.before)
}

// What was tried and not decided on, by the text with it.
const tried = new Map<string, Trial>()

// A change that is shown before it is kept. One that is tried already makes room.
export function tryOut(what: string, edits: Edit[]): Promise<boolean> {
  const design = name.value
  calls = calls.then(async () => {
    let next: Omit<Trial, "after"> = { before: "", what, compare: list.value }
    const made = await make(design, async (of) => {
      const t = trial.value
      const bare = t && without(t, of)
      next = { before: bare ?? of, what, compare: t?.compare ?? list.value }
      if (t && bare !== null) next = { ...next, instead: t.what }
      if (t && bare === null) next = { ...next, before: t.before, what: `${t.what}; and ${what}`, together: true }
      return api.set(bare ?? of, edits)
    })
    if (made) tried.set(text.value, trial.value = { ...next, after: text.value })
    return made
  })
  return calls
}

export function keepTrial(): void {
  tried.clear()
  trial.value = null
}

export function dropTrial(): void {
  const t = trial.value
  trial.value = null
  if (t) change(without(t, text.value) ?? t.before)
}
