#!/usr/bin/env python3
"""The built-in nights, integrated by general-purpose integrators and compared with what coldsoak itself finds.

The right-hand side is coldsoak's own (`examples/rates.rs`, asked over a pipe); how it is carried through time is not:
SciPy's Radau and BDF (Hairer and Wanner's Radau IIA; Shampine and Reichelt's NDF) and SUNDIALS' CVODE (by
scikit-sundae), at tolerances far tighter than what is asserted. Hours and thermostats are followed here anew; where
thermostats act, what one switching is late by adds up over the night, so temperatures are compared in a second
integration that switches when coldsoak did.

    integrate.py [--rates PATH] [--method NAME ...] [--night NAME ...] [--loose TOLERANCE ...]

With `--loose` nothing is asserted: for scale, what a night costs by them (CPU of the interpreter, and of the program
that is asked) and how wrong against coldsoak's own
(itself right to some mK), at tolerances of the kind that `benches/peers` gives its integrators.

Asserted at every sample of every night: temperatures to 0.01 K, films and the water in the oil to 0.01 g; every time
a part comes to its threshold, and every switching, to 5 s. With COLDSOAK_VERIFICATION naming a folder, the errors
found are appended to its `checks.tsv`, as the tests do it (`tests/kit/record.rs`).
"""

import argparse
import json
import os
import resource
import subprocess
import sys
import time
from importlib.metadata import version
from pathlib import Path

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

ROOT = Path(__file__).resolve().parents[2]
RTOL, ATOL = 1e-8, 1e-8
# What a tolerance of one allows, as in `benches/peers`: relative, and in K, g, g/m3.
WEIGHTS = {"rtol": 1e-2, "K": 1.0, "g": 1e-2, "g/m3": 1e-1}
# Moments closer than this are one, s (as in coldsoak's own march).
SAME_MOMENT_S = 1e-6
TEMPERATURE_K, WATER_G, TIME_S = 0.01, 0.01, 5.0
KELVIN = {"CellTemperature", "PocketTemperature", "GasTemperature", "HangarTemperature"}
GRAMS = {"Film", "OilWater"}
# Every built-in night, and the first without its heater.
NIGHTS = [
    "block-cooling",
    "demo unheated",
    "demo",
    "small-engine-top",
    "six-after-flight",
    "radial-underneath",
    "thermostat-pad",
]
SOURCES = {
    "Radau": f"SciPy {version('scipy')}, Radau IIA of order 5",
    "BDF": f"SciPy {version('scipy')}, NDF of orders 1 to 5",
    "CVODE": f"SUNDIALS CVODE, BDF of orders 1 to 5, by scikit-sundae {version('scikit-sundae')}",
}


