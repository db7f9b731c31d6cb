import { useEffect, useRef, useState } from "preact/hooks"
import { chosen, outcome, setValues } from "./store"
import type { FormField } from "./types"

// Form shows every value that the file gives, with its unit as typed, section by
// section. A value is changed when its field is left or Enter is pressed.
export function Form({ fields }: { fields: FormField[] }) {
  const [look, put] = useState("")
  const wanted = fields.filter((f) => look === "" || `${f.path} ${f.text} ${f.about}`.toLowerCase().includes(look.toLowerCase()))
  const groups = new Map<string, FormField[]>()
  for (const f of wanted) {
    const g = groupOf(f.path)
    const l = groups.get(g)
    if (l) l.push(f)
    else groups.set(g, [f])
  }
  return (
    <div class="form">
      <label class="search">Find a value <input type="search" value={look} onInput={(e) => put(e.currentTarget.value)} placeholder="dam, hole, label …" /></label>
      {[...groups].map(([g, list]) => (
        <fieldset key={g}>
          <legend>{words(g)}</legend>
          {list.map((f) => <Value key={f.path} f={f} under={g} />)}
        </fieldset>
      ))}
    </div>
  )
}

// The section a value stands in: everything up to its last named entry.
function groupOf(path: string): string {
  const cut = path.lastIndexOf("]")
  if (cut >= 0) return path.slice(0, cut + 1)
  const dot = path.lastIndexOf(".")
  return dot < 0 ? "design" : path.slice(0, dot)
}

const words = (g: string) => g.replace(/\[([^\]]*)\]/g, " $1").replaceAll(".", ", ").replaceAll("-", " ")

export function Value({ f, under }: { f: FormField, under: string }) {
  const [typed, put] = useState<string | null>(null)
  const wrong = outcome.value?.findings.find((x) => x.field === f.path && x.severity === "error")
  const id = `v-${f.path.replace(/[^\w]/g, "_")}`
  const label = f.path.startsWith(under) ? f.path.slice(under.length).replace(/^\./, "") || f.key : f.path
  // What was typed is shown until the answer to it is there, and on if there is none.
  const sent = useRef(false)
  useEffect(() => {
    if (sent.current) put(null)
    sent.current = false
  }, [outcome.value])
  const keep = (to: string) => {
    if (to === f.text) put(null)
    else void setValues([{ path: f.path, to }]).then((ok) => { sent.current = ok })
  }
  const here = chosen.value === f.path || chosen.value === `line:${f.line}`
  return (
    <div class={here ? "value here" : "value"}>
      <label for={id}>{label.replaceAll("-", " ").replaceAll(".", ", ")}</label>
      {f.words
        ? (
          <select id={id} value={f.text} onChange={(e) => void setValues([{ path: f.path, to: e.currentTarget.value }])} aria-describedby={`${id}-a`}>
            {!f.words.split("|").includes(f.text) && <option value={f.text}>{f.text}</option>}
            {f.words.split("|").map((w) => <option key={w} value={w}>{w}</option>)}
          </select>
        )
        : (
          <input
            id={id} value={typed ?? f.text} aria-invalid={wrong ? true : undefined} aria-describedby={`${id}-a`} autocomplete="off"
            onInput={(e) => { sent.current = false; put(e.currentTarget.value) }} onBlur={(e) => keep(e.currentTarget.value)} onFocus={() => { chosen.value = f.path }}
            onKeyDown={(e) => {
              if (e.key === "Enter") keep(e.currentTarget.value)
              if (e.key === "Escape") {
                e.currentTarget.value = f.text
                put(null)
              }
            }}
          />
        )}
      <p id={`${id}-a`} class={wrong ? "about wrong" : "about"}>{wrong ? `${wrong.what}. ${wrong.do}` : f.about}</p>
    </div>
  )
}
