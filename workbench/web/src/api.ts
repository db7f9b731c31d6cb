// Calls to the program behind the page. What it says is wrong comes as a Refusal,
// with what to do about it.
import type { Far } from "./jobs"
import type { AisleReply, AisleRequest } from "./aisletypes"
import type { ClimateReply } from "./climatetypes"
import type { CuttingReply, CuttingRequest } from "./cuttypes"
import type { PlanReply, PlanRequest } from "./plantypes"
import type { ComputeRequest, CourseReply, CourseRequest, DesignList, DraftRequest, DrawingsReply, DrawingsRequest, Edit, FaultsReply, Outcome, PartsReply, Problem, Progress, SeekRequest, Stored, TextRequest } from "./types"

export class Refusal extends Error {
  constructor(readonly status: number, readonly what: string, readonly todo: string) {
    super(what)
  }
}

const gone = "The program behind this page does not answer. What you typed is kept in this browser; start the program again and it goes on."

async function call(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<Response> {
  let answer: Response
  try {
    answer = await fetch(path, {
      method, signal: signal ?? null, credentials: "same-origin",
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { "Content-Type": "application/json" } }),
    })
  } catch (e) {
    if (signal?.aborted) throw e
    throw new Refusal(0, gone, "")
  }
  if (!answer.ok && answer.status !== 409) {
    let p: Problem = { what: `the program answered with ${answer.status}`, do: "load the page again" }
    try {
      p = await answer.json() as Problem
    } catch { /* not ours: the words above do */ }
    throw new Refusal(answer.status, p.what, p.do)
  }
  return answer
}

const json = async <T>(r: Promise<Response>): Promise<T> => (await r).json() as Promise<T>
// today is the day where the page is, as the file writes days.
export const today = () => {
  const d = new Date()
  return `${d.getFullYear()}-${String(d.getMonth() + 1).padStart(2, "0")}-${String(d.getDate()).padStart(2, "0")}`
}
const named = (name: string) => encodeURIComponent(name)

export const designs = () => json<DesignList>(call("GET", "/api/designs"))
export const read = (name: string) => json<Stored>(call("GET", `/api/designs/${named(name)}`))
export const keepDraft = (name: string, text: string, base: string) => call("PUT", `/api/drafts/${named(name)}`, { text, base } satisfies DraftRequest)
export const dropDraft = (name: string) => call("DELETE", `/api/drafts/${named(name)}`)
export const compute = (q: ComputeRequest, signal?: AbortSignal) => json<Outcome>(call("POST", "/api/compute", q, signal))
export const set = async (text: string, edits: Edit[]) => (await json<{ text: string }>(call("POST", "/api/set", { text, edits }))).text
export const faults = (name: string, text: string) => json<FaultsReply>(call("POST", "/api/faults", { name, text, id: "" } satisfies CourseRequest))
export const course = (q: CourseRequest, signal?: AbortSignal) => json<CourseReply>(call("POST", "/api/course", q, signal))
export const everything = (t: TextRequest, far: Far, signal: AbortSignal) => work("everything", { ...t, id: "" } satisfies CourseRequest, (p) => p.faults, far, signal)
export const climate = (t: TextRequest, signal?: AbortSignal) => json<ClimateReply>(call("POST", "/api/climate", t, signal))
export const plan = (t: TextRequest, signal?: AbortSignal) => json<PlanReply>(call("POST", "/api/plan", { ...t, today: today() } satisfies PlanRequest, signal))
export const seek = (q: SeekRequest, far: Far, signal: AbortSignal) => work("seek", q, (p) => p.sought, far, signal)
export const weigh = (t: TextRequest, far: Far, signal: AbortSignal) => work("weigh", t, (p) => p.weighed, far, signal)
// work streams how far it is and returns what came of it.
async function work<T>(path: string, q: unknown, got: (p: Progress) => T | undefined, far: Far, signal: AbortSignal): Promise<T> {
  const answer = await call("POST", `/api/${path}`, q, signal)
  const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader()
  let rest = ""
  for (;;) {
    const part = await reader?.read()
    if (!part || part.done) throw new Refusal(500, "The work ended without a result.", "Try again.")
    const lines = (rest + part.value).split("\n")
    rest = lines.pop() ?? ""
    for (const line of lines) {
      const p = JSON.parse(line) as Progress
      if (p.fault) throw new Refusal(422, p.fault, "Mend the design first.")
      const all = got(p)
      if (all) return all
      far(p.done, p.of)
    }
  }
}
export const aisle = (q: AisleRequest, signal?: AbortSignal) => json<AisleReply>(call("POST", "/api/aisle", q, signal))
export const drawings = (q: DrawingsRequest, signal?: AbortSignal) => json<DrawingsReply>(call("POST", "/api/drawings", q, signal))
export const drawingsPDF = async (q: DrawingsRequest) => (await call("POST", "/api/drawings", { ...q, pdf: true })).blob()
export const cutting = (q: CuttingRequest, signal?: AbortSignal) => json<CuttingReply>(call("POST", "/api/cutting", q, signal))
export const cuttingFile = async (q: CuttingRequest) => (await call("POST", "/api/cutting", q)).blob()
export const packet = async (t: TextRequest, far: Far, signal: AbortSignal) => {
  const data = await work("cutting", { ...t, as: "packet" } satisfies CuttingRequest, (p) => p.file, far, signal)
  return new Blob([Uint8Array.from(atob(data), (c) => c.charCodeAt(0))], { type: "application/pdf" })
}
export const parts = (q: string) => json<PartsReply>(call("GET", `/api/parts?q=${encodeURIComponent(q)}`))
export const schema = () => json<Record<string, unknown>>(call("GET", "/api/schema"))

// save returns what then stands in the file, and whether that is ours.
export async function save(name: string, base: string, text: string): Promise<{ kept: boolean, now: Stored }> {
  const answer = await call("PUT", `/api/designs/${named(name)}`, { base, text })
  return { kept: answer.status !== 409, now: await answer.json() as Stored }
}

// listen calls back for every design that changes on the disk, and tells whether
// the program is there. A page that nobody sees does not listen: a browser keeps
// few connections to one place, and each listener takes one.
export function listen(changed: (name: string, revision: string) => void, there: (yes: boolean) => void, refused: (e: unknown) => void): void {
  let stream: EventSource | null = null
  let wait = 0
  const end = () => {
    window.clearTimeout(wait)
    stream?.close()
    stream = null
  }
  const begin = () => {
    if (stream || document.hidden) return
    const s = stream = new EventSource("/api/events")
    s.addEventListener("open", () => there(true))
    s.addEventListener("error", () => {
      there(false)
      if (s !== stream || s.readyState !== EventSource.CLOSED) return // it tries again by itself
      end()
      wait = window.setTimeout(begin, 2000)
      designs().catch(refused) // says why, if it is not that nobody is there
    })
    s.addEventListener("change", (e) => {
      const c = JSON.parse((e as MessageEvent<string>).data) as { name: string, revision: string }
      changed(c.name, c.revision)
    })
  }
  document.addEventListener("visibilitychange", () => document.hidden ? end() : begin())
  begin()
}
