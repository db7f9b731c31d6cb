// The text of the design in an editor that knows its keys and shows what is wrong
// where it is wrong. Undo is the page's own, so that it goes through forms too.
import { autocompletion, closeBrackets, completionKeymap, type Completion, type CompletionContext, type CompletionResult } from "@codemirror/autocomplete"
import { defaultKeymap, indentWithTab } from "@codemirror/commands"
import { yaml } from "@codemirror/lang-yaml"
import { HighlightStyle, bracketMatching, indentOnInput, indentUnit, syntaxHighlighting } from "@codemirror/language"
import { lintGutter, lintKeymap, setDiagnostics, type Diagnostic } from "@codemirror/lint"
import { highlightSelectionMatches, search, searchKeymap } from "@codemirror/search"
import { EditorState } from "@codemirror/state"
import { EditorView, drawSelection, highlightActiveLine, highlightActiveLineGutter, keymap, lineNumbers } from "@codemirror/view"
import { effect } from "@preact/signals"
import { tags } from "@lezer/highlight"
import { parts, schema } from "./api"
import { keysAt, type Schema } from "./schema"
import { change, chosen, outcome, text } from "./store"

const colours = HighlightStyle.define([
  { tag: tags.comment, class: "tok-comment" },
  { tag: [tags.definition(tags.propertyName), tags.propertyName], class: "tok-key" },
  { tag: [tags.string, tags.content, tags.attributeValue], class: "tok-value" },
])

const nonce = () => document.querySelector<HTMLMetaElement>("meta[name=style-nonce]")?.content ?? ""

export function mount(at: HTMLElement): { destroy: () => void } {
  let known: Schema | null = null
  schema().then((s) => { known = s as Schema }, () => { /* no completion then */ })
  let own = false // a change made here need not come back
  // The editor counts lines and knows no ends of them; the file keeps those it has.
  const end = text.peek().includes("\r\n") ? "\r\n" : "\n"
  const plain = (s: string) => s.replaceAll("\r\n", "\n")
  const view = new EditorView({
    parent: at,
    state: EditorState.create({
      doc: plain(text.peek()),
      extensions: [
        EditorView.cspNonce.of(nonce()),
        lineNumbers(), highlightActiveLineGutter(), highlightActiveLine(), drawSelection(), indentOnInput(), bracketMatching(), closeBrackets(),
        indentUnit.of("  "), EditorView.lineWrapping, yaml(), syntaxHighlighting(colours), lintGutter(), search({ top: true }), highlightSelectionMatches(),
        autocompletion({ override: [(c) => complete(c, known)] }),
        keymap.of([...defaultKeymap, ...searchKeymap, ...completionKeymap, ...lintKeymap, indentWithTab]),
        EditorView.contentAttributes.of({ "aria-label": "Text of the design. Tab indents; Escape, then Tab, leaves the editor.", tabindex: "0" }),
        EditorView.updateListener.of((u) => {
          if (!u.docChanged || own) return
          change(u.state.doc.toString().replaceAll("\n", end), true)
        }),
      ],
    }),
  })
  const stop = [
    effect(() => {
      const to = plain(text.value)
      const have = view.state.doc.toString()
      if (to === have) return
      own = true
      view.dispatch({ changes: difference(have, to) })
      own = false
    }),
    effect(() => {
      const o = outcome.value
      if (!o) return
      view.dispatch(setDiagnostics(view.state, o.findings.flatMap((f) => toDiagnostic(view.state, f.place.line, f.place.column, f.place.width, f.severity, f.what, f.do))))
    }),
    effect(() => {
      const at = chosen.value.startsWith("line:") ? Number(chosen.value.slice(5)) : lineOf(chosen.value)
      if (!(at > 0) || at > view.state.doc.lines) return
      const line = view.state.doc.line(at)
      view.dispatch({ selection: { anchor: line.from }, effects: EditorView.scrollIntoView(line.from, { y: "center" }) })
    }),
  ]
  // A strip that appears above takes room: what is written stays in sight.
  const watch = new ResizeObserver(() => {
    if (view.hasFocus) view.dispatch({ effects: EditorView.scrollIntoView(view.state.selection.main.head, { yMargin: 24 }) })
  })
  watch.observe(at)
  return {
    destroy: () => {
      watch.disconnect()
      for (const s of stop) s()
      view.destroy()
    },
  }
}

// The line on which the file gives a path, or what stands under it.
function lineOf(path: string): number {
  if (!path) return 0
  const form = outcome.peek()?.form ?? []
  return (form.find((f) => f.path === path) ?? form.find((f) => f.path.startsWith(path)))?.line ?? 0
}

// difference is the one stretch in which two texts differ.
function difference(a: string, b: string): { from: number, to: number, insert: string } {
  let from = 0
  const short = Math.min(a.length, b.length)
  while (from < short && a[from] === b[from]) from++
  let end = 0
  while (end < short - from && a[a.length - 1 - end] === b[b.length - 1 - end]) end++
  return { from, to: a.length - end, insert: b.slice(from, b.length - end) }
}

function toDiagnostic(s: EditorState, lineNo: number, column: number, width: number, severity: string, what: string, todo: string): Diagnostic[] {
  if (lineNo < 1 || lineNo > s.doc.lines) return []
  const line = s.doc.line(lineNo)
  const from = Math.min(line.to, line.from + Math.max(0, column - 1))
  return [{
    from, to: Math.min(line.to, from + Math.max(1, width)), message: `${what}. ${todo}`,
    severity: severity === "error" ? "error" : severity === "warning" ? "warning" : "info",
  }]
}

async function complete(c: CompletionContext, known: Schema | null): Promise<CompletionResult | null> {
  const line = c.state.doc.lineAt(c.pos)
  const before = line.text.slice(0, c.pos - line.from)
  const part = /\bpart:\s*([^,}#]*)$/.exec(before)
  if (part && (part[1]?.trim() || c.explicit)) {
    const found = await parts(part[1] ?? "").catch(() => null)
    return found && { from: c.pos - (part[1]?.length ?? 0), options: found.parts.map((p): Completion => ({ label: p.name, detail: p.kind, info: p.mark })), filter: false }
  }
  const key = /(?:^|[\s{,-])([\w-]*)$/.exec(before)
  if (!known || !key || (!key[1] && !c.explicit)) return null
  const { keys, words } = keysAt(known, c.state.doc.toString().slice(0, c.pos))
  const list: Completion[] = words.length > 0 ? words.map((w) => ({ label: w })) : keys.map((k) => ({ label: k.name, apply: `${k.name}: `, info: k.about }))
  return list.length > 0 ? { from: c.pos - (key[1]?.length ?? 0), options: list } : null
}
