// The parts of the enclosure as bodies to draw.
import {
  BoxGeometry, BufferGeometry, CatmullRomCurve3, CurvePath, CylinderGeometry, DoubleSide, EdgesGeometry, Group, LineBasicMaterial, LineCurve3, LineSegments,
  Matrix4, Mesh, MeshLambertMaterial, SphereGeometry, TubeGeometry, Vector3, type Plane,
} from "three"
import { dark, looks } from "./materials"
import type { ScenePart, Scene as Placed } from "./types"

export type Point = [number, number, number]

// The datum is the inside back left bottom corner, x right, y to the front, z up;
// the drawing wants y up and z to the front.
export const at = (p: Point) => new Vector3(p[0], p[2], p[1])

export interface Drawn { part: ScenePart, object: Group | Mesh, home: Vector3, out: Vector3, opacity: number, line: LineSegments | null }

// ground is the floor that it stands on, as lines.
export function ground(p: Placed): LineSegments {
  const y = p.floor
  const a = at(p.outside.min)
  const b = at(p.outside.max)
  const pts: Vector3[] = []
  for (let i = -4; i <= 4; i++) {
    pts.push(new Vector3(-1 + a.x, y, (a.z + b.z) / 2 + i * 0.2), new Vector3(1 + b.x, y, (a.z + b.z) / 2 + i * 0.2))
  }
  return new LineSegments(new BufferGeometry().setFromPoints(pts), new LineBasicMaterial({ color: dark() ? 0x3a443f : 0xcfd2c8 }))
}

// solid draws one part, cut by a plane; null if it is nothing to see. Middle is that of
// the whole, from which it is pulled apart.
export function solid(part: ScenePart, middle: Vector3, cut: Plane): Drawn | null {
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
    if (part.kind === "grid") lattice(group, s, material, look.edge, cut)
    else add(new BoxGeometry(Math.max(s.x, 1e-4), Math.max(s.y, 1e-4), Math.max(s.z, 1e-4)), true)
    group.position.copy(a.add(b).multiplyScalar(0.5))
  } else if (part.corners) {
    const pts = part.corners.map(at)
    const centre = pts.reduce((x, y) => x.clone().add(y), new Vector3()).multiplyScalar(1 / pts.length)
    add(prism(pts.map((x) => x.sub(centre))), true)
    group.position.copy(centre)
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
  return { part, object: group, home: group.position.clone(), out, opacity: material.opacity, line }
}

// prism is a body between two ends that are alike, by the corners of both.
function prism(corners: Vector3[]): BufferGeometry {
  const n = corners.length / 2
  const index: number[] = []
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n
    index.push(i, k, n + i, k, n + k, n + i)
    if (i > 1) index.push(0, i - 1, i, n, n + i, n + i - 1)
  }
  // Each face has corners of its own, so that light falls on it as on a flat one.
  const g = new BufferGeometry().setFromPoints(index.flatMap((i) => corners[i] ?? []))
  g.computeVertexNormals()
  return g
}

// A grid sheet is drawn as its ribs: a line a cell.
function lattice(group: Group, s: Vector3, material: MeshLambertMaterial, edge: number, cut: Plane): void {
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

// smooth is the path along some points.
export function smooth(points: Vector3[]): CurvePath<Vector3> | CatmullRomCurve3 {
  const path = new CurvePath<Vector3>()
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]
    const b = points[i]
    if (a && b && a.distanceTo(b) > 1e-6) path.add(new LineCurve3(a, b))
  }
  return path
}
