import { useEffect, useState } from "preact/hooks"
import * as api from "./api"
import { lazy } from "./lazy"
import { NoteForm } from "./note"
import { useReply } from "./reply"
import { lit } from "./store"
import type { LostPart } from "./plantypes"
import type { TroubleReply } from "./troubletypes"

const Picture = lazy<object>(async () => ({ default: (await import("./look")).InSpace }))

// One row to choose from: a suspect, or two at once.
interface Row { id: string, share: string, probability: number, what: string, todo: string, leaves: string, parts: LostPart[] }

// Trouble: what explains the readings of the log, most probable first, with its part
// lit in the picture, what to do first, and what to measure next.
export default function Trouble() {
  const [since, putSince] = useState("")
  const [noted, putNoted] = useState(0)
  const r = useReply((t, stop) => api.trouble({ ...t, since }, stop), 200, `${since} ${noted}`)
  const [picked, pick] = useState<string | null>(null) // "" for none
  const { pairs, likely, rest } = rowsOf(r)
  const first = pairs[0] ?? likely[0]
  const open = picked ?? (first && first.id !== "nothing" ? first.id : "")
  const shown = [...pairs, ...likely, ...rest].find((x) => x.id === open)
  const parts = JSON.stringify(shown?.parts ?? [])
  useEffect(() => { lit.value = JSON.parse(parts) as LostPart[] }, [parts])
  useEffect(() => () => { lit.value = [] }, [])
  if (!r) return <p class="wait">Setting what was read against the design …</p>
  const list = (rows: Row[]) => <ol class="suspects">{rows.map((x) => <Suspect key={x.id} x={x} open={x.id === open} choose={() => pick(x.id === open ? "" : x.id)} />)}</ol>
  return (
    <div class="whatif aside trouble">
      <section class="card" aria-label="What is wrong">
        <h2>What is wrong?</h2>
        {r.says.map((s) => <p key={s} class="quiet">{s}</p>)}
        {pairs.length > 0 && (
          <>
            <p class="caution">No one thing that is looked for explains what was read. Two at once do it better{r.pairing ? ", but not well: measure again what looks odd" : ""}.</p>
            {list(pairs)}
            <h3>One alone, the likeliest</h3>
          </>
        )}
        {pairs.length === 0 && r.pairing && <p class="caution">No one thing that is looked for explains what was read, {r.pairing}.</p>}
        {likely.length > 0 && list(likely)}
        {rest.length > 0 && <details><summary>What else was looked for ({rest.length})</summary>{list(rest)}</details>}
        {r.found && <p class="quiet">How probable is among what is on this list: what is not on it is not looked for.</p>}
      </section>
      <div class="picture"><Picture /></div>
      {r.log && (
        <section class="card" aria-label="Measure next">
          <h2>{r.measure ? "Measure next" : "Measure"}</h2>
          {r.measure && (
            <>
              <p><b>{r.measure.id}</b>, {r.measure.takes}. {r.measure.how}</p>
              <ul class="plain">{r.measure.tells.map((t) => <li key={t}>{t}</li>)}</ul>
            </>
          )}
          <NoteForm key={r.measure?.value ?? ""} choices={r.choices} chosen={r.measure?.value ?? "manifold"} done={() => { pick(null); putNoted(noted + 1) }} />
        </section>
      )}
      {r.log && (
        <section class="card" aria-label="What has changed">
          <h2>What has changed</h2>
          {r.found && r.found.changes.length > 0 ? <ul class="changes">{r.found.changes.map((c) => <Changed key={c.id} text={c.text} share={c.share} />)}</ul> : <p class="quiet">No flow was measured that could be set against an earlier one.</p>}
          {r.unused.length > 0 && <details><summary>Left out ({r.unused.length})</summary><ul class="plain">{r.unused.map((u) => <li key={u}>{u}</li>)}</ul></details>}
          <p><label>Readings count as of now from <input type="date" value={since} onChange={(e) => { pick(null); putSince(e.currentTarget.value) }} /></label> <span class="quiet">{since ? "" : "three days before the last, if none is given"}</span></p>
          <p><a href={r.log}>All that was noted, and where it is going</a></p>
        </section>
      )}
    </div>
  )
}

// rowsOf puts what was found into rows.
function rowsOf(r: TroubleReply | null): { pairs: Row[], likely: Row[], rest: Row[] } {
  const all = (r?.found?.suspects ?? []).map((s, i): Row => ({
    id: s.id, share: r?.suspects[i]?.share ?? "", probability: s.probability, what: s.what, todo: s.id === "nothing" ? "" : s.do,
    leaves: s.id === "nothing" ? "" : leaves(s.flow), parts: r?.suspects[i]?.parts ?? [],
  }))
  const worth = r?.worth ?? 0
  const pairs = (r?.together ?? []).map((t, i): Row => ({
    id: r?.found?.pairs?.[i]?.ids.join(" ") ?? t.what, share: t.share, probability: r?.found?.pairs?.[i]?.probability ?? 0, what: t.what, todo: t.do,
    leaves: leaves(r?.found?.pairs?.[i]?.flow ?? 1), parts: t.parts,
  })).filter((x, i) => i === 0 || x.probability >= 0.05)
  return { pairs, likely: all.slice(0, worth), rest: all.slice(worth) }
}

const leaves = (share: number) => share > 0.995 ? "It takes nothing of the flow of the outlets." : `It leaves ${Math.round(100 * share)} % of the flow of the outlets.`

function Suspect({ x, open, choose }: { x: Row, open: boolean, choose: () => void }) {
  const id = `suspect-${x.id.replace(/\W/g, "_")}`
  const where = [...new Set(x.parts.map((p) => p.name.includes(p.kind) ? p.name : `${p.name} (${p.kind})`))]
  return (
    <li>
      <button type="button" aria-expanded={open} aria-controls={id} onClick={choose}>
        <b>{x.share}</b> <span>{x.what}</span>
        <svg viewBox="0 0 100 1" preserveAspectRatio="none" aria-hidden="true"><rect width={100 * x.probability} height="1" /></svg>
      </button>
      <div id={id} hidden={!open}>
        {open && x.todo && <p><b>Do first:</b> {x.todo.replace(/^first: /, "")}.</p>}
        {open && <p class="quiet">{x.leaves}{where.length > 0 && ` Lit in the picture: ${where.length > 6 ? `${where.slice(0, 5).join(", ")} and ${where.length - 5} more` : where.join(", ")}.`}</p>}
      </div>
    </li>
  )
}

function Changed({ text, share }: { text: string, share: number }) {
  return (
    <li>
      {text}
      <svg viewBox="0 0 120 6" preserveAspectRatio="none" aria-hidden="true">
        <rect class={share < 0.9 ? "less" : ""} width={Math.min(120, 100 * share)} y="1" height="4" />
        <path d="M100 0v6" />
      </svg>
    </li>
  )
}
