// What the page knows. Views read these signals; the files beside this one change
// them, each for one reason.
import { computed, signal } from "@preact/signals"
import * as api from "./api"
import { drop, recall, remember } from "./memory"
import type { Painted } from "./climatetypes"
import type { LostPart } from "./plantypes"
import type { Answer, Outcome, Stored } from "./types"

export type View = "answers" | "look" | "curves" | "whatif" | "file" | "cutting" | "chances" | "choices" | "climate" | "plan" | "aisle" | "bench"

export const names = signal<string[]>([])
export const hasFolder = signal(false)
export const name = signal("")
// What stands in the file, as far as is known.
export const base = signal<Stored>({ name: "", text: "", revision: "", readOnly: true })
export const text = signal("")
// What the text was made from, where that is not what stands in the file: a draft on
// an older one that does not merge, until one of the two is chosen.
export const basis = signal<string | null>(null)
export const origin = (): string => basis.value ?? base.value.text
export const outcome = signal<Outcome | null>(null)
// The last outcome that could be computed, shown while the text has mistakes.
export const good = signal<Outcome | null>(null)
export const stale = signal(false) // good is not of this text
export const busy = signal(false)
export const measured = signal(false) // answers from what the log tells
export const view = signal<View>("answers")
export const chosen = signal("") // path of the part that is looked at
export const openAnswer = signal("") // its id
export const message = signal<{ what: string, todo: string, bad: boolean } | null>(null)
export const there = signal(true)
export const moment = signal<{ time: number, level: Map<string, number> } | null>(null) // of a course, in place of the running levels
export const painted = signal<Painted | null>(null) // on the faces of the picture
export const lit = signal<LostPart[]>([]) // parts shown up in the picture
export const fogged = signal(false) // the front, at the time of day looked at
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
export const canUndo = signal(false)
export const canRedo = signal(false)
// One step that was offered and not yet decided on, with the text before it.
// After is the text with it. Another one that is tried meanwhile takes the place of
// the first, which it then names in instead, and goes back to the text before both; where
// the first cannot be taken out again, since what was typed meanwhile hangs on it, the
// other one comes on top, and together tells that.
export interface Trial { before: string, after: string, what: string, compare: Answer[], instead?: string, together?: boolean }
export const trial = signal<Trial | null>(null)

export function tell(e: unknown): void {
  if (e instanceof api.Refusal) {
    if (e.status === 0) there.value = false
    else message.value = { what: e.what, todo: e.todo, bad: true }
    return
  }
  if (e instanceof DOMException && e.name === "AbortError") return
  message.value = { what: String(e), todo: "load the page again", bad: true }
}

export function setTheme(to: "" | "light" | "dark"): void {
  theme.value = to
  if (to) remember("theme", to)
  else drop("theme")
}
