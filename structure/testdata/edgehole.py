"""Stress beside a round hole near the straight free edge of a wide sheet pulled
along that edge, by complex potentials: multipoles about the hole and about its
image, fitted to no traction on both boundaries. Run by hand to make
edgehole.csv; needs numpy. A third more terms change nothing printed.
"""
import numpy as np


def solve(ratio, terms):
    """Peak stresses over the pull, hole radius 1, centre 1/ratio from the edge."""
    e = 1 / ratio
    rim = np.exp(1j * np.linspace(0, np.pi, 900))
    edge = e + 1j * e * np.tan(np.linspace(0, np.pi / 2 * 0.999, 900))

    def fields(z):  # sum of normal stresses, and syy - sxx + 2 i sxy, of each term
        for centre, scale in ((0, 1), (2 * e, e)):
            w = z - centre
            for k in range(2, terms):
                f = (w / scale) ** -k
                yield 4 * f.real, 2 * np.conj(z) * (-k * f / w)
                yield 0 * f.real, 2 * f

    def traction(s, d, n):
        sxx, syy, sxy = (s - d.real) / 2, (s + d.real) / 2, d.imag / 2
        return np.concatenate([sxx * n.real + sxy * n.imag, sxy * n.real + syy * n.imag])

    flat = np.ones_like(edge)
    at_rim, at_edge = list(fields(rim)), list(fields(edge))
    columns = [
        np.concatenate([traction(*a, rim), traction(*b, flat)])
        for a, b in zip(at_rim, at_edge)
    ]
    m = np.array(columns).T
    far = np.ones(len(rim))
    rhs = -np.concatenate([traction(far, far + 0j, rim), traction(far, far + 0j, flat)])
    size = np.linalg.norm(m, axis=0)
    x = np.linalg.lstsq(m / size, rhs, rcond=1e-14)[0]
    assert np.abs(m / size @ x - rhs).max() < 1e-9
    x = x / size
    return [(1 + sum(c[0] * v for c, v in zip(f, x))).max() for f in (at_rim, at_edge)]


print("# " + __doc__.strip().replace("\n", "\n# "))
print("radius_over_distance,rim_over_pull,edge_over_pull")
for ratio in (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9):
    coarse, fine = solve(ratio, 60), solve(ratio, 80)
    assert np.allclose(coarse, fine, rtol=1e-6)
    print(f"{ratio},{fine[0]:.4f},{fine[1]:.4f}")
