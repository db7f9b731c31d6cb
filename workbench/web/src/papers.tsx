import { useEffect, useState } from "preact/hooks"
import * as api from "./api"
import { handOver } from "./handover"
import { name, tell, text } from "./store"
import type { DrawingsReply } from "./types"

// Papers shows every sheet as it is printed, and hands over the whole set. What is
// on the screen is what is on paper.
export function Papers() {
  const [set, put] = useState<DrawingsReply | null>(null)
  const [at, go] = useState(0)
  const of = text.value
  useEffect(() => {
    const stop = new AbortController()
    const wait = window.setTimeout(() => {
      api.drawings({ name: name.value, text: of, letter: false, pdf: false }, stop.signal).then(put, (e: unknown) => { if (!stop.signal.aborted) tell(e) })
    }, 200)
    return () => {
      stop.abort()
      window.clearTimeout(wait)
    }
  }, [of, name.value])
  if (!set) return <p class="wait">Drawing …</p>
  const k = Math.min(at, set.sheets.length - 1)
  const sheet = set.sheets[k]
  const print = () => {
    api.drawingsPDF({ name: name.value, text: of, letter: set.letter, pdf: true }).then((b) => handOver(b, "drawings.pdf"), tell)
  }
  return (
    <div class="papers">
      <div class="reins">
        <label>Sheet
          <select value={k} onChange={(e) => go(Number(e.currentTarget.value))}>
            {set.sheets.map((s, i) => <option key={i} value={i}>{i + 1}. {s.title}</option>)}
          </select>
        </label>
        <button type="button" disabled={k === 0} onClick={() => go(k - 1)}>Back</button>
        <button type="button" disabled={k >= set.sheets.length - 1} onClick={() => go(k + 1)}>Next</button>
        <button type="button" class="main" onClick={print}>All as PDF</button>
      </div>
      {sheet && <img alt={`${sheet.title}, as printed`} src={`data:image/svg+xml;base64,${base64(sheet.svg)}`} />}
      <p class="quiet">Print templates at 100 %, not fitted to the page, and measure both bars before you mark glass.</p>
    </div>
  )
}

const base64 = (s: string) => btoa(Array.from(new TextEncoder().encode(s), (b) => String.fromCharCode(b)).join(""))
