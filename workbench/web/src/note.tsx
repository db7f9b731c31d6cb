import { useState } from "preact/hooks"
import * as api from "./api"
import { name, tell } from "./store"
import type { LogChoice } from "./troubletypes"

// NoteForm notes a reading in the log of the design: choose, type, send.
export function NoteForm({ choices, chosen, done }: { choices: LogChoice[], chosen: string, done: () => void }) {
  const [what, putWhat] = useState(chosen)
  const [value, putValue] = useState("")
  const [said, say] = useState<{ text: string, todo?: string } | null>(null)
  const example = choices.find((c) => c.value === what)?.example ?? ""
  const send = (e: Event) => {
    e.preventDefault()
    api.note({ name: name.value, what, value, note: "" }).then((r) => {
      if (r.fault) return say({ text: r.fault, todo: r.do })
      say({ text: `Noted: ${r.noted}` })
      putValue("")
      done()
    }, tell)
  }
  return (
    <form class="noting" onSubmit={send}>
      <label>What <select value={what} onChange={(e) => putWhat(e.currentTarget.value)}>
        {choices.map((c) => <option key={c.value} value={c.value}>{c.label}</option>)}
      </select></label>
      <label>Figures <input value={value} placeholder={example === "-" ? "" : example} autocomplete="off" autocapitalize="off" spellcheck={false} onInput={(e) => putValue(e.currentTarget.value)} aria-invalid={said?.todo !== undefined} aria-describedby="noted" /></label>
      <button type="submit" class="main">Note it</button>
      <p id="noted" role="status" class={said?.todo === undefined ? "quiet" : "wrong"}>{said ? `${said.text}${said.todo ? `. ${said.todo}` : ""}` : example === "-" ? "What it was, in a word." : `As in: ${example}`}</p>
    </form>
  )
}
