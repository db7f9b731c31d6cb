// The state of the page, in one place. The text of the design is the one truth:
// forms, fixes and the text editor all change it through change(), so that undo
// goes through all of them in order. Views read signals and hold no state of the
// design of their own.
export * from "./state"
export { ask, withCurves } from "./ask"
export { change, dropTrial, keepTrial, redo, setValues, tryOut, undo } from "./edit"
export { keep, leaveDraft, open, settle, start, takeDraft } from "./files"

import { change } from "./edit"
import { good } from "./state"

// For measuring: changes the text and tells, in ms, how long it takes until the
// answers to it are painted.
declare global {
  interface Window { rillwrightEdit?: (to: string) => Promise<number> }
}

window.rillwrightEdit = (to) => new Promise((done) => {
  const began = performance.now()
  const of = good.value
  change(to)
  const stop = good.subscribe((o) => {
    if (o === of) return
    requestAnimationFrame(() => setTimeout(() => {
      stop()
      done(performance.now() - began)
    }))
  })
})
