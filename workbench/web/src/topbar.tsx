import { useState } from "preact/hooks"
import { busy, canKeep, canRedo, canUndo, good, hasFolder, keep, name, names, open, redo, setTheme, stale, text, theme, undo, unkept } from "./store"

export function TopBar() {
  const [saving, ask] = useState(false)
  return (
    <header class="top">
      <h1><span class="mark" aria-hidden="true">⌇</span>rillwright</h1>
      <label class="pick">
        <span class="quiet">Design</span>
        <select value={name.value} onChange={(e) => void open(e.currentTarget.value)}>
          {names.value.map((n) => <option key={n} value={n}>{title(n)}</option>)}
        </select>
      </label>
      <div class="tools" role="group" aria-label="Changes">
        <button type="button" aria-disabled={!canUndo.value} onClick={undo} title="Ctrl+Z">Undo</button>
        <button type="button" aria-disabled={!canRedo.value} onClick={redo} title="Ctrl+Shift+Z">Redo</button>
        {canKeep.value
          ? <button type="button" class="main" aria-disabled={!unkept.value} onClick={() => { if (unkept.value) void keep() }} title="Ctrl+S">{unkept.value ? "Keep" : "Kept"}</button>
          : hasFolder.value
            ? <button type="button" class="main" onClick={() => ask(!saving)} aria-expanded={saving}>Keep a copy</button>
            : <button type="button" class="main" onClick={download}>Download</button>}
        <button type="button" onClick={() => setTheme(theme.value === "dark" ? "light" : theme.value === "light" ? "" : "dark")} aria-label={`Colours: ${theme.value || "as the system has them"}`} title="Colours">{theme.value === "dark" ? "☾" : theme.value === "light" ? "☀" : "◐"}</button>
      </div>
      {canKeep.value && <a href={`/log/${encodeURIComponent(name.value)}`} title="what was measured, and what it tells">Log</a>}
      {saving && <SaveAs done={() => ask(false)} />}
      <p class="pulse" role="status">{status()}</p>
    </header>
  )
}

const title = (n: string) => n === "demo" ? "demo (metric)" : n === "demo-us" ? "demo (US units)" : n

function status(): string {
  if (stale.value) return "The text has mistakes; the answers shown are of the text before."
  if (busy.value && !good.value) return "Computing …"
  const o = good.value
  return o?.report ? `${o.report.name}: worst answer ${o.report.verdict}${o.rough ? ". Looking closer …" : ""}` : ""
}

function download(): void {
  const link = document.createElement("a")
  link.href = URL.createObjectURL(new Blob([text.value], { type: "application/yaml" }))
  link.download = `${name.value.replace(/\.ya?ml$/, "")}.yaml`
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 1000)
}

function SaveAs({ done }: { done: () => void }) {
  const [to, put] = useState("my-wall.yaml")
  return (
    <form class="saveas" onSubmit={(e) => {
      e.preventDefault()
      void keep(/\.ya?ml$/.test(to) ? to : `${to}.yaml`).then(done)
    }}>
      <label>Name of the copy <input value={to} onInput={(e) => put(e.currentTarget.value)} autoFocus /></label>
      <button type="submit" class="main">Keep</button>
      <button type="button" onClick={done}>Cancel</button>
    </form>
  )
}
