import { useState } from "preact/hooks"
import * as api from "./api"
import { handOver } from "./handover"
import { job } from "./jobs"
import { lazy } from "./lazy"
import { useReply } from "./reply"
import { chosen, good, name, setValues, tell, text } from "./store"
import type { ItemShown } from "./cuttypes"

const Picture = lazy<object>(async () => ({ default: (await import("./look")).InSpace }))

// What is cut and bought: sizes with their rules, cut layouts, the list by shop.
// A row that is chosen lights its part up in the picture.
export default function Cutting() {
  const c = useReply((t, stop) => api.cutting({ ...t, as: "" }, stop))
  const ready = good.value !== null
  if (!c || !ready) return <p class="wait">Laying out …</p>
  const { pieces: p } = c
  return (
    <div class="cutting">
      <Papers us={p.units === "us"} />
      <div class="picture"><Picture /></div>
      <section>
        <h2>Panes, finished</h2>
        <ul>
          {p.panes.map((x, i) => (
            <Row key={i} at={x.kind === "dam" ? "dam" : x.field} name={`${x.count > 1 ? `${x.count} x ` : ""}${x.name}`} size={x.text}>
              {x.had ? "of the tank as bought: nothing to cut" : <>{x.material}, {x.edges}. {[["Width", x.width], ["Height", x.height]].map(([w, s]) => typeof s === "object" && s.rule ? `${w as string}: ${s.rule}${s.round ? `, ${s.round}` : ""}; ${s.fit}. ` : "")}</>}
            </Row>
          ))}
        </ul>
      </section>
      <section>
        <h2>Pipe and hose, end to end</h2>
        <ul>{p.lengths.map((x, i) => <Row key={i} at={x.field} name={`${x.count > 1 ? `${x.count} x ` : ""}${x.name}`} size={x.text}>{x.of}: {x.rule}</Row>)}</ul>
      </section>
      {p.panels.length > 0 && (
        <section>
          <h2>Grid, in cells</h2>
          <ul>{p.panels.map((x, i) => <Row key={i} at={`line:${x.line}`} name={x.name} size={`${x.cols} x ${x.rows} cells`}>{x.ends ?? (x.notched > 0 ? `${x.notched} cells notched` : "no notches")}</Row>)}</ul>
        </section>
      )}
      {p.ordered.length > 0 && <section><h2>Ordered to size</h2><ul>{p.ordered.map((x, i) => <li key={i}>{x.name}: {x.why}</li>)}</ul></section>}
      <section>
        <h2>Cut layouts</h2>
        <div class="sheets">{c.sheets.map((s, i) => <details key={i}><summary>{s.title}</summary><img alt={`${s.title}, as printed`} src={`data:image/svg+xml,${encodeURIComponent(s.svg)}`} /></details>)}</div>
        <OnHand />
      </section>
      <section>
        <h2>What to buy</h2>
        {c.shops.map((s) => (
          <div key={s.shop}>
            <h3>{s.shop}</h3>
            <ul>{s.items.map((it) => <Bought key={it.name} it={it} currency={c.currency} />)}</ul>
          </div>
        ))}
        {c.onHand.length > 0 && <><h3>on hand</h3><ul>{c.onHand.map((s, i) => <li key={i}>{s}</li>)}</ul></>}
        <h3>sum</h3>
        <ul>{c.sums.map((s, i) => <li key={i}>{s}</li>)}</ul>
      </section>
      {p.assumed.length > 0 && <p class="quiet">Taken for granted: {p.assumed.join("; ")}.</p>}
    </div>
  )
}

function Row({ at, name: called, size, children }: { at: string, name: string, size: string, children: preact.ComponentChildren }) {
  const on = at !== "" && chosen.value === at
  return (
    <li class={on ? "here" : ""}>
      <button type="button" aria-pressed={on} onClick={() => { chosen.value = on ? "" : at }}><span>{called}</span> <b>{size}</b></button>
      <p class="quiet">{children}</p>
    </li>
  )
}

