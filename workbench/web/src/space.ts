// The enclosure in three dimensions. The program says where everything is; here
// it is only drawn, and only when something changed: a page that nobody moves
// costs nothing.
import {
  AmbientLight, Box3, DirectionalLight, Group, InstancedMesh, LineSegments, Mesh, PerspectiveCamera, Plane, Raycaster, Scene, Vector2, Vector3, WebGLRenderer,
  type BufferGeometry, type Material, type MeshLambertMaterial,
} from "three"
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js"
import { Drops } from "./drops"
import { dark, flowColour, looks, seeThrough } from "./materials"
import { paintOf, wipe } from "./paint"
import { at, ground, solid, type Drawn } from "./solids"
import type { LostPart } from "./plantypes"
import type { Painted } from "./climatetypes"
import type { Outcome, ScenePart, Scene as Placed } from "./types"

// The ways that it can be cut: by a plane across it, one from side to side, whose
// piece to the front goes, and a level one.
export type Cut = "across" | "front" | "level"

export interface Space {
  show: (o: Outcome, level: Map<string, number> | null) => void
  choose: (field: string, line: number) => void
  light: (parts: LostPart[]) => void // as well as what is chosen
  // section shows no more than a share of it, from the left, the back or the floor.
  section: (way: Cut, share: number) => void
  explode: (share: number) => void
  run: (on: boolean) => void
  // paint shows a figure on the faces it is known on, fog the front as fogged.
  paint: (p: Painted | null) => void
  fog: (on: boolean) => void
  look: (from: "front" | "left" | "top" | "corner") => void
  colours: () => void
  end: () => void
}

const key = (p: LostPart) => `${p.kind}|${p.field}|${p.name}`

