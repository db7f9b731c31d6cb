import { canKeep, dropTrial, keep, redo, trial, undo, unkept } from "./store"

// keys are those that every program of this kind has; in a field that is typed in undo
// is the browser's own.
export function keys(): () => void {
  const down = (e: KeyboardEvent) => {
    const mod = e.ctrlKey || e.metaKey
    if (e.key === "Escape" && trial.value) {
      dropTrial()
      return
    }
    if (!mod || e.altKey) return
    const field = (e.target instanceof HTMLInputElement && e.target.type !== "range") || e.target instanceof HTMLTextAreaElement
    const key = e.key.toLowerCase()
    if (key === "s") {
      e.preventDefault()
      if (canKeep.value && unkept.value) void keep()
    } else if (key === "z" && !field) {
      e.preventDefault()
      if (e.shiftKey) redo()
      else undo()
    } else if (key === "y" && !field) {
      e.preventDefault()
      redo()
    }
  }
  window.addEventListener("keydown", down)
  return () => window.removeEventListener("keydown", down)
}
