// What may be written at a place of a design file, by its JSON Schema. A guess
// from indents and braces that serves completion; the program judges.
export interface Schema {
  $ref?: string
  $defs?: Record<string, Schema>
  properties?: Record<string, Schema>
  items?: Schema
  enum?: string[]
  description?: string
  type?: string
}

interface Frame { indent: number, key: string, item: boolean }

export function keysAt(root: Schema, before: string): { keys: { name: string, about: string }[], words: string[] } {
  const { path, value } = placeOf(before)
  let s: Schema | undefined = resolve(root, root)
  for (const key of path) {
    s = resolve(root, s?.properties?.[key])
    if (s?.items) s = resolve(root, s.items)
    if (!s) return { keys: [], words: [] }
  }
  if (value) {
    const v = resolve(root, s?.properties?.[value])
    return { keys: [], words: v?.enum ?? [] }
  }
  return { keys: Object.entries(s?.properties ?? {}).map(([name, p]) => ({ name, about: p.description ?? resolve(root, p)?.description ?? "" })), words: [] }
}

function resolve(root: Schema, s: Schema | undefined): Schema | undefined {
  let at = s
  for (let i = 0; at?.$ref && i < 10; i++) at = root.$defs?.[at.$ref.replace("#/$defs/", "")]
  return at
}

// placeOf tells the sections around the end of a text, and the key whose value is
// being written there, "" if it is a key itself.
export function placeOf(before: string): { path: string[], value: string } {
  const lines = before.split("\n")
  const last = lines.pop() ?? ""
  const stack: Frame[] = []
  for (const l of lines) push(stack, l)
  const depth = indentOf(last)
  while (stack.length > 0 && (stack.at(-1)?.indent ?? 0) >= depth) stack.pop()
  const path = stack.map((f) => f.key)
  return flow(path, last.trimStart().replace(/^(- )+/, ""))
}

const indentOf = (l: string) => /^[\s-]*/.exec(l)?.[0].length ?? 0

function push(stack: Frame[], l: string): void {
  const bare = l.replace(/\s#.*$/, "")
  if (/^\s*(#|$)/.test(bare)) return
  const at = indentOf(bare)
  while (stack.length > 0 && (stack.at(-1)?.indent ?? 0) >= at) stack.pop()
  const m = /^[\s-]*([\w-]+):\s*$/.exec(bare)
  if (m?.[1]) stack.push({ indent: at, key: m[1], item: bare.includes("- ") })
}

// flow goes on through braces and brackets on one line.
function flow(path: string[], s: string): { path: string[], value: string } {
  let key = ""
  let rest = s
  for (;;) {
    const m = /^\s*([\w-]+):\s*(.*)$/s.exec(rest)
    if (!m?.[1]) return { path, value: "" }
    key = m[1]
    const v = m[2] ?? ""
    const opened = /^[[{\s]*/.exec(v)?.[0] ?? ""
    if (opened.includes("{") || opened.includes("[")) {
      const inner = v.slice(opened.length)
      const cut = lastOpen(inner)
      path = [...path, key]
      if (cut === null) return { path: path.slice(0, -1), value: "" }
      rest = cut
      if (!rest.includes(":")) return { path, value: "" }
      continue
    }
    const comma = v.lastIndexOf(",")
    if (comma >= 0) {
      rest = v.slice(comma + 1)
      if (!rest.includes(":")) return { path, value: "" }
      continue
    }
    return { path, value: key }
  }
}

// lastOpen is what stands after the last entry that is still open, null if all
// are closed.
function lastOpen(s: string): string | null {
  let depth = 0
  let from = 0
  for (let i = 0; i < s.length; i++) {
    const c = s[i]
    if (c === "{" || c === "[") depth++
    else if (c === "}" || c === "]") {
      depth--
      if (depth < -1) return null
    } else if (c === "," && depth <= 0) from = i + 1
  }
  return s.slice(from)
}
