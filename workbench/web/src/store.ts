// The state of the page, in one place. The text of the design is the one truth:
// forms, fixes and the text editor all change it through change(), so that undo
// goes through all of them in order. Views read signals and hold no state of the
// design of their own.
import { batch, computed, signal } from "@preact/signals"
import * as api from "./api"
import { merged } from "./merge"
import { drop, recall, remember } from "./memory"
import type { Answer, Edit, Outcome, Stored } from "./types"

export type View = "answers" | "look" | "curves" | "whatif" | "file" | "aisle" | "bench"

export const names = signal<string[]>([])
export const hasFolder = signal(false)
export const name = signal("")
// What stands in the file, as far as is known.
export const base = signal<Stored>({ name: "", text: "", revision: "", readOnly: true })
export const text = signal("")
export const outcome = signal<Outcome | null>(null)
// The last outcome that could be computed, shown while the text has mistakes.
export const good = signal<Outcome | null>(null)
export const stale = signal(false) // good is not of this text
export const busy = signal(false)
export const view = signal<View>("answers")
export const chosen = signal("") // path of the part that is looked at
export const openAnswer = signal("") // its id
export const message = signal<{ what: string, todo: string, bad: boolean } | null>(null)
export const there = signal(true)
export const moment = signal<{ time: number, level: Map<string, number> } | null>(null) // of a course, in place of the running levels
export const typed = signal<Found | null>(null) // a draft that was found
export const clash = signal<Stored | null>(null) // what somebody else wrote, that does not merge
export const theme = signal<"" | "light" | "dark">((recall("theme") ?? "") as "" | "light" | "dark")

export interface Found { text: string, from: string }

export const unkept = computed(() => text.value !== base.value.text)
export const canKeep = computed(() => hasFolder.value && !base.value.readOnly)

// The answer's levels, worst first, as the program sorts them.
export const list = computed<Answer[]>(() => good.value?.report?.answers ?? [])

// Undo. Typing within a second is one step.
interface Step { text: string, at: number, typing: boolean }
const past: Step[] = []
const future: string[] = []
export const canUndo = signal(false)
export const canRedo = signal(false)
// One step that was offered and not yet decided on, with the text before it.
export const trial = signal<{ before: string, what: string, compare: Answer[] } | null>(null)

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

