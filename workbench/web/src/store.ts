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

// Found is a text that was typed and not kept; origin is the file's text that it was
// typed on, where that is known, and older one that was found before it.
export interface Found { text: string, from: string, origin?: string, older?: Found | null }

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
    if (to === trial.value?.before) trial.value = null
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

// Answers. A first pass without fixes repaints at once, a second finds them. Of
// many changes in a row, as in a drag, the newest is asked for when the answer to
// the one under way is there: so the page follows, and the program is not flooded.
let asking: { stop: AbortController, design: string, fixes: boolean } | null = null
let more = false
let slow = 0
let answered: string | null = null // the text that outcome is of

async function ask(fixes = false): Promise<void> {
  window.clearTimeout(slow)
  if (asking && !asking.fixes && asking.design === name.value) {
    more = true
    return
  }
  asking?.stop.abort()
  const mine = asking = { stop: new AbortController(), design: name.value, fixes }
  const of = text.value
  busy.value = true
  try {
    const o = await api.compute({ name: mine.design, text: of, fixes, curves: view.value === "curves" }, mine.stop.signal)
    if (asking !== mine || mine.design !== name.value) return
    answered = of
    batch(() => {
      outcome.value = o
      stale.value = !o.report
      if (o.report) good.value = o
    })
    if (!fixes && o.report) slow = window.setTimeout(() => void ask(true), 350)
  } catch (e) {
    if (asking !== mine) return
    if (e instanceof api.Refusal && e.status === 429) slow = window.setTimeout(() => void ask(fixes), 1000)
    else tell(e)
  } finally {
    if (asking === mine) {
      asking = null
      busy.value = false
      if (more) {
        more = false
        void ask()
      }
    }
  }
}

// withCurves asks again if the last outcome came without them, once: if nothing
// better comes, it would not the next time.
let without: Outcome | null = null

export function withCurves(): void {
  const o = good.value
  if (!o || o.curves || busy.value || o === without) return
  without = o
  void ask()
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
// other has the text. A draft that was found and not yet decided on stays, whatever
// is typed meanwhile.
let draftTimer = 0
let here = false // this page has put a draft into the browser
let beside = false // there may be one beside the file
let drafts: Promise<unknown> = Promise.resolve() // one call after the other

function later(): void {
  const of = name.value
  window.clearTimeout(draftTimer)
  if (!unkept.value) {
    if (typed.value) remember(`draft:${of}`, JSON.stringify(typed.value))
    else forget(of)
    return
  }
  here = true
  remember(`draft:${of}`, JSON.stringify({ text: text.value, from: new Date().toISOString(), origin: base.value.text, older: typed.value } satisfies Found))
  if (!canKeep.value) return
  draftTimer = window.setTimeout(() => {
    if (name.value !== of || !unkept.value) return
    beside = true
    const now = text.value
    drafts = drafts.then(() => api.keepDraft(of, now)).catch(tell)
  }, 400)
}

// forget drops what this page kept; what another one did is left to that.
function forget(of: string): void {
  if (here) drop(`draft:${of}`)
  if (beside && canKeep.value) drafts = drafts.then(() => api.dropDraft(of)).catch(tell)
  here = beside = false
}

function draftHere(of: string): Found | null {
  try {
    const d = JSON.parse(recall(`draft:${of}`) ?? "null") as Found | null
    return d && typeof d.text === "string" ? d : null
  } catch {
    return null
  }
}

export async function open(to: string): Promise<void> {
  try {
    const d = await api.read(to)
    past.length = future.length = 0
    waiting.clear()
    window.clearTimeout(draftTimer)
    here = beside = false
    answered = null
    batch(() => {
      name.value = to
      base.value = d
      text.value = d.text
      good.value = outcome.value = null
      stale.value = canUndo.value = canRedo.value = false
      chosen.value = openAnswer.value = ""
      clash.value = trial.value = null
      const kept = draftHere(to)
      typed.value = kept && kept.text !== d.text ? kept : d.draft ? { text: d.draft, from: "" } : null
    })
    history.replaceState(null, "", `#${encodeURIComponent(to)}`)
    await ask()
  } catch (e) {
    tell(e)
  }
}

// takeDraft goes on with what was typed. If the file has changed since, both are
// brought together, as they would have been had the page been open.
export function takeDraft(): void {
  const d = typed.value
  if (!d) return
  typed.value = d.older ?? null
  here = beside = true
  const theirs = base.value
  const both = d.origin === undefined || d.origin === theirs.text ? d.text : merged(d.text, d.origin, theirs.text)
  change(both ?? d.text)
  if (both === null) clash.value = theirs
}

export function leaveDraft(): void {
  typed.value = typed.value?.older ?? null
  here = beside = true
  later()
}

// keep writes the file; under another name if one is given.
export async function keep(as = ""): Promise<void> {
  const from = name.value
  const to = as || from
  const of = text.value
  window.clearTimeout(draftTimer)
  await drafts // one that comes after would outlive the file
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
    if (as) drop(`draft:${from}`)
    if (as) history.replaceState(null, "", `#${encodeURIComponent(to)}`)
    later()
  } catch (e) {
    tell(e)
  }
}

// meet brings together what is typed here and what somebody else wrote.
function meet(theirs: Stored): void {
  clash.value = null
  if (theirs.text === text.value || !unkept.value) {
    const changed = theirs.text !== text.value
    const before = text.value
    base.value = theirs
    if (changed) {
      past.push({ text: before, at: 0, typing: false })
      future.length = 0
      put(theirs.text)
      message.value = { what: "The file was changed by another program; its text is shown now.", todo: "Undo brings yours back.", bad: false }
    } else later()
    return
  }
  const both = merged(text.value, base.value.text, theirs.text)
  if (both === null) {
    clash.value = theirs
    later() // who kept the file dropped the draft beside it
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

// fromAddress is the design that the address names.
function fromAddress(): string {
  try {
    return decodeURIComponent(location.hash.slice(1))
  } catch {
    return "" // not written by this page
  }
}

export async function start(): Promise<void> {
  try {
    await refresh()
    const asked = fromAddress()
    await open(names.value.includes(asked) ? asked : names.value[0] ?? "demo")
  } catch (e) {
    tell(e)
  }
  window.addEventListener("hashchange", () => {
    const asked = fromAddress()
    if (asked !== name.value && names.value.includes(asked)) void open(asked)
  })
  api.listen((n, r) => void changedOutside(n, r).catch(tell), (yes) => {
    there.value = yes
    if (yes) void again() // what changed before anyone listened
  }, tell)
}

// again takes up the work after the program was away: the file may have changed,
// and answers were not given.
async function again(): Promise<void> {
  try {
    await refresh()
    const now = await api.read(name.value)
    if (now.revision !== base.value.revision) meet(now)
    else later()
    if (answered !== text.value) await ask()
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
