// The keyboard stands on something, always: when a button goes away under it, as those
// of a strip do that is answered, it goes to the next button there, else to the answer
// that is open, else to the content.

const buttons = "button:not(:disabled):not([aria-disabled=true]), input:not(:disabled), select:not(:disabled)"
const gone = (e: HTMLElement) => !e.isConnected || (e as HTMLButtonElement).disabled

function seen(inside: Element): HTMLElement | undefined {
  return [...inside.querySelectorAll<HTMLElement>(buttons)].find((e) => e.offsetParent !== null)
}

// next is where it goes from something that stood in these, the nearest first.
function next(stood: Element[]): void {
  for (const e of stood) {
    const to = e.isConnected ? seen(e) : undefined
    if (to) return to.focus()
  }
  const answer = document.querySelector<HTMLElement>(".answer.open h3 button")
  if (answer && answer.offsetParent !== null) answer.focus()
  else document.getElementById("main")?.focus({ preventScroll: true })
}

export function watchFocus(): () => void {
  let last: HTMLElement | null = null
  let stood: Element[] = []
  const on = (e: FocusEvent) => {
    last = e.target as HTMLElement
    stood = []
    // No farther than the strip, group or list: the page at large has no next button.
    for (let p = last.parentElement; p && !p.matches("#main, .app, .side, .answers"); p = p.parentElement) stood.push(p)
  }
  // Who leaves for the bare page on purpose is left there.
  const off = () => setTimeout(() => {
    if (document.activeElement === document.body && last && !gone(last)) last = null
  })
  const look = () => {
    const now = document.activeElement
    const lost = !now || now === document.body || now === last
    if (!last || !lost || !gone(last)) return
    last = null
    next(stood)
  }
  const changes = new MutationObserver(look)
  document.addEventListener("focusin", on)
  document.addEventListener("focusout", off)
  changes.observe(document.body, { childList: true, subtree: true, attributeFilter: ["disabled"] })
  return () => {
    changes.disconnect()
    document.removeEventListener("focusin", on)
    document.removeEventListener("focusout", off)
  }
}