export function space(canvas: HTMLCanvasElement, picked: (p: ScenePart | null) => void): Space {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true, preserveDrawingBuffer: true })
  renderer.setPixelRatio(Math.min(2, devicePixelRatio))
  renderer.localClippingEnabled = true
  const scene = new Scene()
  const camera = new PerspectiveCamera(35, 1, 0.02, 50)
  const controls = new OrbitControls(camera, canvas)
  controls.enableDamping = false
  const cut = new Plane(new Vector3(-1, 0, 0), 100)
  scene.add(new AmbientLight(0xffffff, 1.6))
  const sun = new DirectionalLight(0xffffff, 1.8)
  sun.position.set(1.5, 3, 2.5)
  scene.add(sun)
  let root = new Group()
  scene.add(root)
  let drawn: Drawn[] = []
  let outcome: Outcome | null = null
  let shape = ""
  let poured: Outcome["water"] | null = null
  let levels: Map<string, number> | null = null
  let whole = ""
  let apart = 0
  let chosenField = ""
  let chosenLine = 0
  const drops = new Drops()
  let coat = new Group() // what is painted
  let misted = false
  let shownUp = new Set<string>()
  const extent = new Box3() // of all that is drawn, not pulled apart
  let cutting: { way: Cut, share: number } = { way: "across", share: 1 }
  let frame = 0
  let running = false
  let clock = 0

  // Where drawing is slow (no graphics card), it waits until edits pause, so that
  // answers are never held up by the picture.
  let cost = 100
  let pause = 0
  const pixel = new Uint8Array(4)
  const settle = (then: () => void) => {
    window.clearTimeout(pause)
    pause = window.setTimeout(then, cost < 8 ? 0 : Math.min(400, 100 + 2 * cost))
  }

  const draw = () => {
    if (frame) return
    frame = requestAnimationFrame((now) => {
      frame = 0
      if (running) {
        const dt = clock ? Math.min(0.1, (now - clock) / 1000) : 0
        clock = now
        drops.move(dt)
      }
      const began = performance.now()
      renderer.render(scene, camera)
      if (!running) {
        // Only a pixel that is read back tells when the drawing is done.
        const gl = renderer.getContext()
        gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel)
        cost = performance.now() - began
      }
      canvas.dataset.drawn = String(Number(canvas.dataset.drawn ?? 0) + 1)
      if (running) draw()
    })
  }
  controls.addEventListener("change", draw)

  const size = () => {
    const w = canvas.clientWidth
    const h = canvas.clientHeight
    if (w === 0 || h === 0) return
    renderer.setSize(w, h, false)
    camera.aspect = w / h
    camera.updateProjectionMatrix()
    draw()
  }
  const watch = new ResizeObserver(size)
  watch.observe(canvas)

  // Clicking is not dragging.
  let down = new Vector2()
  const start = (e: PointerEvent) => { down = new Vector2(e.clientX, e.clientY) }
  const stop = (e: PointerEvent) => {
    if (down.distanceTo(new Vector2(e.clientX, e.clientY)) > 5) return
    const r = canvas.getBoundingClientRect()
    const ray = new Raycaster()
    ray.setFromCamera(new Vector2((e.clientX - r.left) / r.width * 2 - 1, -((e.clientY - r.top) / r.height * 2 - 1)), camera)
    const hits = ray.intersectObject(root, true).filter((x) => cut.distanceToPoint(x.point) >= 0)
    const parts = hits.flatMap((x) => {
      for (let o: typeof x.object | null = x.object; o; o = o.parent) if (o.userData.part) return [o.userData.part as ScenePart]
      return []
    })
    // Glass and water are looked through, where something stands behind them.
    picked(parts.find((p) => !seeThrough(p.kind)) ?? parts[0] ?? null)
  }
  canvas.addEventListener("pointerdown", start)
  canvas.addEventListener("pointerup", stop)

  function clear(): void {
    root.traverse((o) => {
      if (o instanceof InstancedMesh) o.dispose()
      if (o instanceof Mesh || o instanceof LineSegments) {
        (o.geometry as BufferGeometry).dispose()
        for (const m of ([] as Material[]).concat(o.material as Material | Material[])) m.dispose()
      }
    })
    scene.remove(root)
    root = new Group()
    scene.add(root)
    drawn = []
    drops.gone()
  }

  // The plane stands within what is drawn, so that all of a slider's way cuts.
  function slice(): void {
    const { way, share } = cutting
    const axis = ({ across: "x", front: "z", level: "y" } as const)[way]
    cut.normal.set(0, 0, 0)[axis] = -1
    cut.constant = share >= 1 || extent.isEmpty() ? 100 : extent.min[axis] + (extent.max[axis] - extent.min[axis]) * share
  }

  function build(p: Placed): void {
    clear()
    const middle = at(p.inside.min).add(at(p.inside.max)).multiplyScalar(0.5)
    for (const part of p.parts) {
      const d = solid(part, middle, cut)
      if (!d) continue
      drawn.push(d)
      root.add(d.object)
    }
    extent.setFromObject(root)
    slice()
    root.add(ground(p))
  }

  // Levels, flows and colours that change without the shape.
  function pour(o: Outcome, level: Map<string, number> | null): void {
    const w = o.water
    const p = o.scene
    if (!w || !p) return
    const z = (above: number) => above + p.floor
    const pool = level?.get("pool") ?? w.pool
    const others = level ? [...level].filter(([n]) => n === "sump" || w.chambers.includes(n)).map(([, v]) => v) : []
    const sump = others.length > 0 ? Math.max(...others) : w.sump
    let n = 0
    for (const d of drawn) {
      if (d.part.box && (d.part.kind === "pool" || d.part.kind === "hidden" || d.part.kind === "sump water")) {
        const low = d.part.box.min[2]
        const full = d.part.box.max[2] - low
        const high = Math.max(1e-4, z(d.part.kind === "sump water" ? sump : pool) - low)
        d.object.scale.y = high / Math.max(full, 1e-4)
        d.home.y = low + high / 2
      }
      if (d.part.kind === "outlet") {
        const all = w.manifolds.flatMap((m) => m.flow)
        const most = Math.max(...all)
        const least = Math.min(...all)
        const q = all[n++] ?? 0
        const mesh = d.object.children[0] as Mesh
        const share = most > least * 1.001 ? (q - least) / (most - least) : 0.5;
        (mesh.material as MeshLambertMaterial).color.copy(flowColour(share))
      }
    }
    place()
  }

  function place(): void {
    for (const d of drawn) d.object.position.copy(d.home).addScaledVector(d.out, apart)
    coat.visible = apart === 0
    drops.seen(apart === 0 && levels === null) // at a moment of a fault only levels are known
    mark()
    draw()
  }

  // mark shows up what is chosen or lit, through what stands before it, and fogs the
  // front: white, and hardly to be seen through.
  function mark(): void {
    for (const d of drawn) {
      const up = shownUp.has(key(d.part))
      const on = up || (chosenField !== "" && (d.part.field === chosenField || chosenField.startsWith(`${d.part.field}.`))) || (chosenLine > 0 && d.part.line === chosenLine)
      if (!d.part.box && d.part.points?.length === 1) d.object.scale.setScalar(up ? 1.8 : 1) // a bare point is small
      const fogged = misted && (d.part.at === "front" || d.part.at === "door")
      d.object.traverse((o) => {
        if (!(o instanceof Mesh) || o instanceof InstancedMesh) return
        const m = o.material as MeshLambertMaterial
        m.emissive.set(on ? (dark() ? 0x8a5a10 : 0xc06a00) : 0x000000)
        m.opacity = fogged ? 0.8 : up ? Math.max(0.45, d.opacity) : d.opacity
        // What is shown up comes last, so that no water or glass is drawn over it.
        m.depthTest = !up || seeThrough(d.part.kind)
        m.transparent = up || m.opacity < 1
        o.renderOrder = up ? 3 : d.opacity < 1 && d.part.kind !== "grid" ? 2 : 0
        if (d.part.kind !== "outlet") m.color.set(up ? 0xffa040 : fogged ? 0xdfe6e4 : looks(d.part.kind)?.colour ?? 0) // outlets have their flow's
      })
    }
  }

  // touched draws what stands there in its new colours; before that there is nothing
  // to draw.
  const touched = () => {
    if (!outcome) return
    mark()
    draw()
  }

  const view = (from: "front" | "left" | "top" | "corner") => {
    const p = outcome?.scene
    if (!p) return
    const a = at(p.outside.min)
    const b = at(p.outside.max)
    a.y = p.floor
    const middle = a.clone().add(b).multiplyScalar(0.5)
    const radius = b.clone().sub(a).length() / 2
    const tall = Math.min(1, camera.aspect)
    const far = radius / Math.sin(camera.fov / 2 * Math.PI / 180) / tall * 1.08
    const way = { front: [0, 0.08, 1], left: [-1, 0.08, 0.001], top: [0, 1, 0.001], corner: [0.62, 0.3, 1] }[from]
    camera.position.copy(middle).addScaledVector(new Vector3(...(way as [number, number, number])).normalize(), far)
    controls.target.copy(middle)
    controls.update()
    draw()
  }

  return {
    show(o, level) {
      const first = outcome === null
      outcome = o
      if (!o.scene) return
      const put = () => {
        if (!o.scene) return
        const all = JSON.stringify([o.scene, o.water, level && [...level]])
        if (all === whole) return // an outcome that moved nothing in the picture
        whole = all
        const now = JSON.stringify(o.scene)
        if (now !== shape) {
          shape = now
          build(o.scene)
          poured = null
        }
        if (o.water && o.water !== poured) drops.pour(o.water, drawn, root, cut)
        poured = o.water ?? null
        levels = level
        pour(o, level)
        if (first) {
          size()
          view("corner")
        }
      }
      window.clearTimeout(pause) // what waited there is older
      if (level || first) put() // moved through time: the picture is what is looked at
      else settle(put)
    },
    choose(field, line) {
      if (field === chosenField && line === chosenLine) return
      chosenField = field
      chosenLine = line
      mark()
      draw()
    },
    section(way, share) {
      cutting = { way, share }
      slice()
      draw()
    },
    explode(share) {
      apart = share * 0.8
      place()
    },
    run(on) {
      running = on
      clock = 0
      draw()
    },
    light(parts) {
      shownUp = new Set(parts.map(key))
      touched()
    },
    paint(p) {
      if (!p && coat.children.length === 0) return
      scene.remove(coat)
      wipe(coat)
      coat = p ? paintOf(p, cut) : new Group()
      coat.visible = apart === 0
      scene.add(coat)
      touched()
    },
    fog(on) {
      misted = on
      touched()
    },
    look: view,
    colours() {
      shape = whole = ""
      if (outcome) this.show(outcome, levels)
    },
    end() {
      running = false
      cancelAnimationFrame(frame)
      window.clearTimeout(pause)
      watch.disconnect()
      controls.dispose()
      canvas.removeEventListener("pointerdown", start)
      canvas.removeEventListener("pointerup", stop)
      clear()
      wipe(coat)
      renderer.dispose()
      renderer.forceContextLoss() // a browser keeps few of them, and frees them late
    },
  }
}