function put(to: string): void {
  batch(() => {
    text.value = to
    canUndo.value = past.length > 0
    canRedo.value = future.length > 0
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
  for (const e of edits) waiting.set(`${e.kind ?? ""} ${e.path}`, e)
  calls = calls.then(async () => {
    const now = [...waiting.values()]
    waiting.clear()
    if (now.length === 0) return true // went along with an earlier call
    for (;;) {
      const of = text.value
      try {
        const to = await api.set(of, now)
        if (text.value !== of) continue // typed meanwhile
        change(to, dragging)
        return true
      } catch (e) {
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

// Answers. A first pass without fixes repaints at once, a second finds them.
let asking: AbortController | null = null
let slow = 0

async function ask(fixes = false): Promise<void> {
  asking?.abort()
  window.clearTimeout(slow)
  const mine = asking = new AbortController()
  const of = text.value
  busy.value = true
  try {
    const o = await api.compute({ name: name.value, text: of, fixes, curves: view.value === "curves" }, mine.signal)
    if (mine.signal.aborted || of !== text.value) return
    batch(() => {
      outcome.value = o
      stale.value = !o.report
      if (o.report) good.value = o
    })
    if (!fixes && o.report) slow = window.setTimeout(() => void ask(true), 350)
  } catch (e) {
    if (!mine.signal.aborted) tell(e)
  } finally {
    if (asking === mine) busy.value = false
  }
}

// withCurves asks again if the last outcome came without them.
export function withCurves(): void {
  if (good.value && !good.value.curves && !busy.value) void ask()
}

export function tell(e: unknown): void {
  if (e instanceof api.Refusal) {
    if (e.status === 0) there.value = false
    else message.value = { what: e.what, todo: e.todo, bad: true }
    return
  }
  if (e instanceof DOMException && e.name === "AbortError") return
  message.value = { what: String(e), todo: "load the page again", bad: true }
}

// Drafts: here at once, beside the file a little later. Whichever side dies, the
// other has the text.
let draftTimer = 0

function later(): void {
  const of = name.value
  if (!unkept.value) {
    drop(`draft:${of}`)
    window.clearTimeout(draftTimer)
    return
  }
  remember(`draft:${of}`, JSON.stringify({ base: base.value.revision, text: text.value, at: new Date().toISOString() }))
  if (!canKeep.value) return
  window.clearTimeout(draftTimer)
  draftTimer = window.setTimeout(() => {
    if (name.value === of && unkept.value) api.keepDraft(of, text.value).catch(tell)
  }, 400)
}

interface Draft { base: string, text: string, at: string }

function draftHere(of: string): Draft | null {
  try {
    return JSON.parse(recall(`draft:${of}`) ?? "null") as Draft | null
  } catch {
    return null
  }
}

export async function open(to: string): Promise<void> {
  try {
    const d = await api.read(to)
    const here = draftHere(to)
    past.length = future.length = 0
    batch(() => {
      name.value = to
      base.value = d
      text.value = d.text
      good.value = outcome.value = null
      canUndo.value = canRedo.value = false
      chosen.value = openAnswer.value = ""
      clash.value = trial.value = null
      const draft = here && here.text !== d.text ? { text: here.text, from: here.at } : d.draft ? { text: d.draft, from: "" } : null
      typed.value = draft
    })
    history.replaceState(null, "", `#${encodeURIComponent(to)}`)
    await ask()
  } catch (e) {
    tell(e)
  }
}

export function takeDraft(): void {
  const d = typed.value
  typed.value = null
  if (d) change(d.text)
}

export function leaveDraft(): void {
  typed.value = null
  drop(`draft:${name.value}`)
  if (canKeep.value) api.dropDraft(name.value).catch(tell)
}

// keep writes the file; under another name if one is given.
export async function keep(as = ""): Promise<void> {
  const to = as || name.value
  const of = text.value
  try {
    const { kept, now } = await api.save(to, as ? "" : base.value.revision, of)
    if (!kept) {
      if (as) message.value = { what: `There is a design ${to} already.`, todo: "Give another name.", bad: true }
      else meet(now)
      return
    }
    batch(() => {
      base.value = { ...now, readOnly: false }
      name.value = to
      if (!names.value.includes(to)) names.value = [to, ...names.value]
      message.value = { what: `Kept in ${to}.`, todo: "", bad: false }
    })
    drop(`draft:${to}`)
    if (as) history.replaceState(null, "", `#${encodeURIComponent(to)}`)
    later()
  } catch (e) {
    tell(e)
  }
}

// meet brings together what is typed here and what somebody else wrote.
function meet(theirs: Stored): void {
  if (theirs.text === text.value || !unkept.value) {
    const changed = theirs.text !== text.value
    const before = text.value
    base.value = theirs
    if (changed) {
      past.push({ text: before, at: 0, typing: false })
      put(theirs.text)
      message.value = { what: "The file was changed by another program; its text is shown now.", todo: "Undo brings yours back.", bad: false }
    } else later()
    return
  }
  const both = merged(text.value, base.value.text, theirs.text)
  if (both === null) {
    clash.value = theirs
    return
  }
  base.value = theirs
  change(both)
  message.value = { what: "The file was changed by another program in other places; both changes are in the text now.", todo: "Undo takes theirs out again; keep writes both.", bad: false }
}

export function settle(mine: boolean): void {
  const theirs = clash.value
  clash.value = null
  if (!theirs) return
  base.value = theirs
  if (mine) later()
  else change(theirs.text)
}

async function changedOutside(of: string, revision: string): Promise<void> {
  if (of !== name.value || revision === base.value.revision) {
    await refresh()
    return
  }
  if (revision === "") {
    message.value = { what: `${of} was deleted or moved.`, todo: "What you see is still here: keep writes it again.", bad: true }
    return
  }
  try {
    meet(await api.read(of))
  } catch (e) {
    tell(e)
  }
}

async function refresh(): Promise<void> {
  const l = await api.designs()
  batch(() => {
    names.value = l.names
    hasFolder.value = l.folder
  })
}

export async function start(): Promise<void> {
  try {
    await refresh()
    const asked = decodeURIComponent(location.hash.slice(1))
    await open(names.value.includes(asked) ? asked : names.value[0] ?? "demo")
  } catch (e) {
    tell(e)
  }
  api.listen((n, r) => void changedOutside(n, r).catch(tell), (yes) => {
    there.value = yes
    if (yes) void again() // what changed before anyone listened
  })
}

// again takes up the work after the program was away: the file may have changed,
// and answers were not given.
async function again(): Promise<void> {
  try {
    await refresh()
    const now = await api.read(name.value)
    if (now.revision !== base.value.revision) meet(now)
    else later()
    if (good.value?.revision !== outcome.value?.revision || outcome.value === null) await ask()
  } catch (e) {
    tell(e)
  }
}

export function setTheme(to: "" | "light" | "dark"): void {
  theme.value = to
  if (to) remember("theme", to)
  else drop("theme")
}

// For measuring: changes the text and tells, in ms, how long it takes until the
// answers to it are painted.
declare global {
  interface Window { rillwrightEdit?: (to: string) => Promise<number> }
}

window.rillwrightEdit = (to) => new Promise((done) => {
  const began = performance.now()
  const of = good.value
  change(to)
  const stop = good.subscribe((o) => {
    if (o === of) return
    requestAnimationFrame(() => setTimeout(() => {
      stop()
      done(performance.now() - began)
    }))
  })
})
