"""Follows enclosures through faults with scipy (Debian: python3-scipy), for a Go test.

Reads a JSON list of cases from standard input: the figures of a design's parts
and what befalls it. Prints a JSON list of what holds how much in the end and of
when things happened. All equations are written afresh here. The supply circuit
is solved by MINPACK's hybr at some sump levels and taken between them from a
spline; time is followed by solve_ivp's LSODA with its own events.
"""
import json
import math
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline
from scipy.optimize import brentq, root

G = 9.80665
ROOT2G = math.sqrt(2 * G)


def area(d):
    return math.pi * d * d / 4


def colebrook(re, rel):
    s = 8.0  # 1/sqrt f
    for _ in range(60):
        arg = rel / 3.7 + 2.51 * s / re
        step = (s + 2 * math.log10(arg)) / (1 + 2 / math.log(10) * 2.51 / re / arg)
        s -= step
        if abs(step) < 1e-15 * s:
            break
    return 1 / (s * s)


class Pipe:
    def __init__(self, bore, length, roughness, nu):
        self.d, self.length, self.nu, self.rel = bore, length, nu, roughness / bore
        self.f4 = colebrook(4000, self.rel)

        def diff(h):
            return (colebrook(4000 + h, self.rel) - colebrook(4000 - h, self.rel)) / (2 * h)

        self.d4 = (4 * diff(20) - diff(40)) / 3

    def loss(self, q):
        v = abs(q) / area(self.d)
        re = v * self.d / self.nu
        if re == 0:
            return 0.0
        if re <= 2000:
            f = 64 / re
        elif re >= 4000:
            f = colebrook(re, self.rel)
        else:  # a cubic from one regime to the other
            x = (re - 2000) / 2000
            f = (
                (2 * x**3 - 3 * x**2 + 1) * 0.032
                + (x**3 - 2 * x**2 + x) * -0.032
                + (3 * x**2 - 2 * x**3) * self.f4
                + (x**3 - x**2) * 2000 * self.d4
            )
        return math.copysign(f * self.length / self.d * v * v / (2 * G), q)


class Fitting:
    def __init__(self, k1, kinf, bore, nu):
        self.linear = k1 * nu / (2 * G * area(bore) * bore)
        self.square = kinf / (2 * G * area(bore) ** 2)

    def loss(self, q):
        return self.linear * q + self.square * q * abs(q)


def change(d1, d2, nu):
    """A sudden change of bore, on the smaller: Rennels & Hudson, Borda-Carnot."""
    if d1 == 0 or d2 == 0 or abs(d1 - d2) < 1e-6:
        return []
    b = min(d1, d2) / max(d1, d2)
    if d2 > d1:
        return [Fitting(0, (1 - b * b) ** 2, d1, nu)]
    lam = 1 + 0.622 * (1 - 0.215 * b**2 - 0.785 * b**5)
    return [Fitting(0, 0.0696 * (1 - b**5) * lam**2 + (lam - 1) ** 2, d2, nu)]


def hose(pieces, last, exit_loss, nu):
    """The parts of a run, from its open beginning to a bore at its end."""
    parts, bore = [], 0.0
    for p in pieces:
        parts += change(bore, p["bore"], nu)
        bore = p["bore"]
        if p["length"] > 0:
            parts.append(Pipe(bore, p["length"], p["roughness"], nu))
        else:
            # Darby's three constants, and what a throttled valve adds
            k = p["ki"] * (1 + p["kd"] / p["nominal"] ** 0.3) + p["throttled"]
            parts.append(Fitting(p["k1"], k, bore, nu))
    parts += change(bore, last, nu)
    if exit_loss:
        parts.append(Fitting(0, 1, bore, nu))
    return lambda q: sum(p.loss(q) for p in parts)