class Night:
    """A night's right-hand side, asked over a pipe."""

    def __init__(self, rates, name):
        self.process = subprocess.Popen([rates, *name.split()], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        line = self.process.stdout.readline()
        if not line:
            sys.exit(f"{rates} {name} gave nothing")
        self.told = json.loads(line)
        self.size = len(self.told["initial"])
        self.asked = 0

    def _ask(self, kind, t, y, count):
        self.asked += 1
        pipe = self.process
        pipe.stdin.write(kind + np.float64(t).tobytes() + np.asarray(y, dtype="<f8").tobytes())
        pipe.stdin.flush()
        answer = pipe.stdout.read(8 * count)
        if len(answer) < 8 * count:
            sys.exit("the right-hand side could not be computed")
        return np.frombuffer(answer, dtype="<f8")

    def rates(self, t, y):
        return self._ask(b"r", t, y, self.size)

    def slopes(self, t, y):
        return self._ask(b"j", t, y, self.size**2).reshape(self.size, self.size)

    def switch(self, heater, on):
        self.process.stdin.write(b"s" + bytes([heater, int(on)]))

    def close(self):
        self.process.stdin.close()
        if self.process.wait() != 0:
            sys.exit("the right-hand side ended in an error")


class Heaters:
    """Which heaters are plugged in, and which their thermostats call for."""

    def __init__(self, night, given=None):
        self.night = night
        self.given = given
        self.heaters = night.told["heaters"]
        self.plugged = [False] * len(self.heaters)
        self.called = [False] * len(self.heaters)
        self.made = []

    def felt(self, heater, y):
        return sum(weight * y[column] for column, weight in self.heaters[heater]["thermostat"]["columns"])

    def set(self, heater, on, t):
        self.night.switch(heater, on)
        self.made.append((t, heater, on))

    def follow_hours(self, t, y):
        if self.given is not None:
            for made in self.given:
                if abs(made["time_s"] - t) < SAME_MOMENT_S:
                    self.set(made["heater"], made["on"], made["time_s"])
            return
        for number, heater in enumerate(self.heaters):
            plugged = any(on <= t < off for on, off in heater["spans_s"])
            if plugged == self.plugged[number]:
                continue
            was_on = self.plugged[number] and self.called[number]
            self.plugged[number] = plugged
            if plugged:
                sensor = heater["thermostat"]
                self.called[number] = sensor is None or self.felt(number, y) < sensor["hi_c"]
            on = plugged and self.called[number]
            if on != was_on:
                self.set(number, bool(on), t)

    def watched(self):
        """Functions of time and state that cross zero downwards where a thermostat acts."""
        found = []
        for number, heater in enumerate(self.heaters):
            if self.plugged[number] and heater["thermostat"]:
                found.append((number, self.called[number]))
        return found

    def distance(self, heater, called, y):
        sensor, felt = self.heaters[heater]["thermostat"], self.felt(heater, y)
        return sensor["hi_c"] - felt if called else felt - sensor["lo_c"]

    def flip(self, heater, t):
        self.called[heater] = not self.called[heater]
        self.set(heater, self.called[heater], t)


def with_scipy(method):
    """A span of the night by SciPy: states at the times asked, and the thermostat that ends it early, if one does."""

    def span(night, heaters, t0, t1, y0, wanted):
        def event(heater, called):
            def crossing(_, y):
                return heaters.distance(heater, called, y)

            crossing.terminal, crossing.direction = True, -1
            return crossing

        watched = heaters.watched()
        found = solve_ivp(
            night.rates,
            (t0, t1),
            y0,
            method=method,
            t_eval=np.append(wanted, t1),
            events=[event(*w) for w in watched],
            jac=night.slopes,
            rtol=RTOL,
            atol=ATOL,
        )
        if not found.success:
            sys.exit(f"{method}: {found.message}")
        values = np.reshape(found.y, (len(y0), -1)).T
        if found.status == 1:
            which = next(i for i, times in enumerate(found.t_events) if len(times))
            return found.t, values, found.t_events[which][0], found.y_events[which][0], watched[which][0]
        return found.t[:-1], values[:-1], t1, values[-1], None

    return span


def with_cvode(night, heaters, t0, t1, y0, wanted):
    """The same by SUNDIALS' CVODE."""
    from sksundae.cvode import CVODE

    def rates(t, y, out):
        out[:] = night.rates(t, y)

    def slopes(t, y, _, out):
        out[:, :] = night.slopes(t, y)

    watched = heaters.watched()
    options = {}
    if watched:

        def events(_, y, out):
            out[:] = [heaters.distance(heater, called, y) for heater, called in watched]

        events.terminal = [True] * len(watched)
        events.direction = [-1] * len(watched)
        options = {"eventsfn": events, "num_events": len(watched)}
    solver = CVODE(
        rates, jacfn=slopes, method="BDF", rtol=RTOL, atol=ATOL, max_num_steps=100_000, **options
    )
    found = solver.solve(np.concatenate(([t0], wanted, [t1])), np.array(y0))
    if not found.success:
        sys.exit(f"CVODE: {found.message}")
    if found.t_events is not None and len(found.t_events):
        when, there = found.t_events[0], found.y_events[0]
        which = int(np.argmin([abs(heaters.distance(h, c, there)) for h, c in watched]))
        keep = np.isin(found.t, wanted[wanted < when])
        return found.t[keep], found.y[keep], when, there, watched[which][0]
    # Asked for no more than the two ends, it gives its own steps.
    keep = np.isin(found.t, wanted)
    return found.t[keep], found.y[keep], t1, found.y[-1], None


METHODS = {"Radau": with_scipy("Radau"), "BDF": with_scipy("BDF"), "CVODE": with_cvode}


def integrate(night, method, given=None):
    """The whole night: states at coldsoak's samples, and the switchings (these, where they are given)."""
    told = night.told
    edges = [edge for heater in told["heaters"] for span in heater["spans_s"] for edge in span]
    edges += [made["time_s"] for made in given or []]
    stops = sorted({s for s in edges + told["kinks_s"] + [told["end_s"]] if 0.0 < s <= told["end_s"]})
    stops = [s for i, s in enumerate(stops) if i + 1 == len(stops) or stops[i + 1] - s > SAME_MOMENT_S]
    samples = np.array(told["times_s"])
    heaters = Heaters(night, given)
    t, y = 0.0, np.array(told["initial"])
    times, states = [0.0], [y]
    for stop in stops:
        heaters.follow_hours(t, y)
        while t < stop:
            wanted = samples[(samples > t) & (samples < stop)]
            seen, values, t, y, acted = METHODS[method](night, heaters, t, stop, y, wanted)
            times.extend(seen)
            states.extend(values)
            if acted is not None:
                heaters.flip(acted, t)
        if stop in told["times_s"]:
            times.append(stop)
            states.append(y)
    times = np.array(times)
    if not np.array_equal(times, samples):
        sys.exit(f"{method}: {len(times)} states for {len(samples)} samples")
    return times, np.array(states), heaters.made


def crossings(night, times, states, switchings, columns, threshold, begun):
    """The last and the first rise of the coldest of some columns through a threshold, s after `begun`.

    Between samples each column is the cubic with the integrator's own values and coldsoak's rates at both ends.
    """
    coldest = states[:, columns].min(axis=1)
    looked = np.flatnonzero(times >= begun - SAME_MOMENT_S)
    below = coldest[looked] < threshold
    if not below.any():
        return 0.0, 0.0
    warm = not below[0]
    rises = [looked[i] for i in range(len(looked) - 1) if below[i] and not below[i + 1]]

    def when(k):
        t0, t1 = times[k], times[k + 1]
        for heater in range(len(night.told["heaters"])):
            made = [on for t, which, on in switchings if which == heater and t < 0.5 * (t0 + t1)]
            night.switch(heater, bool(made and made[-1]))
        ends = [(states[j], night.rates(times[j], states[j])) for j in (k, k + 1)]

        def over(t):
            s, h = (t - t0) / (t1 - t0), t1 - t0
            (y0, r0), (y1, r1) = ends
            cubic = (
                (1 + 2 * s) * (1 - s) ** 2 * y0 + s * (1 - s) ** 2 * h * r0
                + s * s * (3 - 2 * s) * y1 + s * s * (s - 1) * h * r1
            )
            return cubic[columns].min() - threshold

        return brentq(over, t0, t1) - begun

    first = 0.0 if warm else when(rises[0]) if rises else None
    held = None if below[-1] else when(rises[-1])
    return held, first


class Record:
    """Errors found, told, kept and judged."""

    def __init__(self, night, method):
        self.name, self.source, self.failed = f"integrate.py::{night} by {method}", SOURCES[method], False

    def check(self, what, tolerance, error):
        good = error <= tolerance
        self.failed |= not good
        print(f"  {what}: {error:.2e}, allowed {tolerance}{'' if good else '  <-- TOO FAR'}")
        folder = os.environ.get("COLDSOAK_VERIFICATION")
        if folder:
            table = Path(folder) / "checks.tsv"
            table.parent.mkdir(parents=True, exist_ok=True)
            with table.open("a") as out:
                if out.tell() == 0:
                    out.write("test\twhat\tsource\ttolerance\terror\n")
                out.write(f"{self.name}\t{what}\t{self.source}\t{tolerance}\t{error}\n")


def compare(rates, name, method):
    """Integrates one night by one method; whether coldsoak agrees."""
    night = Night(rates, name)
    told = night.told
    begun = time.monotonic()
    times, states, switchings = integrate(night, method)
    took, asked = time.monotonic() - begun, night.asked
    print(f"{name} by {method}: {night.size} states, {asked} questions, {took:.1f} s; coldsoak took {told['steps']} steps")
    record = Record(name, method)
    compared = states
    if any(heater["thermostat"] for heater in told["heaters"]):
        for heater in range(len(told["heaters"])):
            night.switch(heater, False)
        _, compared, _ = integrate(night, method, told["switchings"])
    apart = np.abs(compared - np.array(told["samples"]))
    for kinds, what, tolerance in [
        (KELVIN, "temperatures, K", TEMPERATURE_K),
        (GRAMS, "films and water in the oil, g", WATER_G),
    ]:
        columns = [i for i, c in enumerate(told["columns"]) if c["kind"] in kinds]
        if columns:
            worst = np.unravel_index(apart[:, columns].argmax(), (len(times), len(columns)))
            print(f"  the furthest is {told['columns'][columns[worst[1]]]['key']} at {times[worst[0]] / 3600:.3f} h")
            record.check(what, tolerance, float(apart[:, columns].max()))
    own = [(s["time_s"], s["heater"], s["on"]) for s in told["switchings"]]
    if [s[1:] for s in own] != [s[1:] for s in switchings]:
        print(f"  other switchings: {own} here, {switchings} there")
        record.failed = True
    elif own:
        record.check(f"times of {len(own)} switchings, s", TIME_S, max(abs(a[0] - b[0]) for a, b in zip(own, switchings)))
    begun = next((s[0] for s in switchings if s[2]), 0.0)
    furthest, counted = 0.0, 0
    for part in told["parts"]:
        found = crossings(night, times, states, switchings, part["columns"], told["threshold_c"], begun)
        for mine, hours in zip(found, (part["hold_h"], part["first_h"])):
            if (mine is None) != (hours is None):
                print(f"  {part['part']}: {hours} h here, {mine} s there")
                record.failed = True
            elif mine is not None:
                furthest, counted = max(furthest, abs(mine - 3600.0 * hours)), counted + 1
    if counted:
        record.check(f"{counted} times to the threshold, s", TIME_S, furthest)
    night.close()
    return not record.failed


def loosely(rates, name, method, tolerance):
    """Tells what one night costs by one method at a looser tolerance, and how wrong its cells are."""
    global RTOL, ATOL

    def asked_s():
        used = resource.getrusage(resource.RUSAGE_CHILDREN)
        return used.ru_utime + used.ru_stime

    # The program marches its own night before it answers; that is not counted.
    before = asked_s()
    Night(rates, name).close()
    after = asked_s()
    night = Night(rates, name)
    if any(heater["thermostat"] for heater in night.told["heaters"]):
        sys.exit(f"{name}: what one switching is late by adds up, so coldsoak's own night is no measure at such tolerances")
    columns = night.told["columns"]
    units = ["K" if c["kind"] in KELVIN else "g" if c["kind"] in GRAMS else "g/m3" for c in columns]
    RTOL, ATOL = WEIGHTS["rtol"] * tolerance, tolerance * np.array([WEIGHTS[u] for u in units[: night.size]])
    begun = time.process_time()
    _, states, _ = integrate(night, method)
    here = time.process_time() - begun
    night.close()
    asked = asked_s() - after - (after - before)
    cells = [i for i, c in enumerate(columns) if c["kind"] == "CellTemperature"]
    error = np.abs(states - np.array(night.told["samples"]))[:, cells].max()
    print(f"{name} by {method} at {tolerance:g}: {1e3 * here:.0f} ms here, {1e3 * asked:.0f} ms asked, {error:.4f} K, {night.asked} questions")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--rates", default=str(ROOT / "target/release/examples/rates"), help="the built example")
    parser.add_argument("--method", nargs="+", choices=list(METHODS), help="all, but Radau where a thermostat acts")
    parser.add_argument("--night", nargs="+", default=NIGHTS, help='such as demo or "demo unheated"')
    parser.add_argument("--loose", nargs="+", type=float, default=[], help="tell costs at these tolerances, assert nothing")
    chosen = parser.parse_args()
    for tolerance in chosen.loose:
        for night in chosen.night:
            for method in chosen.method or METHODS:
                loosely(chosen.rates, night, method, tolerance)
    if chosen.loose:
        return
    # Restarted two hundred times, Radau takes as long for one night of a thermostat as all others together.
    asked = [
        (night, method)
        for night in chosen.night
        for method in chosen.method or METHODS
        if chosen.method or (night, method) != ("thermostat-pad", "Radau")
    ]
    agreed = [compare(chosen.rates, *one) for one in asked]
    if not all(agreed):
        sys.exit("coldsoak and the integrators do not agree")
    print(f"coldsoak and the integrators agree: {len(agreed)} nights, by {len({m for _, m in asked})} methods")


if __name__ == "__main__":
    main()
