// The enclosure in three dimensions. The program says where everything is; here
// it is only drawn, and only when something changed: a page that nobody moves
// costs nothing.
import {
  AmbientLight, BoxGeometry, BufferGeometry, CatmullRomCurve3, CylinderGeometry, DirectionalLight, DoubleSide, EdgesGeometry, Group,
  InstancedMesh, LineBasicMaterial, LineSegments, Matrix4, Mesh, MeshLambertMaterial, PerspectiveCamera, Plane, Raycaster, Scene, SphereGeometry,
  TubeGeometry, Vector2, Vector3, WebGLRenderer, CurvePath, LineCurve3, type Material,
} from "three"
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js"
import { dark, flowColour, looks, seeThrough } from "./materials"
import type { Outcome, ScenePart, Scene as Placed } from "./types"

type Point = [number, number, number]

export interface Space {
  show: (o: Outcome, level: Map<string, number> | null) => void
  choose: (field: string, line: number) => void
  section: (share: number) => void
  explode: (share: number) => void
  run: (on: boolean) => void
  look: (from: "front" | "left" | "top" | "corner") => void
  colours: () => void
  end: () => void
}

// The datum is the inside back left bottom corner, x right, y to the front, z up;
// the drawing wants y up and z to the front.
const at = (p: Point) => new Vector3(p[0], p[2], p[1])

