import { useEffect, useRef, useState } from "preact/hooks"
import { chosen, good, name, outcome } from "./store"
import { Form } from "./form"
import { mount } from "./editor"

// The design itself: as a form, in the trade's words, and as text. Both are the
// same file.
export default function FilePane() {
  const [asText, put] = useState(() => window.innerWidth > 900)
  return (
    <section class="file" aria-label="The design file">
      <div class="tabs" role="group" aria-label="Show the file as">
        <button type="button" aria-pressed={!asText} onClick={() => put(false)}>Form</button>
        <button type="button" aria-pressed={asText} onClick={() => put(true)}>Text</button>
      </div>
      {asText ? <Editor /> : <Form fields={[outcome.value?.form, good.value?.form].find((f) => f?.length) ?? []} />}
    </section>
  )
}

function Editor() {
  const at = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const e = at.current && mount(at.current)
    return () => e?.destroy()
  }, [name.value])
  useEffect(() => () => { chosen.value = "" }, [])
  return <div class="editor" ref={at} />
}
