"""Evaluates a grid of hydraulic formulas with general-purpose libraries.

Uses fluids and scipy (Debian: python3-fluids, python3-scipy). Prints one JSON
object a line: what, in (SI inputs), text (a name, if any), want. The Go test
that runs this file evaluates its own functions on the same inputs.
"""
import json
import math
import re

import numpy as np
from fluids import fittings, open_flow
from fluids.friction import Colebrook
from scipy.integrate import quad, solve_ivp
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

G = 9.80665


def put(what, inputs, want, text=""):
    row = {"what": what, "in": [float(x) for x in inputs], "text": text, "want": float(want)}
    print(json.dumps(row))


def turbulent(re_, rel):
    return Colebrook(float(re_), rel)


def friction(re_, rel):
    """Laminar, cubic bridge or Colebrook, the bridge from the library's own end value."""
    if re_ <= 2000:
        return 64 / re_
    if re_ >= 4000:
        return turbulent(re_, rel)
    f4 = turbulent(4000, rel)
    # Slope at the end by Richardson's extrapolation of central differences: a
    # different road from the implicit derivative in the Go code.
    def diff(h):
        return (turbulent(4000 + h, rel) - turbulent(4000 - h, rel)) / (2 * h)

    d4 = (4 * diff(20) - diff(40)) / 3
    x = (re_ - 2000) / 2000
    return (
        (2 * x**3 - 3 * x**2 + 1) * 0.032
        + (x**3 - 2 * x**2 + x) * -0.032
        + (3 * x**2 - 2 * x**3) * f4
        + (x**3 - x**2) * 2000 * d4
    )


def loss(q, length, bore, eps, nu, k):
    v = 4 * q / (math.pi * bore**2)
    if v == 0:
        return 0.0
    return (friction(v * bore / nu, eps / bore) * length / bore + k) * v * v / (2 * G)


def plain(name):
    name = name.replace("°", " deg ").replace("β", "beta").replace(",", " ")
    return re.sub(r"\s+", " ", name).replace(" )", ")").strip()


def pipes():
    for rel in (0, 1e-5, 1e-4, 1e-3, 0.01, 0.05):
        for re_ in (5, 400, 1999, 2001, 2200, 2700, 3100, 3600, 3999):
            put("friction", (re_, rel), friction(re_, rel))
        for re_ in np.geomspace(4000, 1e8, 25):
            put("friction", (re_, rel), turbulent(re_, rel))
    for bore in (0.004, 0.0127, 0.02):
        for q in (3e-6, 2e-5, 1e-4, 4e-4):
            args = (1.7, bore, 1.5e-6, 9e-7, 2.3)
            put("pipe loss", (q, *args), loss(q, *args))


def minor():
    for name in fittings.Hooper:
        put("hooper", (0.6, 3000), fittings.Hooper2K(0.6, 3000, name=name), plain(name))
    for name in fittings.Darby:
        put("darby", (0.6, 3000), fittings.Darby3K(NPS=0.6, Re=3000, name=name), plain(name))
    for a, b in ((0.02, 0.019), (0.02, 0.013), (0.0127, 0.0064), (1.0, 0.01)):
        put("contraction", (a, b), fittings.contraction_sharp(a, b))
        put("expansion", (b, a), fittings.diffuser_sharp(b, a))
    for kv, d in ((1.5, 0.0127), (12, 0.026)):
        put("valve", (kv, d), fittings.Kv_to_K(kv, d))
    for q in (0.05, 0.3, 0.39, 0.45, 0.51, 0.8, 0.99):
        put("combining branch", (q,), fittings.K_branch_converging_Crane(0.02, 0.02, 1 - q, q, 90))
        put("combining run", (q,), fittings.K_run_converging_Crane(0.02, 0.02, 1 - q, q, 90))
        put("dividing run", (q,), fittings.K_run_diverging_Crane(0.02, 0.02, 1 - q, q, 90))


def pumps():
    q = np.array([0, 0.7e-4, 1.2e-4, 2.5e-4, 2.7e-4, 4e-4])
    h = np.array([2.1, 2.08, 1.6, 0.9, 0.35, 0.1])
    curve = PchipInterpolator(q, h)
    slope = curve.derivative()
    for x in np.linspace(0, 4e-4, 41):
        put("table head", (x, *q, *h), curve(x))
        put("table slope", (x, *q, *h), slope(x))
    for static, bore, length, k in ((0.3, 0.0127, 2, 4), (1.1, 0.0127, 3, 6), (0.5, 0.02, 1.5, 8), (1.9, 0.0095, 2, 3)):
        args = (length, bore, 1.5e-6, 9e-7, k)
        duty = brentq(lambda x: float(curve(x)) - static - loss(x, *args), 1e-9, 4e-4, xtol=1e-18, rtol=1e-14)
        put("table duty", (static, *args, *q, *h), duty)


def drains():
    for eta in (0.02, 0.09, 0.11, 0.4, 0.77, 0.99, 1.0, 1.01, 1.4, 3, 19, 21, 80):
        top = min(eta, 1)
        # Substituting x = top sin^2 a keeps the integrand smooth at both ends.
        def f(a):
            x = top * math.sin(a) ** 2
            return 4 * top * math.sqrt(x * (1 - x) * (eta - x)) * math.sin(a) * math.cos(a)

        put("phi", (eta,), quad(f, 0, math.pi / 2, epsabs=0, epsrel=1e-13, limit=500)[0])
    for d, y, s, n in ((0.02, 0.006, 0.01, 0.009), (0.04, 0.02, 0.02, 0.011), (0.05, 0.04, 0.005, 0.01)):
        th = 2 * math.acos(1 - 2 * y / d)
        area, wet = d * d * (th - math.sin(th)) / 8, d * th / 2
        put("manning", (d, y, s, n), area * open_flow.V_Manning(area / wet, s, n))
    # The library prints k_h as 0.1 mm, a slip for 1 mm; the head is raised by the
    # difference. Its formula is for b/B up to 0.2.
    for b, h, p in ((0.2, 0.05, 0.3), (0.3, 0.08, 0.5), (0.16, 0.04, 0.15)):
        put("kindsvater", (b, h, p), open_flow.Q_weir_rectangular_Kindsvater_Carter(h + 0.0009, p, b))


def transients():
    area, bore, q, cd = 0.12, 0.009, 8e-5, 0.6
    hole = math.pi / 4 * bore**2

    def rate(_, y):
        return [(q - cd * hole * math.sqrt(2 * G * y[0])) / area]

    run = solve_ivp(rate, (0, 200), [0.02], method="DOP853", rtol=1e-12, atol=1e-14)
    put("inflow", (area, q, cd, hole, 0.02, run.y[0][-1]), 200)
    for bore, h1, h2 in ((0.0127, 0.9, 0.3), (0.006, 0.5, 0.05)):
        args = (1.2, bore, 1.5e-6, 9e-7, 2.5)

        def flow(h):
            return brentq(lambda x: loss(x, *args) - h, 1e-12, 1e-2, xtol=1e-20, rtol=1e-14)

        t = quad(lambda h: 0.1 / flow(h), h2, h1, epsabs=0, epsrel=1e-11, limit=500)[0]
        put("drain down", (0.1, h1, h2, *args), t)


for part in (pipes, minor, pumps, drains, transients):
    part()