// plain is a text as a value of the file: in quotes where it needs them.
const plain = (s: string) => /^[a-z][\w ./]*$/i.test(s) || /^\d[\w. ]* [a-z ]+$/i.test(s) ? s : JSON.stringify(s)

// Bought is a line of the list, with a place for what the shop asks.
function Bought({ it, currency }: { it: ItemShown, currency: string }) {
  const keep = (to: string) => {
    const asked = to.trim().replace(",", ".")
    if (asked === "") return
    const price = /^[\d.]+$/.test(asked) && currency ? `${asked} ${currency}` : asked
    const known = good.value?.form.find((f) => /^budget\.prices\[.*\]\.what$/.test(f.path) && f.text === it.name)
    void setValues([known
      ? { path: known.path.replace(/what$/, "price"), to: price }
      : { path: "budget.prices", kind: "append", to: `{ what: ${plain(it.name)}, ${it.pack ? `pack: ${plain(it.pack)}, ` : ""}price: ${plain(price)} }` }])
  }
  return (
    <li class="bought">
      <div><b>{it.buy}</b> {it.name}, {it.cost}</div>
      <Typed label={`Price of ${it.pack || "one"}`} about={it.name} hint={currency || "8 EUR"} done={keep} />
      {it.says.length > 0 && <p class="quiet">{it.says.join("; ")}</p>}
    </li>
  )
}

// Typed is a field that is emptied once what stands in it went into the file.
function Typed({ label, about, hint, done }: { label: string, about: string, hint: string, done: (to: string) => void }) {
  return (
    <label>{label} <input aria-label={`${label}: ${about}`} placeholder={hint} autocomplete="off" onChange={(e) => {
      done(e.currentTarget.value)
      e.currentTarget.value = ""
    }} /></label>
  )
}

// OnHand writes an offcut or a rest into the file's stock.
function OnHand() {
  const [what, putWhat] = useState("")
  const [size, putSize] = useState("")
  const add = (e: Event) => {
    e.preventDefault()
    if (!what.trim() || !size.trim()) return
    void setValues([{ path: "stock", kind: "append", to: `{ what: ${plain(what.trim())}, count: 1, size: ${plain(size.trim())} }` }]).then((ok) => {
      if (!ok) return
      putWhat("")
      putSize("")
    })
  }
  return (
    <form class="hand" onSubmit={add}>
      <label>An offcut on hand <input value={what} placeholder="grid sheet" autocomplete="off" onInput={(e) => putWhat(e.currentTarget.value)} /></label>
      <label>Its size <input value={size} placeholder="600 x 400 mm" autocomplete="off" onInput={(e) => putSize(e.currentTarget.value)} /></label>
      <button type="submit">Use it</button>
    </form>
  )
}

// packet is the PDF of all papers, as it is made.
const packet = job<Blob>((t, _, far, stop) => api.packet(t, far, stop).then((b) => {
  handOver(b, "packet.pdf")
  return b
}))

function Papers({ us }: { us: boolean }) {
  const [busy, wait] = useState(false)
  const far = packet.far.value
  const get = (as: string) => {
    const q = { name: name.value, text: text.value }
    wait(true)
    const made = as === "drawings" ? api.drawingsPDF({ ...q, letter: us, pdf: true }) : api.cuttingFile({ ...q, as })
    made.then((b) => handOver(b, as === "list" ? "shopping.csv" : `${as}.pdf`), tell).finally(() => wait(false))
  }
  return (
    <div class="reins" role="group" aria-label="Papers to take along">
      {far
        ? <p class="far"><progress value={far.done} max={far.of} aria-label="How far the packet is" /> <button type="button" onClick={packet.end}>Call it off</button></p>
        : <button type="button" class="main" onClick={() => packet.start(undefined)}>Packet, PDF</button>}
      <button type="button" disabled={busy} onClick={() => get("drawings")}>Drawings and templates, PDF</button>
      <button type="button" disabled={busy} onClick={() => get("list")}>Shopping list, CSV</button>
      <span role="status">{busy || far ? "Being made …" : ""}</span>
    </div>
  )
}
