"""Balances enclosures with scipy (Debian: python3-scipy), for a Go test.

Reads a JSON list of cases from standard input: the figures of a box, its room and,
for a course, what is timed. Prints a JSON list of answers: the steady state by
MINPACK's hybr, or the state at each full hour of so many days by solve_ivp's LSODA,
begun at a given state. All equations are written afresh here.
"""
import json
import math
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import root

G, C, DAY = 9.80665, 4186.0, 86400.0


def psat(t):
    k = t + 273.15
    return math.exp(-5800.2206 / k + 1.3914993 - 0.048640239 * k + 4.1764768e-5 * k ** 2
                    - 1.4452093e-8 * k ** 3 + 6.5459673 * math.log(k))


def rho(pv, t):
    return pv / (461.5 * (t + 273.15))


def hg(t):
    return 2.501e6 + 1860 * t


def virtual(t, pv, p):
    return (t + 273.15) / (1 - 0.378 * pv / p)


def flows(b, room_t, room_pv, tw, ta, w, tg, power, film=None):
    """Gains of water (W), air (W), vapour (kg/s), panes (W) and films (kg/s)."""
    p = b["Pressure"]
    wr = 0.621945 * room_pv / (p - room_pv)
    pv = p * w / (0.621945 + w)
    vin, vout = virtual(ta, pv, p), virtual(room_t, room_pv, p)
    low, high = b["Low"], b["High"]
    area = low * high / math.sqrt(low ** 2 + high ** 2) if low and high else 0.0
    dv = math.sqrt((vin - vout) ** 2 + 0.01 ** 2)
    stack = b["Discharge"] * area * math.sqrt(2 * G * b["Height"] * dv / vout)
    vent = math.sqrt(stack ** 2 + power["Fan"] ** 2) + b["Leak"]
    md = vent / (287.042 * (room_t + 273.15) * (1 + 1.607858 * wr) / p)
    per = 1 / (p / (287.042 * (room_t + 273.15)) * 1006 * b["Lewis"] ** (2 / 3))
    rv = rho(pv, ta)
    conductance = sum(a * h for a, h in b["Wet"])
    me = conductance * per * (rho(psat(tw), tw) - rv)
    over = rv - rho(psat(ta), ta)
    haze = 0.3 * over ** 2 / (over + 0.02 * rho(psat(ta), ta)) if over > 0 else 0.0
    to_air = conductance * (tw - ta)
    h, hr = 1006 * ta + w * hg(ta), 1006 * room_t + wr * hg(room_t)
    water = power["Water"] - to_air - me * hg(tw) - b["Sump"] * (tw - room_t) + haze * C * ta
    air = power["Air"] + to_air + me * hg(tw) + power["Mist"] * C * b["MakeUp"] - haze * C * ta - md * (h - hr)
    vapour = me + power["Mist"] - haze - md * (w - wr)
    back = haze
    panes, films = [], []
    for i, (a, hi, ho, r, hold) in enumerate(b["Panes"]):
        m = hi * a * per * (rv - rho(psat(tg[i]), tg[i]))
        off = m
        if m < 0:
            m = 0.0 if film is None else m * max(film[i], 0) / (max(film[i], 0) + 2e-3 * a)
            off = 0.0
        if film is not None:
            off = max(0.0, film[i] - hold * a) / 60
        latent = m * hg(ta if m >= 0 else tg[i])
        inner = hi * a * (ta - tg[i])
        air -= inner + latent
        vapour -= m
        water += off * C * tg[i]
        back += off
        panes.append(power["Panes"][i] + inner + latent - off * C * tg[i] - a * (tg[i] - room_t) / (r + 1 / ho))
        films.append(m - off)
    make_up = me - back
    water += make_up * C * (b["MakeUp"] if make_up > 0 else tw)
    return water, air, vapour, panes, films


def steady(c):
    b, room = c["Box"], c["Room"]
    pv = room[1] * psat(room[0])

    def f(x):
        x = np.array(x)
        water, air, vapour, panes, _ = flows(b, room[0], pv, x[0], x[1], x[2] / 1000, x[3:], b["Always"])
        return [water, air - hg(x[1]) * vapour, vapour * 2.5e6] + panes

    s = c["Start"]
    sol = root(f, [s[0], s[1], s[2] * 1000] + s[3:], method="hybr", options={"xtol": 1e-12})
    worst = max(abs(v) for v in sol.fun)
    return {"Ended": bool(worst < 1e-6), "State": [float(v) for v in (sol.x[0], sol.x[1], sol.x[2] / 1000, *sol.x[3:])]}


def course(c):
    b, room, n = c["Box"], c["Room"], len(c["Box"]["Panes"])
    pv = room[1] * psat(room[0])
    wr = 0.621945 * pv / (b["Pressure"] - pv)
    dry = b["Volume"] / (287.042 * (room[0] + 273.15) * (1 + 1.607858 * wr) / b["Pressure"])
    timed = c["Timed"]

    def rates(t, y, power):
        tw, ta, w = y[0], y[1], y[2]
        room_t = room[0] + c["Swing"] * math.cos(2 * math.pi * (t - c["Warmest"]) / DAY)
        film = y[3 + n:]
        water, air, vapour, panes, films = flows(b, room_t, pv, tw, ta, w, y[3:3 + n], power, film)
        dw = vapour / dry
        dta = (air / dry - hg(ta) * dw) / (1006 + 1860 * w)
        out = [water / (b["Water"] * C), dta, dw]
        for i in range(n):
            capacity = c["Capacity"][i] + C * film[i]
            out.append((panes[i] - C * y[3 + i] * films[i]) / capacity)
        return out + films

    y, hours = np.array(c["Start"]), [list(c["Start"])]
    edges = sorted({0.0, DAY} | {t[k] for t in timed for k in ("On", "Off")})
    for a, z in zip(edges, edges[1:]):
        power = json.loads(json.dumps(b["Always"]))
        for t in timed:
            if t["On"] <= a < t["Off"]:
                for key in ("Water", "Air", "Fan", "Mist"):
                    power[key] += t["Heat"][key]
                power["Panes"] = [p + q for p, q in zip(power["Panes"], t["Heat"]["Panes"])]
        full = [3600.0 * k for k in range(25) if a < 3600 * k <= z]
        sol = solve_ivp(rates, (a, z), y, method="LSODA", args=(power,), t_eval=sorted(set(full) | {z}), rtol=1e-9,
                        atol=[1e-8, 1e-8, 1e-11] + [1e-8] * n + [1e-10] * n, max_step=60)
        if not sol.success:
            raise SystemExit(sol.message)
        for k, t in enumerate(sol.t):
            if t in full:
                hours.append([float(v) for v in sol.y[:, k]])
        y = sol.y[:, -1]
    return {"Ended": True, "Hours": hours}


print(json.dumps([course(c) if c["Course"] else steady(c) for c in json.load(sys.stdin)]))
