"""How often each instruction of a program is done (callgrind), what it is (objdump), and where time goes (perf)."""

import re
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from pathlib import Path

# Of the instructions done, at most this part may stand where the disassembly has none.
LOST = 1e-4
# Accesses read off the text of instructions may differ by this part from those that callgrind saw.
ASTRAY = 0.01


def executed(command, within):
    """For each object file: what callgrind counts (EVENTS) of the instruction at each of its addresses, all within the
    function of this mangled name."""
    with tempfile.TemporaryDirectory() as folder:
        words = ["valgrind", "--tool=callgrind", "--cache-sim=yes", "--dump-instr=yes", "--compress-pos=no",
                 "--compress-strings=no", "--demangle=no", f"--callgrind-out-file={folder}/out",
                 f"--toggle-collect={within}", *command]
        subprocess.run(words, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        lines = Path(folder, "out").read_text().splitlines()
    counts, place, names, total, of_a_call = defaultdict(lambda: defaultdict(Counter)), None, [], [0], False
    for line in lines:
        if line.startswith("0x"):
            if not of_a_call:
                address, _, *some = line.split()
                counts[place][int(address, 16)].update(dict(zip(names, map(int, some))))
            of_a_call = False
        elif line.startswith("calls="):
            of_a_call = True
        elif line.startswith("ob="):
            place = line[3:]
        elif line.startswith("events: "):
            names = line.split()[1:]
        elif line.startswith("summary: "):
            total = list(map(int, line.split()[1:]))
    found = sum((of for at in counts.values() for of in at.values()), Counter())
    if total[0] == 0 or [found[name] for name in names] != total:
        sys.exit(f"callgrind counted {total} within {within}, and lists {found}")
    return counts


def disassembled(file, wanted):
    """The text and the mangled function of each of these addresses of an object file."""
    words = ["objdump", "-d", "-M", "intel", "--no-show-raw-insn", file]
    found, function = {}, ""
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as listing:
        for line in listing.stdout:
            if header := re.match(r"[0-9a-f]+ <(.+)>:$", line):
                function = header.group(1)
                continue
            address, colon, text = line.partition(":\t")
            if colon and (at := int(address, 16)) in wanted:
                found[at] = (text.strip(), function)
    return found


def demangled(names):
    """Names as they are written, without the hashes of crates and the types of constants."""
    output = subprocess.run(["c++filt"], input="\n".join(names), check=True, stdout=subprocess.PIPE, text=True).stdout
    plain = re.sub(r"\[[0-9a-f]{6,16}\]|: (?:usize|bool)", "", output).splitlines()
    return dict(zip(names, plain, strict=True))


def by_function(command, within, work):
    """What is done by each function, (name of its object file, demangled name): the sum of `work(text)` over the instructions
    done, and the lines that the nearest caches of callgrind's simulation did not have, `missed data` and `missed code`."""
    done, lost, seen = defaultdict(Counter), 0, Counter()
    for file, at_all in executed(command, within).items():
        texts = disassembled(file, at_all)
        names = demangled(sorted({function for _, function in texts.values()}))
        for at, events in at_all.items():
            seen.update(events)
            if at not in texts:
                lost += events["Ir"]
                continue
            text, function = texts[at]
            of = done[Path(file).name, names[function]]
            for what, how_much in work(text).items():
                of[what] += events["Ir"] * how_much
            of["missed data"] += events["D1mr"] + events["D1mw"]
            of["missed code"] += events["I1mr"]
    if lost > LOST * seen["Ir"]:
        sys.exit(f"{lost} of {seen['Ir']} instructions stand where objdump has none")
    whole = sum(done.values(), Counter())
    for what, event in (("reads", "Dr"), ("writes", "Dw")):
        read_off = whole[what] + whole["repeated " + what]
        if abs(read_off - seen[event]) > ASTRAY * seen[event]:
            sys.exit(f"by their text instructions make {read_off} {what}, by callgrind {seen[event]}")
    return done


def sampled(command):
    """How many of perf's samples of the processor's time fall into each function, (name of its object file, demangled
    name); none without perf."""
    with tempfile.TemporaryDirectory() as folder:
        words = ["perf", "record", "-q", "-e", "cpu-clock:u", "-F", "5000", "-o", f"{folder}/data", *command]
        try:
            subprocess.run(words, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        except (OSError, subprocess.CalledProcessError):
            return Counter()
        words = ["perf", "report", "-i", f"{folder}/data", "--stdio", "--no-demangle", "-n", "-t", "|", "--sort", "dso,symbol"]
        output = subprocess.run(words, check=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True).stdout
    samples = Counter()
    for line in output.splitlines():
        if line.strip() and not line.startswith("#"):
            _, count, file, symbol = map(str.strip, line.split("|")[:4])
            samples[file, symbol.partition("] ")[2].strip()] += int(count)
    names = demangled(sorted({symbol for _, symbol in samples}))
    return Counter({(file, names[symbol]): count for (file, symbol), count in samples.items()})
