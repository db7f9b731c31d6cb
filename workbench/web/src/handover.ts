import { name } from "./state"

// handOver gives a file to the browser to keep, named after the design.
export function handOver(data: Blob, what: string): void {
  const link = document.createElement("a")
  link.href = URL.createObjectURL(data)
  link.download = `${name.value.replace(/\.ya?ml$/, "")}-${what}`
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 1000)
}
