import { lazy } from "./lazy"
import { Answers } from "./answers"
import { Notices } from "./notices"
import { TopBar } from "./topbar"
import { theme, view, type View } from "./store"
import { useEffect } from "preact/hooks"
import { keys } from "./keys"
import { watchFocus } from "./focus"

const Look = lazy(() => import("./look"))
const Curves = lazy(() => import("./curves"))
const WhatIf = lazy(() => import("./whatif"))
const Plan = lazy(() => import("./plan"))
const Climate = lazy(() => import("./climate"))
const Chances = lazy(() => import("./chances"))
const Choices = lazy(() => import("./choices"))
const FilePane = lazy(() => import("./filepane"))
const Cutting = lazy(() => import("./cutting"))
const Aisle = lazy(() => import("./aisle"))
const Bench = lazy(() => import("./benchmode"))

// What there is to see, in the order of the work: answers stand beside each of
// them where there is room.
const views: { id: View, name: string, hint: string }[] = [
  { id: "answers", name: "Answers", hint: "every question with its number" },
  { id: "look", name: "Look", hint: "the enclosure to scale, with its water" },
  { id: "curves", name: "Curves", hint: "pump against circuit, flow of each outlet" },
  { id: "whatif", name: "What if", hint: "pull the plug, block a drain" },
  { id: "climate", name: "Climate", hint: "a day of heat and moisture, the light on the wall" },
  { id: "chances", name: "Chances", hint: "how often each answer holds, what to measure first" },
  { id: "choices", name: "Choices", hint: "leave something open and have the best looked for" },
  { id: "file", name: "File", hint: "the design itself, as a form or as text" },
  { id: "plan", name: "Plan", hint: "the order of work, what each step closes off" },
  { id: "cutting", name: "Cut and buy", hint: "finished sizes, cut layouts, what to buy, papers" },
  { id: "aisle", name: "Aisle", hint: "compare boxes on the shelf" },
  { id: "bench", name: "Bench", hint: "the next things to do, in large type" },
]

export function App() {
  useEffect(() => keys(), [])
  useEffect(() => watchFocus(), [])
  const now = view.value
  const dark = theme.value
  useEffect(() => {
    if (dark) document.documentElement.dataset.theme = dark
    else delete document.documentElement.dataset.theme
  }, [dark])
  useEffect(() => {
    window.scrollTo(0, 0)
    document.getElementById("main")?.scrollTo(0, 0)
  }, [now])
  return (
    <div class={`app at-${now}`}>
      <a class="skip" href="#main">To the content</a>
      <TopBar />
      <nav class="views" aria-label="Views">
        {views.map((v) => (
          <button key={v.id} type="button" title={v.hint} aria-current={v.id === now ? "page" : undefined} onClick={() => { view.value = v.id }}>{v.name}</button>
        ))}
      </nav>
      <Notices />
      <main id="main" tabIndex={-1}>
        {now === "look" && <Look />}
        {now === "curves" && <Curves />}
        {now === "whatif" && <WhatIf />}
        {now === "climate" && <Climate />}
        {now === "chances" && <Chances />}
        {now === "choices" && <Choices />}
        {now === "file" && <FilePane />}
        {now === "plan" && <Plan />}
        {now === "cutting" && <Cutting />}
        {now === "aisle" && <Aisle />}
        {now === "bench" && <Bench />}
        {now === "answers" && <Look brief />}
      </main>
      {now !== "aisle" && now !== "cutting" && now !== "bench" && <aside class="side" aria-label="Answers"><Answers /></aside>}
    </div>
  )
}
