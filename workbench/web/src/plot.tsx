import uPlot from "uplot"
import { useEffect, useRef } from "preact/hooks"
import { theme } from "./store"

// Plot keeps a chart as wide as its place and in the colours of the page. The
// words beside it say the same, so it is hidden from those who hear the page.
export function Plot({ options, data, height, ready }: {
  options: (ink: string, line: string, water: string) => Omit<uPlot.Options, "width" | "height">
  data: uPlot.AlignedData
  height: number
  ready?: (u: uPlot) => void
}) {
  const at = useRef<HTMLDivElement>(null)
  const plot = useRef<uPlot | null>(null)
  useEffect(() => {
    const box = at.current
    if (!box) return
    const style = getComputedStyle(document.documentElement)
    const colour = (n: string) => style.getPropertyValue(n).trim()
    const u = new uPlot({ ...options(colour("--ink"), colour("--line"), colour("--water")), width: box.clientWidth, height }, data, box)
    plot.current = u
    ready?.(u)
    const watch = new ResizeObserver(() => u.setSize({ width: box.clientWidth, height }))
    watch.observe(box)
    return () => {
      watch.disconnect()
      u.destroy()
      plot.current = null
    }
  }, [options, theme.value])
  useEffect(() => { plot.current?.setData(data) }, [data])
  return <div class="plot" ref={at} aria-hidden="true" />
}
