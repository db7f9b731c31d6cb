import type { PlanStep } from "./plantypes"

// Told is all that is to be known of a step.
export function Told({ s }: { s: PlanStep }) {
  return (
    <div class="detail">
      <dl>{s.tells.map((t) => <div key={t.about}><dt>{t.about}</dt><dd>{t.say}</dd></div>)}</dl>
      {s.closes && <p class="caution"><b>Closes off:</b> {s.closes}{s.lost.length > 0 ? `: ${[...new Set(s.lost.map((x) => x.name.includes(x.kind) ? x.name : `${x.name} (${x.kind})`))].join(", ")}` : ""}.</p>}
    </div>
  )
}
