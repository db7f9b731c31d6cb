// A figure painted on the faces it is known on, in steps.
import { BufferAttribute, BufferGeometry, DataTexture, DoubleSide, Group, Mesh, MeshBasicMaterial, SRGBColorSpace, type Plane } from "three"
import { at } from "./solids"
import { stepShade } from "./shades"
import type { Painted } from "./climatetypes"

export function paintOf(p: Painted, cut: Plane): Group {
  const group = new Group()
  for (const f of p.faces) {
    const bytes = new Uint8Array(4 * f.step.length)
    f.step.forEach((k, i) => bytes.set([...stepShade(k, p.steps.length), 255], 4 * i))
    const map = new DataTexture(bytes, f.across, f.up)
    map.colorSpace = SRGBColorSpace
    map.needsUpdate = true
    const a = at(f.corner)
    const u = at(f.u)
    const v = at(f.v)
    const corners = [a, a.clone().add(u), a.clone().add(v), a.clone().add(u).add(v)]
    const g = new BufferGeometry()
    g.setAttribute("position", new BufferAttribute(new Float32Array(corners.flatMap((c) => c.toArray())), 3))
    g.setAttribute("uv", new BufferAttribute(new Float32Array([0, 0, 1, 0, 0, 1, 1, 1]), 2))
    g.setIndex([0, 1, 2, 2, 1, 3])
    const m = new Mesh(g, new MeshBasicMaterial({ map, side: DoubleSide, transparent: true, opacity: 0.9, clippingPlanes: [cut] }))
    m.renderOrder = 1
    group.add(m)
  }
  return group
}

export function wipe(group: Group): void {
  for (const m of group.children as Mesh<BufferGeometry, MeshBasicMaterial>[]) {
    m.geometry.dispose()
    m.material.map?.dispose()
    m.material.dispose()
  }
}
