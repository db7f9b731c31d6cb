import { useState } from "preact/hooks"
import { today } from "./api"
import { good, setValues } from "./store"
import type { FormField } from "./types"

// Facts shows what was measured in place of the plan, and takes in more of it. The
// figures of what a step is about stand first.
export function Facts({ about }: { about: string }) {
  const [path, choose] = useState("")
  const [is, put] = useState("")
  const [noted, note] = useState("")
  const form = (good.value?.form ?? []).filter((f) => !/^(rillwright|name|units|notes|parts|as-built|done|budget|scenarios|assume)\b|\.(name|note)$/.test(f.path))
  const near = (f: FormField) => (f.path.match(/\[([^\]]+)\]/g) ?? []).some((n) => about.includes(n.slice(1, -1)))
  const figures = [...form.filter(near), ...form.filter((f) => !near(f))]
  const figure = form.find((f) => f.path === path)
  const known = good.value?.report?.asBuilt ?? []
  const keep = async (e: Event) => {
    e.preventDefault()
    if (!path || !is) return
    if (!await setValues([{ path, to: is, kind: "measure", on: today() }])) return // why not has been told
    note(`Noted: ${path} is ${is}. All answers go by that now.`)
    choose("")
    put("")
  }
  return (
    <details class="facts">
      <summary>Something was measured that is not as planned</summary>
      <form onSubmit={(e) => void keep(e)}>
        <label>Which figure <input value={path} list="figures" autocomplete="off" placeholder="drains[main drain].lip" onInput={(e) => choose(e.currentTarget.value)} /></label>
        <datalist id="figures">{figures.map((f) => <option key={f.path} value={f.path}>{f.text}: {f.about}</option>)}</datalist>
        {figure && <p class="quiet">{figure.about} It stands at {figure.text}. Write {figure.what}.</p>}
        <label>What it is <input value={is} autocomplete="off" placeholder="152 mm" onInput={(e) => put(e.currentTarget.value)} /></label>
        <button type="submit" disabled={!path || !is}>Note it</button>
      </form>
      <p role="status">{noted}</p>
      {known.length > 0 && <ul>{known.map((f) => <li key={f.field}>{f.field}: {f.measured}{f.planned && ` (planned ${f.planned})`}</li>)}</ul>}
    </details>
  )
}
