import * as api from "./api"
import { drop, recall, remember } from "./memory"
import { canKeep, name, origin, tell, text, typed, unkept, type Found } from "./state"

// Drafts: here at once, beside the file a little later. Whichever side dies, the
// other has the text. A draft that was found and not yet decided on stays, whatever
// is typed meanwhile.
let draftTimer = 0
let here = false // this page has put a draft into the browser
let beside = false // there may be one beside the file
let drafts: Promise<unknown> = Promise.resolve() // one call after the other

export function later(): void {
  const of = name.value
  window.clearTimeout(draftTimer)
  if (!unkept.value) {
    if (typed.value) remember(`draft:${of}`, JSON.stringify(typed.value))
    else forget(of)
    return
  }
  here = true
  remember(`draft:${of}`, JSON.stringify({ text: text.value, from: new Date().toISOString(), origin: origin(), older: typed.value } satisfies Found))
  if (!canKeep.value) return
  draftTimer = window.setTimeout(() => {
    if (name.value !== of || !unkept.value) return
    beside = true
    const now = text.value
    const from = origin()
    drafts = drafts.then(() => api.keepDraft(of, now, from)).catch(tell)
  }, 400)
}

// forget drops what this page kept; what another one did is left to that.
function forget(of: string): void {
  if (here) drop(`draft:${of}`)
  if (beside && canKeep.value) drafts = drafts.then(() => api.dropDraft(of)).catch(tell)
  here = beside = false
}

export function draftHere(of: string): Found | null {
  try {
    const d = JSON.parse(recall(`draft:${of}`) ?? "null") as Found | null
    return d && typeof d.text === "string" ? d : null
  } catch {
    return null
  }
}

// begin is for another design: what this page kept of the last one is left alone.
export function begin(): void {
  window.clearTimeout(draftTimer)
  here = beside = false
}

// adopt makes drafts that were found this page's own, to keep or to drop.
export function adopt(): void { here = beside = true }

// settled waits until no draft is on its way: one that came after the file was
// written would outlive it.
export async function settled(): Promise<void> {
  window.clearTimeout(draftTimer)
  await drafts
}