class Circuit:
    """Pump, riser and drip bar."""

    def __init__(self, c):
        nu = c["kinematic"]
        self.c, self.nu = c, nu
        self.riser = hose(c["pieces"], c["barBore"], False, nu)
        self.at = sorted(set(c["outlets"] + [c["feed"]]))
        self.feed = self.at.index(c["feed"])
        self.legs = [Pipe(c["barBore"], b - a, c["barRoughness"], nu) for a, b in zip(self.at, self.at[1:])]
        self.guess = None

    def pump(self, q):
        c = self.c
        return c["hmax"] * (1 - (q / c["qmax"]) ** c["shape"]) - c["strainer"] * q * q

    def hole(self, q):
        """The head over a thin hole, of Wu, Burton & Schoenau."""
        d, nu = self.c["hole"], self.nu
        if q <= 0:
            return q * 1e6

        def short(r):  # r = sqrt Re
            cd = 0.61 * (1 + 1.07 * math.exp(-0.126 * r) - 2.07 * math.exp(-0.246 * r)) * self.c["discharge"] / 0.61
            return cd * r * r - q * d / (area(d) * nu)

        hi = 1.0
        while short(hi) < 0:
            hi *= 2
        r = brentq(short, 0, hi, xtol=1e-14, rtol=1e-15)
        return (r * r * nu / d) ** 2 / (2 * G)

    def wrong(self, x, level):
        c, n = self.c, len(self.at)
        q = x * 1e-6
        total = q.sum()
        head = [0.0] * n
        flow = [0.0] * (n - 1)  # along each leg, to the right
        out = dict(zip(c["outlets"], q))
        left = sum(out.get(self.at[k], 0) for k in range(self.feed))
        right = sum(out.get(self.at[k], 0) for k in range(self.feed + 1, n))
        head[self.feed] = level + self.pump(total) - self.riser(total)
        unit = 1 / (2 * G * area(c["barBore"]) ** 2)

        def tee(share):  # a tee fed through its side leg
            return (0.58 + 1.36 * share - 0.74 * share**2) * unit * total**2

        inside = 0 < self.feed < n - 1
        q_leg = left
        for k in range(self.feed - 1, -1, -1):
            flow[k] = q_leg
            head[k] = head[k + 1] - self.legs[k].loss(q_leg) - (tee(left / total) if inside and k == self.feed - 1 else 0)
            q_leg -= out.get(self.at[k], 0)
        q_leg = right
        for k in range(self.feed, n - 1):
            flow[k] = q_leg
            head[k + 1] = head[k] - self.legs[k].loss(q_leg) - (tee(right / total) if inside and k == self.feed else 0)
            q_leg -= out.get(self.at[k + 1], 0)
        miss = []
        for a, qa in zip(c["outlets"], q):
            k = self.at.index(a)
            stream = max([flow[k - 1] if k > 0 else 0, flow[k] if k < n - 1 else 0])
            z = c["barHeight"] + c["levelError"] * (a / c["barLength"] - 0.5)
            miss.append(head[k] - c["wallTap"] * unit * stream**2 - z - self.hole(qa))
        return np.array(miss)

    def outlets(self, level):
        n = len(self.c["outlets"])
        x = self.guess if self.guess is not None else np.full(n, 3e-6 * 1e6)
        for _ in range(20):
            sol = root(self.wrong, x, args=(level,), method="hybr", options={"xtol": 1e-14})
            x = sol.x
            if np.abs(self.wrong(x, level)).max() < 1e-12:
                break
        if np.abs(self.wrong(x, level)).max() > 1e-9:
            sys.exit(f"no state found at {level}: {np.abs(self.wrong(x, level)).max()}")
        self.guess = x
        return float(x.sum() * 1e-6)


class Stack:
    """Volume below a level of layers (from, to, area); above the top the walls go on."""

    def __init__(self, layers):
        z = sorted({e for l in layers for e in l[:2]})
        self.z = z
        self.a = [sum(l[2] for l in layers if l[0] <= lo and l[1] >= hi) for lo, hi in zip(z, z[1:])]
        self.v = [0.0]
        for (lo, hi), a in zip(zip(z, z[1:]), self.a):
            self.v.append(self.v[-1] + a * (hi - lo))

    def volume(self, level):
        if level <= self.z[0]:
            return 0.0
        i = max(k for k in range(len(self.a)) if self.z[k] <= level)
        return self.v[i] + self.a[i] * (level - self.z[i])

    def level(self, volume):
        i = max((k for k in range(len(self.a)) if self.v[k] <= volume), default=0)
        return self.z[i] + (volume - self.v[i]) / self.a[i]


