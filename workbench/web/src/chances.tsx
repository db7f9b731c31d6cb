import * as api from "./api"
import { job, Work } from "./jobs"
import { good, openAnswer, view } from "./store"
import { digits } from "./units"
import type { Result, WeighAnswer } from "./types"

const weighing = job<Result>((t, _, far, stop) => api.weigh(t, far, stop))

// Chances: how often each answer holds when all that is in doubt is drawn from its
// band, what makes the spread, and what to measure first.
export default function Chances() {
  if (!good.value?.report) return <p class="wait">Computing …</p>
  return (
    <div class="curves chances">
      <section class="card" aria-label="How sure it is">
        <h2>How sure is it?</h2>
        <p class="lead">Everything that is known only as a band is drawn ten thousand times, figures near the likely one more often, and the water is run with each draw. An answer that holds at the bad end of its band holds always.</p>
        <Work of={weighing} q={undefined} start="Weigh it" again="Weigh it again">{(r) => <Weighed r={r} />}</Work>
      </section>
    </div>
  )
}

function Weighed({ r }: { r: Result }) {
  const asked = (ids: string[]) => ids.map((id) => r.answers.find((a) => a.id === id)?.question ?? id)
  return (
    <>
      <h3>Measure first</h3>
      {r.first
        ? (
          <>
            <p><strong>{r.first.what}</strong>, by {r.first.settle}. It settles some {percent(r.first.share)} of what is open:</p>
            <ul class="plain">{asked(r.first.answers).map((q) => <li key={q}>{q}</li>)}</ul>
          </>
        )
        : <p>{r.open.length === 0 ? "Nothing: every answer comes out the same in all draws." : "No single thing: no measurement that is known alone settles a twentieth of what is open."}</p>}
      <h3>How often each answer holds</h3>
      <ul class="all">{r.answers.map((a) => <Often key={a.id} a={a} open={r.open.includes(a.id)} />)}</ul>
      <p class="quiet">{r.draws} draws, each thing drawn as if it had nothing to do with another. Bands are taken as likeliest in the middle: assumed, no source.</p>
    </>
  )
}

// Often is one answer: a bar of the draws in which it holds, is tight or fails, the
// same in words, and below the doubts that make its spread.
function Often({ a, open }: { a: WeighAnswer, open: boolean }) {
  const between = Math.max(0, 1 - a.holds.share - a.fails.share)
  const parts = [`holds in ${percent(a.holds.share)} of draws`, between > 0 ? `tight in ${percent(between)}` : "", a.fails.share > 0 ? `fails in ${percent(a.fails.share)}` : ""].filter(Boolean)
  return (
    <li>
      <details open={open}>
        <summary>{a.question} <b>{parts.join(", ")}</b></summary>
        <svg class="parts" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
          <rect class="holds" width={100 * a.holds.share} height="6" />
          <rect class="between" x={100 * a.holds.share} y="1.5" width={100 * between} height="3" />
          <rect class="fails" x={100 * (1 - a.fails.share)} y="2.6" width={100 * a.fails.share} height="0.8" />
        </svg>
        {a.low < a.high && (
          <>
            <p>{a.figure}: nine of ten draws from {digits(a.low)} to {digits(a.high)}, half of them below {digits(a.median)} {a.unit}</p>
            {(a.doubts?.length ?? 0) > 0 && <h4>What makes that spread</h4>}
            <ol class="ranked">
              {a.doubts?.slice(0, 8).map((d) => (
                <li key={d.what}>
                  <span class="bar" aria-hidden="true"><svg viewBox="0 0 100 1" preserveAspectRatio="none"><rect width={100 * Math.min(1, d.index.total)} height="1" /></svg></span>
                  <span>{percent(d.index.total)}: {d.what}{d.settle && <span class="quiet">. To settle it: {d.settle}</span>}</span>
                </li>
              ))}
            </ol>
          </>
        )}
        <button type="button" class="link" onClick={() => { openAnswer.value = a.id; view.value = "answers" }}>To the answer</button>
      </details>
    </li>
  )
}

// percent is a share for people, never 0 or 100 where it is not quite.
function percent(share: number): string {
  const p = 100 * share
  return p > 0 && p < 1 ? "< 1 %" : p > 99 && p < 100 ? "> 99 %" : `${Math.round(p)} %`
}
