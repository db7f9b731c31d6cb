import "./style.css"
import { render } from "preact"
import { App } from "./app"
import { start } from "./store"

const root = document.getElementById("page")
if (root) {
  root.replaceChildren()
  render(<App />, root)
  void start()
}
