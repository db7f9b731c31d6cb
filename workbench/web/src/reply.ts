import { useEffect, useState } from "preact/hooks"
import { name, tell, text } from "./state"
import type { TextRequest } from "./types"

// useReply asks anew when the text, or what is asked for also, changes, once it rests, and gives what was said
// last of this design; null before.
export function useReply<T>(asks: (t: TextRequest, stop: AbortSignal) => Promise<T>, wait = 200, also = ""): T | null {
  const [said, put] = useState<{ design: string, got: T } | null>(null)
  const of = text.value
  const design = name.value
  useEffect(() => {
    const stop = new AbortController()
    const rest = window.setTimeout(() => {
      asks({ name: design, text: of }, stop.signal).then((got) => put({ design, got }), (e: unknown) => { if (!stop.signal.aborted) tell(e) })
    }, wait)
    return () => {
      stop.abort()
      window.clearTimeout(rest)
    }
  }, [of, design, also])
  return said?.design === design ? said.got : null
}
