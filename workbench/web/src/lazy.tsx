import type { ComponentType } from "preact"
import { useEffect, useState } from "preact/hooks"

// lazy loads a view when it is first shown, so that the first one comes quickly.
export function lazy<P extends object>(load: () => Promise<{ default: ComponentType<P> }>): ComponentType<P> {
  let loaded: ComponentType<P> | null = null
  return function Lazy(props: P) {
    const [View, put] = useState<ComponentType<P> | null>(() => loaded)
    const [failed, fail] = useState("")
    useEffect(() => {
      if (loaded) return
      load().then((m) => {
        loaded = m.default
        put(() => m.default)
      }, () => fail("This part of the page could not be loaded. Load the page again."))
    }, [])
    if (failed) return <p class="wait" role="alert">{failed}</p>
    return View ? <View {...props} /> : <p class="wait">Opening …</p>
  }
}
