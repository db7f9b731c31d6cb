import { batch } from "@preact/signals"
import * as api from "./api"
import { ask, forgetAnswer, isAnswered } from "./ask"
import { adopt, begin as beginDrafts, draftHere, later, settled } from "./drafts"
import { begin as beginEdits, change, stepTo } from "./edit"
import { drop } from "./memory"
import { merged } from "./merge"
import {
  base, basis, canRedo, canUndo, chosen, clash, good, hasFolder, message, name, names, openAnswer, origin, outcome, stale, tell, text, there, trial, typed, unkept, view, viewIds,
} from "./state"
import type { Stored } from "./types"

export async function open(to: string): Promise<void> {
  try {
    const d = await api.read(to)
    beginEdits()
    beginDrafts()
    forgetAnswer()
    batch(() => {
      name.value = to
      base.value = d
      text.value = d.text
      good.value = outcome.value = null
      stale.value = canUndo.value = canRedo.value = false
      chosen.value = openAnswer.value = ""
      clash.value = trial.value = basis.value = null
      const kept = draftHere(to)
      typed.value = kept && kept.text !== d.text ? kept : d.draft ? { text: d.draft, from: "", ...(d.draftBase === undefined ? {} : { origin: d.draftBase }) } : null
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
  adopt()
  const theirs = base.value
  const both = d.origin === undefined || d.origin === theirs.text ? d.text : merged(d.text, d.origin, theirs.text)
  batch(() => {
    if (both === null) {
      basis.value = d.origin ?? null
      clash.value = theirs
    }
    change(both ?? d.text)
  })
}

export function leaveDraft(): void {
  typed.value = typed.value?.older ?? null
  adopt()
  later()
}

// keep writes the file; under another name if one is given.
export async function keep(as = ""): Promise<void> {
  if (clash.value && !as) { // the file would lose what they wrote, unseen
    message.value = { what: "Nothing is written yet: another program changed the same lines of this file as you did.", todo: "Choose below which text to go on with, then keep it.", bad: true }
    return
  }
  const from = name.value
  const to = as || from
  const of = text.value
  await settled()
  try {
    const { kept, now } = await api.save(to, as ? "" : base.value.revision, of)
    if (!kept) {
      if (as) message.value = { what: `There is a design ${to} already.`, todo: "Give another name.", bad: true }
      else meet(now)
      return
    }
    batch(() => {
      base.value = { ...now, readOnly: false }
      basis.value = clash.value = null
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
    base.value = theirs
    basis.value = null
    if (changed) {
      stepTo(theirs.text)
      message.value = { what: "The file was changed by another program; its text is shown now.", todo: "Undo brings yours back.", bad: false }
    } else later()
    return
  }
  const both = merged(text.value, origin(), theirs.text)
  if (both === null) {
    clash.value = theirs
    later() // who kept the file dropped the draft beside it
    return
  }
  base.value = theirs
  basis.value = null
  change(both)
  message.value = { what: "The file was changed by another program in other places; both changes are in the text now.", todo: "Undo takes theirs out again; keep writes both.", bad: false }
}

export function settle(mine: boolean): void {
  const theirs = clash.value
  clash.value = message.value = null
  if (!theirs) return
  base.value = theirs
  basis.value = null
  if (mine) later()
  else {
    trial.value = null // undo brings it back, with its text
    change(theirs.text)
  }
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

// fromAddress is the design that the address names, and changes to the view after it,
// if there is one: #wall.yaml/trouble. No name of a design has a stroke in it.
function fromAddress(): string {
  const [design, at] = location.hash.slice(1).split("/")
  const to = viewIds.find((v) => v === at)
  if (to) view.value = to
  try {
    return decodeURIComponent(design ?? "")
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
    if (!isAnswered()) await ask()
  } catch (e) {
    tell(e)
  }
}
