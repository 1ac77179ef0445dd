"""Peaks of this machine, and the least time that some counted work can take on it."""

import subprocess
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
# Bytes that a cache fetches together.
LINE = 64


def peaks():
    """What one thread can do at most, by name: rates a second, of the small program beside."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["cc", "-O2", "-o", f"{folder}/peaks", HERE / "peaks.c"], check=True)
        output = subprocess.run([f"{folder}/peaks"], check=True, stdout=subprocess.PIPE, text=True).stdout
    return {name: float(rate) for name, rate in map(str.split, output.splitlines())}


def best_of(several):
    """The best that several measurements of the peaks found."""
    return {name: max(one[name] for one in several) for name in several[0]}


def floors_ms(done, peak):
    """The least time that this work can take by each of its bounds, ms. Loads and stores go side by side."""
    divisions = ("wide quotients", "quotients", "wide roots", "roots")
    loads = max(peak["loads"], peak["whole_loads"])
    return {
        "flops": 1e3 * (done["flops"] - done["divided"]) / peak["flops"],
        "divisions": 1e3 * sum(done[name] / peak[name.replace(" ", "_")] for name in divisions),
        "bytes": 1e3 * max(done["read"] / peak["bytes_read"], done["written"] / peak["bytes_written"]),
        "farther bytes": 1e3 * LINE * (done["missed data"] + done["missed code"]) / peak["bytes_from_farther"],
        "accesses": 1e3 * max(done["reads"] / loads, done["writes"] / peak["stores"]),
        "instructions": 1e3 * done["instructions"] / peak["instructions"],
    }