interface Drawn { part: ScenePart, object: Group | Mesh, home: Vector3, out: Vector3, line: LineSegments | null }

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
  let drops: { mesh: InstancedMesh, path: CurvePath<Vector3>, length: number, speed: number, count: number }[] = []
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
        move(dt)
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

  function move(dt: number): void {
    const m = new Matrix4()
    for (const d of drops) {
      d.mesh.userData.s = ((d.mesh.userData.s as number) + d.speed * dt) % (d.length / d.count)
      for (let i = 0; i < d.count; i++) {
        const p = d.path.getPoint(Math.min(1, ((d.mesh.userData.s as number) + i * d.length / d.count) / d.length))
        d.mesh.setMatrixAt(i, m.makeTranslation(p.x, p.y, p.z))
      }
      d.mesh.instanceMatrix.needsUpdate = true
    }
  }

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
    drops = []
  }

  function build(p: Placed): void {
    clear()
    const middle = at(p.inside.min).add(at(p.inside.max)).multiplyScalar(0.5)
    for (const part of p.parts) {
      const d = one(part, middle)
      if (!d) continue
      drawn.push(d)
      root.add(d.object)
    }
    ground(p)
  }

  function ground(p: Placed): void {
    const y = p.floor
    const a = at(p.outside.min)
    const b = at(p.outside.max)
    const pts: Vector3[] = []
    for (let i = -4; i <= 4; i++) {
      pts.push(new Vector3(-1 + a.x, y, (a.z + b.z) / 2 + i * 0.2), new Vector3(1 + b.x, y, (a.z + b.z) / 2 + i * 0.2))
    }
    root.add(new LineSegments(new BufferGeometry().setFromPoints(pts), new LineBasicMaterial({ color: dark() ? 0x3a443f : 0xcfd2c8 })))
  }

  function one(part: ScenePart, middle: Vector3): Drawn | null {
    const group = new Group()
    group.userData.part = part
    const look = looks(part.kind)
    if (look === null) return null
    const material = new MeshLambertMaterial({ color: look.colour, transparent: look.opacity < 1, opacity: look.opacity, side: DoubleSide, depthWrite: look.opacity === 1, clippingPlanes: [cut] })
    let line: LineSegments | null = null
    const add = (g: BufferGeometry, edges: boolean) => {
      const m = new Mesh(g, material)
      m.renderOrder = look.opacity < 1 ? 2 : 0
      group.add(m)
      if (!edges) return
      line = new LineSegments(new EdgesGeometry(g, 30), new LineBasicMaterial({ color: look.edge, clippingPlanes: [cut] }))
      m.add(line)
    }
    if (part.box) {
      const a = at(part.box.min)
      const b = at(part.box.max)
      const s = b.clone().sub(a)
      if (part.kind === "grid") lattice(group, s, material, look.edge)
      else add(new BoxGeometry(Math.max(s.x, 1e-4), Math.max(s.y, 1e-4), Math.max(s.z, 1e-4)), true)
      group.position.copy(a.add(b).multiplyScalar(0.5))
    } else if (part.points && part.points.length > 1) {
      const pts = part.points.map(at)
      const centre = pts.reduce((x, y) => x.add(y), new Vector3()).multiplyScalar(1 / pts.length)
      const from = pts.map((x) => x.clone().sub(centre))
      const r = part.radius || 0.004
      if (pts.length === 2 && part.kind !== "run") {
        const way = (from[1] ?? new Vector3()).clone().sub(from[0] ?? new Vector3())
        const g = new CylinderGeometry(r, r, Math.max(way.length(), 1e-4), 24)
        g.applyMatrix4(new Matrix4().makeRotationFromQuaternion(new Mesh().quaternion.clone().setFromUnitVectors(new Vector3(0, 1, 0), way.normalize())))
        add(g, false)
      } else {
        add(new TubeGeometry(smooth(from), Math.min(400, pts.length * 16), r, 12), false)
      }
      group.position.copy(centre)
    } else if (part.points?.[0]) {
      const r = part.kind === "outlet" ? 0.007 : 0.03
      add(new SphereGeometry(r, 14, 10), false)
      group.position.copy(at(part.points[0]))
    } else return null
    const out = group.position.clone().sub(middle)
    return { part, object: group, home: group.position.clone(), out, line }
  }

  // A grid sheet is drawn as its ribs: a line a cell.
  function lattice(group: Group, s: Vector3, material: MeshLambertMaterial, edge: number): void {
    const g = new BoxGeometry(s.x, s.y, s.z)
    material.opacity = 0.12
    material.transparent = true
    material.depthWrite = false
    group.add(new Mesh(g, material))
    const pts: Vector3[] = []
    const flat = s.y < s.z
    const pitch = 0.015
    const [w, h] = flat ? [s.x, s.z] : [s.x > 0.02 ? s.x : s.z, s.y]
    const put = (u: number, v: number) => flat ? new Vector3(u, 0, v) : s.x > 0.02 ? new Vector3(u, v, s.z / 2) : new Vector3(0, v, u)
    for (let u = -w / 2; u <= w / 2 + 1e-6; u += Math.max(pitch, w / 80)) pts.push(put(u, -h / 2), put(u, h / 2))
    for (let v = -h / 2; v <= h / 2 + 1e-6; v += Math.max(pitch, h / 80)) pts.push(put(-w / 2, v), put(w / 2, v))
    group.add(new LineSegments(new BufferGeometry().setFromPoints(pts), new LineBasicMaterial({ color: edge, clippingPlanes: [cut] })))
  }

  function smooth(points: Vector3[]): CurvePath<Vector3> | CatmullRomCurve3 {
    const path = new CurvePath<Vector3>()
    for (let i = 1; i < points.length; i++) {
      const a = points[i - 1]
      const b = points[i]
      if (a && b && a.distanceTo(b) > 1e-6) path.add(new LineCurve3(a, b))
    }
    return path
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

  // Drops go at the speed of the water, and anew only when that changed.
  function stream(w: NonNullable<Outcome["water"]>): void {
    for (const d of drops) {
      root.remove(d.mesh)
      d.mesh.geometry.dispose();
      (d.mesh.material as Material).dispose()
      d.mesh.dispose()
    }
    drops = []
    for (const r of w.runs) {
      const d = drawn.find((x) => x.part.kind === "run" && x.part.name === r.name)
      if (!d?.part.points || !(r.speed > 0)) continue
      const path = smooth(d.part.points.map(at)) as CurvePath<Vector3>
      const length = path.getLength()
      const count = Math.max(2, Math.min(120, Math.round(length / 0.06)))
      const mesh = new InstancedMesh(new SphereGeometry(Math.max(0.006, d.part.radius ?? 0.006) * 1.25, 8, 6), new MeshLambertMaterial({ color: dark() ? 0x9fe6f2 : 0x0b6676, clippingPlanes: [cut] }), count)
      mesh.userData.s = 0
      root.add(mesh)
      drops.push({ mesh, path, length, speed: r.speed, count })
    }
    move(0)
  }

  function place(): void {
    for (const d of drawn) d.object.position.copy(d.home).addScaledVector(d.out, apart)
    for (const d of drops) d.mesh.visible = apart === 0 && levels === null // at a moment of a fault only levels are known
    mark()
    draw()
  }

  function mark(): void {
    for (const d of drawn) {
      const on = (chosenField !== "" && (d.part.field === chosenField || chosenField.startsWith(`${d.part.field}.`))) || (chosenLine > 0 && d.part.line === chosenLine)
      d.object.traverse((o) => {
        if (o instanceof Mesh && !(o instanceof InstancedMesh)) (o.material as MeshLambertMaterial).emissive.set(on ? (dark() ? 0x8a5a10 : 0xc06a00) : 0x000000)
      })
    }
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
        if (o.water && o.water !== poured) stream(o.water)
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
    section(share) {
      const p = outcome?.scene
      if (!p) return
      const a = p.outside.min[0] - 0.5
      const b = p.outside.max[0] + 0.5
      cut.constant = share >= 1 ? 100 : a + (b - a) * share
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
      renderer.dispose()
      renderer.forceContextLoss() // a browser keeps few of them, and frees them late
    },
  }
}
