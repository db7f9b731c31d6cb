import { useEffect, useState } from "preact/hooks"
import * as api from "./api"
import { useReply } from "./reply"
import { good, list } from "./store"
import { Told } from "./told"
import type { PlanStep } from "./plantypes"
import type { FormField } from "./types"

// Bench: what comes next in the order of work, then what the design asks to be done
// and tried, one thing at a time in large type, for gloves and a wet thumb. The screen
// stays awake while it is shown, where the browser can do that.
interface Card { title: string, lines: string[], step?: PlanStep }

export default function BenchMode() {
  const [at, put] = useState(0)
  const [awake, wake] = useState(false)
  useEffect(() => {
    let lock: WakeLockSentinel | null = null
    let on = true
    const take = () => {
      if (!("wakeLock" in navigator) || document.visibilityState !== "visible") return
      navigator.wakeLock.request("screen").then((l) => {
        if (!on) void l.release()
        lock = l
        wake(true)
        l.addEventListener("release", () => wake(false))
      }, () => wake(false))
    }
    take()
    document.addEventListener("visibilitychange", take)
    return () => {
      on = false
      document.removeEventListener("visibilitychange", take)
      void lock?.release()
    }
  }, [])
  const plan = useReply(api.plan)
  const next = (plan?.next ?? []).flatMap((id): Card[] => {
    const step = plan?.steps.find((s) => s.id === id)
    return step ? [{ title: step.say, lines: [step.under ? "Under way." : `Planned for ${step.when}.`], step }] : []
  })
  const cards = [...next, ...cardsOf(good.value?.form ?? [])]
  const k = Math.min(at, cards.length - 1)
  const card = cards[k]
  if (!card) return <p class="wait">Computing …</p>
  return (
    <div class="benchmode">
      <p class="quiet" role="status">{k + 1} of {cards.length}{awake ? ". The screen stays awake." : ". This browser does not keep the screen awake here: set its time-out by hand."}</p>
      <section aria-live="polite">
        <h2>{card.title}</h2>
        {card.lines.map((l, i) => <p key={i}>{l}</p>)}
        {card.step && <Told s={card.step} />}
      </section>
      <div class="turn">
        <button type="button" disabled={k === 0} onClick={() => put(k - 1)}>Back</button>
        <button type="button" class="main" disabled={k >= cards.length - 1} onClick={() => put(k + 1)}>Next</button>
      </div>
    </div>
  )
}

// cardsOf says what to do at the bench, as far as the design tells: first what is
// open, then what cannot be undone, then the marks and tests.
function cardsOf(form: FormField[]): Card[] {
  const out: Card[] = []
  for (const a of list.value.filter((x) => x.verdict === "not known yet")) out.push({ title: `First find out: ${a.question}`, lines: [a.say] })
  for (const a of list.value.filter((x) => x.verdict === "fails")) out.push({ title: `Not yet: ${a.question}`, lines: [a.say, ...(a.fixes?.[0] ? [`What would help: ${a.fixes[0].do}.`] : [])] })
  const value = (path: string) => form.find((f) => f.path === path)?.text ?? ""
  for (const f of form.filter((x) => x.path.endsWith(".hole.size"))) {
    const hole = f.path.slice(0, -".size".length)
    out.push({
      title: `Hole ${f.text}`,
      lines: [
        `Pane ${value(`${hole}.pane`)}.`, `Centre ${value(`${hole}.up`)} up from the lower edge, ${value(`${hole}.in`)} in from the ${value(`${hole}.edge`) || "nearer"} edge.`,
        "Try the fitting in a hole through card first. Gloves, eye cover, wet drilling, no mains drill over standing water. Never in toughened glass.",
      ],
    })
  }
  const level = value("sump.water.level")
  if (level) out.push({ title: `Mark the sump at ${level}`, lines: [`From its inside bottom, with the water ${value("sump.water.when")}.`] })
  const lift = list.value.find((a) => a.id === "lift")
  if (lift) out.push({ title: "Flow into a bucket", lines: [`All outlets together should give ${lift.figures[0]?.text ?? ""}.`, "Three timings; litres an hour are 3600 times litres over seconds."] })
  const cut = list.value.find((a) => a.id === "power-cut")
  if (cut) out.push({ title: "Pull the plug", lines: [cut.say, "Fifteen minutes, standing beside it."] })
  for (const a of list.value.filter((x) => x.id.startsWith("blocked["))) out.push({ title: "A bag over the strainer, and stand at the plug", lines: [a.say] })
  return out
}
