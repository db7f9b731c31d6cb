import { useState } from "preact/hooks"
import { Facts } from "./fact"
import { setValues } from "./store"
import type { PlanStep } from "./plantypes"

// Told is all that is to be known of a step.
export function Told({ s }: { s: PlanStep }) {
  const [sent, send] = useState<PlanStep | null>(null) // places in the list hold for one text
  return (
    <div class="detail">
      <dl>{s.tells.map((t) => <div key={t.about}><dt>{t.about}</dt><dd>{t.say}</dd></div>)}</dl>
      {s.closes && !s.done && <p class="caution"><b>Closes off:</b> {s.closes}{s.lost.length > 0 ? `: ${[...new Set(s.lost.map((x) => x.name.includes(x.kind) ? x.name : `${x.name} (${x.kind})`))].join(", ")}` : ""}.</p>}
      {s.mark.length > 0 && (
        <>
          {s.before.length > 0 && <p class="quiet">Marks as done, with it, what comes before it: {s.before.join("; ")}.</p>}
          <button type="button" class={s.done ? "" : "main"} onClick={() => { if (sent !== s) { send(s); void setValues(s.mark) } }}>{s.done ? "It is not done after all" : s.before.length > 0 ? "Done, and all before it" : "It is done"}</button>
        </>
      )}
      <Facts about={`${s.id} ${s.say}`} />
    </div>
  )
}
