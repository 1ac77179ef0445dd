"""What one instruction does, read off its text as objdump writes it (Intel syntax): flops, bytes, and of what kind it is."""

import re
from collections import Counter

# What an operand in memory is called by its width, and how many bytes that is.
WIDTHS = {"BYTE": 1, "WORD": 2, "DWORD": 4, "FWORD": 6, "QWORD": 8, "TBYTE": 10, "XMMWORD": 16, "YMMWORD": 32, "ZMMWORD": 64}
PREFIXES = {"rep", "repz", "repnz", "lock", "bnd", "notrack", "data16", "cs", "ds", "es", "fs", "gs", "ss"}
ARITHMETIC = re.compile(r"v?(add|sub|mul|div|sqrt|hadd|hsub|addsub)(sd|pd)$")
FUSED = re.compile(r"vf(n?m(?:add|sub)|maddsub|msubadd)(?:132|213|231)(sd|pd)$")
NO_MEMORY = re.compile(r"lea$|nop|prefetch|endbr|clflush")
ONLY_WRITES = re.compile(r"v?mov|set|v?p?extract|v?pextr|stos|st|fn?st|fist|v?pmaskmov|vmaskmov|xsave|fxsave")
ONLY_READS = re.compile(r"cmp|test|bt$|jmp|i?mul$|i?div$|v?ldmxcsr|fld|fild|xrstor|fxrstor|scas|lods")
LANES = re.compile(r"v?p?(unpck|shuf|perm|insert|insr|extr|broadcast|mov[hl]|movddup|blend[dp]|alignr)")
CHOICES = re.compile(r"v?(cmp\w*[sp]d$|u?comis|min[sp]d|max[sp]d|blendv|andn?p|x?orp|pcmp|cvt|round|movmsk|ptest|testp)")
MOVES = re.compile(r"v?mov|push|pop|cmov|stos|xchg|leave")
JUMPS = re.compile(r"j|call|ret|loop")
# Of what kind instructions are, in the order in which they are listed.
KINDS = ["sums and products", "quotients and roots", "between lanes", "choices", "moves", "jumps", "whole numbers and addresses"]


def parted(operands):
    """The operands one by one: commas in brackets part nothing."""
    return [part.strip() for part in re.split(r",(?![^\[]*\])", operands)] if operands else []


def lanes(suffix, operands):
    if suffix == "sd":
        return 1
    widest = max((letter for letter in "xyz" if any(letter + "mm" in part.lower() for part in operands)), default="x")
    return {"x": 2, "y": 4, "z": 8}[widest]


def moved(name, operands):
    """Bytes read and written, and by how many accesses each."""
    read, written = [], []
    if name in ("push", "call"):
        written.append(8)
    if name in ("pop", "ret", "leave"):
        read.append(8)
    if NO_MEMORY.match(name):
        return read, written
    for place, operand in enumerate(operands):
        width = re.search(r"(\w+) (?:PTR|BCST) ", operand)
        if not width:
            continue
        size = WIDTHS[width.group(1)]
        if "gather" in name:
            read += [size] * lanes("pd", operands)
        elif place > 0 or name in ("push", "call") or ONLY_READS.match(name):
            read.append(size)
            if name in ("xchg", "xadd"):
                written.append(size)
        else:
            written.append(size)
            if name != "pop" and not ONLY_WRITES.match(name):
                read.append(size)
    return read, written


def kind(name):
    if ARITHMETIC.match(name) or FUSED.match(name):
        return KINDS[1] if re.search("div|sqrt", name) else KINDS[0]
    for pattern, called in ((LANES, KINDS[2]), (CHOICES, KINDS[3]), (MOVES, KINDS[4]), (JUMPS, KINDS[5])):
        if pattern.match(name):
            return called
    return KINDS[6]


def work(text):
    """What an instruction does when it is done once, as a Counter: `flops`, of these `in fours` and `in pairs`; `wide
    quotients`, `quotients`, `wide roots` and `roots` (instructions), `divided` (lanes of these four); `read` and `written`
    (bytes), `reads` and `writes` (accesses); and one of its KIND. One round of a repeated instruction, of which a processor
    does many at once, is `repeated` and moves bytes, and is nothing else."""
    words, repeated = re.sub(r"\s*[#<].*", "", text).split(None, 1), False
    while words[0] in PREFIXES and len(words) > 1:
        repeated |= words[0].startswith("rep")
        words = words[1].split(None, 1)
    name, operands = words[0], parted(words[1] if len(words) > 1 else "")
    read, written = moved(name, operands)
    does = Counter(read=sum(read), written=sum(written))
    if repeated and name not in ("ret", "nop"):
        does.update({"repeated": 1, "repeated reads": len(read), "repeated writes": len(written)})
        return does
    does.update({"instructions": 1, kind(name): 1, "reads": len(read), "writes": len(written)})
    if found := ARITHMETIC.match(name) or FUSED.match(name):
        verb, wide = found.group(1), lanes(found.group(2), operands)
        does["flops"] = wide * (2 if name.startswith("vf") else 1)
        if wide > 1:
            does["in fours" if wide == 4 else "in pairs"] = does["flops"]
        if verb in ("div", "sqrt"):
            does[("wide " if wide > 1 else "") + {"div": "quotients", "sqrt": "roots"}[verb]] = 1
            does["divided"] = wide
    return does
