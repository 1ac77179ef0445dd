"""Which kernel of the integration a function belongs to, by the name of its object file and its demangled name."""

import re

# The first that is found in a name of our own program is its kernel. A kind of law, and each other work on registers, is a
# function of its own, since what uses wider registers is not inlined into what does not (`Register::work`).
OURS = [
    (r"values::Adding<.*?(\w+|\(usize, f64\)), \d+, \d+>", r"values: \1"),
    (r"jacobian::Adding<.*?(\w+|\(usize, f64\)), \d+, \d+>", r"slopes: \1"),
    (r"factor::Factoring", "factoring"),
    (r"factor::Solving|Factor.*>::solve", "solving"),
    (r"stage_sums::", "stage sums"),
    (r"balance::pressures|nalgebra", "pressures"),
    (r"symbolic::|factor::|jacobian::Pattern|structure::|::groups|>::(new|of)\b|sort::|BinaryHeap|as core::clone::Clone>|drop_in_place",
     "preparation"),
    (r"solver::sampler|trace::", "samples"),
    (r"coldsoak::balance|surroundings::Curve", "around the laws"),
]
OTHERS = [("libm", "powers and logarithms (libm)"), ("libc", "memory (libc)")]
REST = "pace and the rest"


def of(file, name):
    """The kernel of a function."""
    if file.startswith("effort-"):
        for pattern, called in OURS:
            if found := re.search(pattern, name):
                return found.expand(called)
        return REST
    return next((called for start, called in OTHERS if file.startswith(start)), REST)
