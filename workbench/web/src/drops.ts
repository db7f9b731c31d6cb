// Drops that go through the runs as fast as their water.
import { InstancedMesh, Matrix4, MeshLambertMaterial, SphereGeometry, type CurvePath, type Group, type Material, type Plane, type Vector3 } from "three"
import { dark } from "./materials"
import { at, smooth, type Drawn } from "./solids"
import type { Outcome } from "./types"

interface Run { mesh: InstancedMesh, path: CurvePath<Vector3>, length: number, speed: number, count: number }

export class Drops {
  private runs: Run[] = []

  // pour puts drops into the runs of some water, in place of those before.
  pour(w: NonNullable<Outcome["water"]>, drawn: Drawn[], root: Group, cut: Plane): void {
    for (const d of this.runs) {
      root.remove(d.mesh)
      d.mesh.geometry.dispose();
      (d.mesh.material as Material).dispose()
      d.mesh.dispose()
    }
    this.runs = []
    for (const r of w.runs) {
      const d = drawn.find((x) => x.part.kind === "run" && x.part.name === r.name)
      if (!d?.part.points || !(r.speed > 0)) continue
      const path = smooth(d.part.points.map(at)) as CurvePath<Vector3>
      const length = path.getLength()
      const count = Math.max(2, Math.min(120, Math.round(length / 0.06)))
      const mesh = new InstancedMesh(new SphereGeometry(Math.max(0.006, d.part.radius ?? 0.006) * 1.25, 8, 6), new MeshLambertMaterial({ color: dark() ? 0x9fe6f2 : 0x0b6676, clippingPlanes: [cut] }), count)
      mesh.userData.s = 0
      root.add(mesh)
      this.runs.push({ mesh, path, length, speed: r.speed, count })
    }
    this.move(0)
  }

  // move lets them go on for some seconds.
  move(dt: number): void {
    const m = new Matrix4()
    for (const d of this.runs) {
      d.mesh.userData.s = ((d.mesh.userData.s as number) + d.speed * dt) % (d.length / d.count)
      for (let i = 0; i < d.count; i++) {
        const p = d.path.getPoint(Math.min(1, ((d.mesh.userData.s as number) + i * d.length / d.count) / d.length))
        d.mesh.setMatrixAt(i, m.makeTranslation(p.x, p.y, p.z))
      }
      d.mesh.instanceMatrix.needsUpdate = true
    }
  }

  seen(yes: boolean): void {
    for (const d of this.runs) d.mesh.visible = yes
  }

  // gone forgets them: the shape that they were in is cleared.
  gone(): void { this.runs = [] }
}
