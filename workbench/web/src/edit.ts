import { batch } from "@preact/signals"
import * as api from "./api"
import { ask } from "./ask"
import { later } from "./drafts"
import { base, basis, canRedo, canUndo, list, name, tell, text, trial } from "./state"
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
}

function put(to: string): void {
  batch(() => {
    text.value = to
    canUndo.value = past.length > 0
    canRedo.value = future.length > 0
    if (to === trial.value?.before) trial.value = null
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
  for (const e of edits) waiting.set(`${e.kind ?? ""} ${e.path}`, e)
  calls = calls.then(async () => {
    if (name.value !== design) return false // another one was opened meanwhile
    const now = [...waiting.values()]
    waiting.clear()
    if (now.length === 0) return true // went along with an earlier call
    for (;;) {
      const of = text.value
      try {
        const to = await api.set(of, now)
        if (name.value !== design) return false
        if (text.value !== of) continue // typed meanwhile
        change(to, dragging)
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
  })
  return calls
}

// A change that is shown before it is kept.
export async function tryOut(what: string, edits: Edit[]): Promise<void> {
  const before = text.value
  const compare = list.value
  if (await setValues(edits)) trial.value = { before, what, compare }
}

export function keepTrial(): void { trial.value = null }

export function dropTrial(): void {
  const t = trial.value
  trial.value = null
  if (t) change(t.before)
}
