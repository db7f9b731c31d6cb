"""Solves pipe circuits with scipy (Debian: python3-scipy), for a Go test.

Reads a JSON list of circuits from standard input and prints a JSON list of
their heads and flows. The equations are written afresh here and solved for all
heads and flows at once by MINPACK's hybr (scipy.optimize.root); one-way links
are shut one by one where they would run backwards.
"""
import json
import math
import sys

import numpy as np
from scipy.optimize import root

G = 9.80665


def colebrook(re, rel):
    s = 8.0  # 1/sqrt f, by Newton's method
    for _ in range(50):
        arg = rel / 3.7 + 2.51 * s / re
        step = (s + 2 * math.log10(arg)) / (1 + 2 / math.log(10) * 2.51 / re / arg)
        s -= step
        if abs(step) < 1e-15 * s:
            break
    return 1 / (s * s)


class Pipe:
    """Friction and a fitting K1/Re + KInf, both on the pipe's own bore."""

    def __init__(self, link, nu):
        self.d, self.length, self.nu = link["bore"], link["length"], nu
        self.rel = link["roughness"] / self.d
        self.k1, self.kinf = link["k1"], link["kInf"]
        self.f4 = colebrook(4000, self.rel)

        def diff(h):
            return (colebrook(4000 + h, self.rel) - colebrook(4000 - h, self.rel)) / (2 * h)

        # Richardson's extrapolation of central differences
        self.d4 = (4 * diff(20) - diff(40)) / 3

    def friction(self, re):
        if re <= 2000:
            return 64 / re
        if re >= 4000:
            return colebrook(re, self.rel)
        x = (re - 2000) / 2000
        return (
            (2 * x**3 - 3 * x**2 + 1) * 0.032
            + (x**3 - 2 * x**2 + x) * -0.032
            + (3 * x**2 - 2 * x**3) * self.f4
            + (x**3 - x**2) * 2000 * self.d4
        )

    def loss(self, q):
        v = 4 * abs(q) / (math.pi * self.d**2)
        re = v * self.d / self.nu
        if re == 0:
            return 0.0
        k = self.friction(re) * self.length / self.d + self.k1 / re + self.kinf
        return math.copysign(k * v * v / (2 * G), q)


class Pump:
    def __init__(self, link, _):
        self.h0, self.a, self.c = link["h0"], link["a"], link["c"]

    def loss(self, q):
        return -self.h0 + math.copysign(self.a * abs(q) ** self.c, q)


class Outlet:
    def __init__(self, link, _):
        self.k, self.x = link["k"], link["x"]

    def loss(self, q):
        return math.copysign((abs(q) / self.k) ** (1 / self.x), q)


KINDS = {"pipe": Pipe, "pump": Pump, "outlet": Outlet}


class Circuit:
    def __init__(self, c):
        self.nodes, self.links = c["nodes"], c["links"]
        self.laws = [KINDS[l["kind"]](l, c["kinematic"]) for l in self.links]
        self.free = [i for i, n in enumerate(self.nodes) if not n["fixed"]]
        self.place = {i: k for k, i in enumerate(self.free)}

    def heads(self, free):
        h = np.array([n["head"] for n in self.nodes], dtype=float)
        h[self.free] = free
        return h

    def chord(self, live, q):
        """Heads and flows if each law were the straight line to its point at q."""
        n, m = len(self.free), len(live)
        a, b = np.zeros((n + m, n + m)), np.zeros(n + m)
        for i, k in enumerate(live):
            l, law = self.links[k], self.laws[k]
            rest = law.loss(0.0)
            a[n + i, n + i] = -(law.loss(q[i]) - rest) / q[i]
            b[n + i] = rest
            for end, sign in ((l["from"], 1), (l["to"], -1)):
                if end in self.place:
                    a[n + i, self.place[end]] += sign
                    a[self.place[end], n + i] -= sign
                else:
                    b[n + i] -= sign * self.nodes[end]["head"]
        for k, i in enumerate(self.free):
            b[k] = self.nodes[i]["demand"]
        x = np.linalg.solve(a, b)
        return x[:n], x[n:]

    def solve(self, live):
        """All heads, and the flows of the live links."""
        n, m = len(self.free), len(live)
        q = np.full(m, 3e-5)
        for _ in range(12):
            h, new = self.chord(live, q)
            q = np.sqrt(np.abs(q) * np.maximum(np.abs(new), 1e-9))
        signs = np.where(new < 0, -1, 1)
        scale = np.maximum(q, 1e-8)  # each flow in its own unit

        def wrong(x):
            heads, flow = self.heads(x[:n]), x[n:] * scale
            out = np.empty(n + m)
            for k, i in enumerate(self.free):
                out[k] = -self.nodes[i]["demand"]
            for i, k in enumerate(live):
                l = self.links[k]
                out[n + i] = heads[l["from"]] - heads[l["to"]] - self.laws[k].loss(flow[i])
                if l["from"] in self.place:
                    out[self.place[l["from"]]] -= flow[i]
                if l["to"] in self.place:
                    out[self.place[l["to"]]] += flow[i]
            out[:n] /= 1e-5
            return out

        best = None
        start = np.concatenate([h, q * signs / scale])
        r = np.random.default_rng(1)
        for _ in range(60):
            sol = root(wrong, start, method="hybr", options={"xtol": 1e-14, "maxfev": 20000})
            sol = root(wrong, sol.x, method="hybr", options={"xtol": 1e-15, "maxfev": 20000})
            miss = np.abs(wrong(sol.x)).max()
            if best is None or miss < best[0]:
                best = (miss, sol.x)
            if miss < 1e-11:
                break
            start = best[1] * np.exp(0.3 * r.standard_normal(n + m))
        if best[0] > 1e-9:
            sys.exit(f"no solution found, residual {best[0]}")
        return self.heads(best[1][:n]), best[1][n:] * scale

    def answer(self):
        live = list(range(len(self.links)))
        while True:
            heads, flow = self.solve(live)
            back = [(f, k) for f, k in zip(flow, live) if f < 0 and self.links[k]["oneWay"]]
            if not back:
                break
            live.remove(min(back)[1])
        flows = [0.0] * len(self.links)
        for k, f in zip(live, flow):
            flows[k] = float(f)
        for k, l in enumerate(self.links):
            shut = heads[l["from"]] - heads[l["to"]] <= self.laws[k].loss(0.0) + 1e-9
            if k not in live and not shut:
                sys.exit("a link was shut that would run")
        return {"head": [float(h) for h in heads], "flow": flows}


print(json.dumps([Circuit(c).answer() for c in json.load(sys.stdin)]))
