import { chosen, good, view } from "./store"
import { Value } from "./form"

// PartCard shows the part that is looked at: where the file gives it, what of its
// place was taken for granted, and its values to change.
export function PartCard() {
  const o = good.value
  const scene = o?.scene
  if (!o || !scene) return null
  const line = chosen.value.startsWith("line:") ? Number(chosen.value.slice(5)) : 0
  // Several things drawn may be one entry of the file: the first names it.
  const parts = [...new Map(scene.parts.filter((p) => p.field).reverse().map((p) => [p.field, p])).values()].reverse()
  const part = scene.parts.find((p) => p.field !== "" && (line > 0 ? p.line === line : p.field === chosen.value || (chosen.value !== "" && chosen.value.startsWith(`${p.field}.`))))
  const own = part ? o.form.filter((f) => f.path === part.field || f.path.startsWith(`${part.field}.`)) : []
  return (
    <section class="part" aria-label="The part looked at">
      <label>Part
        <select value={part?.field ?? ""} onChange={(e) => { chosen.value = e.currentTarget.value }}>
          <option value="">none: click one in the picture</option>
          {parts.map((p) => <option key={p.field} value={p.field}>{p.name || p.kind}{p.name && !p.name.includes(p.kind) ? ` (${p.kind})` : ""}</option>)}
        </select>
      </label>
      {part && (
        <>
          <p class="quiet">{part.assumed?.length ? `Its place is taken ${part.assumed.join("; ")}. ` : ""}{part.line ? <button type="button" class="link" onClick={() => { chosen.value = `line:${part.line}`; view.value = "file" }}>line {part.line} of the file</button> : null}</p>
          <div class="values">{own.map((f) => <Value key={f.path} f={f} under={part.field} />)}</div>
        </>
      )}
      {scene.missing.length > 0 && <p class="quiet">Not drawn: {scene.missing.join("; ")}.</p>}
    </section>
  )
}