SUPPLIES = {}  # by design
POOL, UP, DOWN, FILM, HOSE, FLOOR, AIR = range(7)


class Enclosure:
    def __init__(self, c):
        self.c = c
        self.circuit = Circuit(c)
        key = json.dumps({k: v for k, v in c.items() if k not in ("steps", "lasts", "untilDry")})
        if key not in SUPPLIES:
            levels = np.linspace(c["bottom"] + 0.004, c["bottom"] + c["sumpHeight"], 90)
            SUPPLIES[key] = CubicSpline(levels, [self.circuit.outlets(z) for z in levels])
        self.supply = SUPPLIES[key]
        nu = c["kinematic"]
        self.run = hose(c["pieces"], 0, True, nu)
        stopped = 3 / (2 * G * area(c["pieces"][0]["bore"]) ** 2) + c["strainer"]
        self.back = lambda q: self.run(q) + stopped * q * q
        # The water standing in the hose: a slope up to the bar, the bar, and a thread.
        h, d = c["barHeight"], c["barBore"]
        volume = sum(p["length"] * area(p["bore"]) for p in c["pieces"])
        self.line = Stack([
            (c["bottom"], h, volume / (h - c["bottom"])),
            (h, h + d, c["barLength"] * area(d) / d),
            (c["bottom"], h + d, 1e-6),
        ])
        self.full = self.line.volume(h + d)
        self.plan = c["poolWidth"] * c["poolDepth"] * (1 - c["displaced"])
        self.two = len(c["chambers"]) == 2
        self.a = [l * c["sumpDepth"] for l in c["chambers"]]
        # As it runs at the beginning.
        q0 = float(self.supply(c["sumpLevel"]))
        self.q0 = q0
        pool = brentq(lambda z: self.drain(z) - q0, c["lip"], c["damTop"], xtol=1e-15)
        up = c["sumpLevel"]
        if self.two:
            up = brentq(lambda z: self.baffle(z, c["sumpLevel"]) - q0, c["sumpLevel"], c["sumpLevel"] + 0.1, xtol=1e-15)
        self.held = c["film"]
        self.start = np.zeros(7)
        self.start[POOL] = (pool - c["poolFloor"]) * self.plan
        self.start[UP] = (up - c["bottom"]) * self.a[0] if self.two else 0
        self.start[DOWN] = (c["sumpLevel"] - c["bottom"]) * self.a[-1]
        self.start[FILM], self.start[HOSE] = self.held, self.full
        self.power, self.blocked, self.dry, self.primed = True, 0.0, False, True

    def drain(self, level):
        """A standpipe's rim or, drowned, its mouth, behind its strainer."""
        c = self.c
        a = area(c["lipBore"])
        screen = 1 / (2 * G * (0.6 * c["strainerArea"] * a) ** 2)

        def mouth(h):
            if h <= 0:
                return 0.0
            weir = c["rim"] * 2 / 3 * ROOT2G * math.pi * c["lipBore"] * h**1.5
            return min(weir, 0.6 * a * math.sqrt(2 * G * h))

        h = level - c["lip"]
        if h <= 0:
            return 0.0
        return brentq(lambda q: q - mouth(h - screen * q * q), 0, mouth(h) * (1 + 1e-9), xtol=1e-20, rtol=1e-14)

    def baffle(self, up, down):
        c = self.c
        wet = min(c["under"], max(max(up, down) - c["bottom"], 0))
        d = up - down
        return 0.6 * wet * c["sumpDepth"] * ROOT2G * d / math.sqrt(abs(d) + 1e-5)

    def sump(self, x):
        return self.c["bottom"] + x[DOWN] / self.a[-1]

    def pool(self, x):
        return self.c["poolFloor"] + x[POOL] / self.plan

    def running(self):
        return self.power and not self.dry

    def rates(self, _, x):
        c = self.c
        r = np.zeros(7)

        def move(a, b, q):
            r[a] -= q
            r[b] += q

        pool, sump = self.pool(x), self.sump(x)
        last = DOWN
        if self.running() and self.primed:
            move(last, FILM, float(self.supply(sump)))
            move(last, HOSE, (self.full - x[HOSE]) / 2)
        else:
            h = self.line.level(x[HOSE]) - sump
            if self.running():
                q = 0.0
                if self.circuit.pump(0) > h:
                    q = brentq(lambda q: h + self.run(q) - self.circuit.pump(q), 0, c["qmax"], xtol=1e-20, rtol=1e-14)
            else:
                q = 0.0
                if h != 0:
                    s = -math.copysign(1, h)
                    top = 1e-3
                    q = s * brentq(lambda q: self.back(q) - abs(h), 0, top, xtol=1e-22, rtol=1e-14)
            move(last, HOSE, q)
        v = max(x[FILM], 0) / self.held
        move(FILM, POOL, self.q0 * v**3)
        move(FILM, AIR, c["evaporation"] * c["wallWidth"] * c["wallHeight"] * min(10 * v, 1))
        move(POOL, AIR, c["evaporation"] * c["poolWidth"] * c["poolDepth"] * min(max(x[POOL] / 1e-5, 0), 1))
        into = UP if self.two else DOWN
        if self.blocked < 1:
            move(POOL, into, self.drain(pool) * (1 - self.blocked))
        if self.two:
            move(UP, DOWN, self.baffle(c["bottom"] + x[UP] / self.a[0], sump))
        over = pool - c["damTop"]
        if over > 0:
            move(POOL, FLOOR, 0.62 * 2 / 3 * ROOT2G * c["damWidth"] * over**1.5)
        return r

    def follow(self):
        c = self.c
        t, x, events = 0.0, self.start.copy(), {}
        steps = sorted(c["steps"] or [], key=lambda s: s["at"])
        spilling = False
        while t < c["lasts"]:
            while steps and steps[0]["at"] <= t:
                s = steps.pop(0)
                if s["what"] == "power off":
                    self.power = self.primed = False
                elif s["what"] == "power on":
                    self.power = True
                else:
                    self.blocked = s["share"]
            until = min(c["lasts"], steps[0]["at"] if steps else math.inf)
            watch = []

            def on(name, figure, direction):
                figure.terminal, figure.direction = True, direction
                watch.append((name, figure))

            if self.running():
                on("dry", lambda _, x: self.sump(x) - c["inlet"], -1)
                if not self.primed:
                    on("reaches", lambda _, x: x[HOSE] - self.full * (1 - 1e-6), 1)
            if self.dry:
                on("covered", lambda _, x: self.sump(x) - c["inlet"] - 0.010, 1)
            if not spilling:
                on("spills", lambda _, x: self.pool(x) - c["damTop"], 1)
            sol = solve_ivp(self.rates, (t, until), x, method="LSODA", events=[w[1] for w in watch], rtol=1e-10, atol=1e-12, max_step=(until - t) / 20, first_step=1e-3)
            if sol.status < 0:
                sys.exit(sol.message)
            t, x = float(sol.t[-1]), sol.y[:, -1]
            for (name, _), at in zip(watch, sol.t_events):
                if len(at) == 0:
                    continue
                events.setdefault(name, t)
                if name == "dry":
                    self.dry, self.primed = True, False
                    if c["untilDry"]:
                        return t, x, events
                elif name == "covered":
                    self.dry = False
                elif name == "reaches":
                    self.primed = True
                elif name == "spills":
                    spilling = True
        return t, x, events


def lower(pairs):
    return {k[0].lower() + k[1:]: v for k, v in pairs.items()}


answers = []
for case in json.load(sys.stdin, object_hook=lower):
    e = Enclosure(case)
    t, x, events = e.follow()
    answers.append({"ended": t, "end": [float(v) for v in x], "events": events})
print(json.dumps(answers))
