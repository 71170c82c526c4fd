"""Says, room by room, which share of the mutants the tests found: `mutmut results --all true |`.

A mutant is one small change to the code. One that no test notices stands for a mistake that no
test would notice. The share of found ones must reach 85 % in each room.
"""

import sys
from collections import Counter
from collections.abc import Iterable

LEAST_PERCENT = 85


def found_and_tried(lines: Iterable[str]) -> tuple[Counter[str], Counter[str]]:
    """Count, per room, the mutants found and the mutants tried; one not tried counts nowhere."""
    found: Counter[str] = Counter()
    tried: Counter[str] = Counter()
    for line in lines:
        mutant, colon, outcome = line.strip().partition(": ")
        if colon and outcome not in {"not checked", "skipped"}:
            room = mutant.split(".")[1]
            tried[room] += 1
            found[room] += outcome in {"killed", "timeout", "segfault", "caught by type check"}
    return found, tried


def report(lines: Iterable[str]) -> int:
    """Print a line per room and return the exit code: 1 if a room is below, or none was tried."""
    found, tried = found_and_tried(lines)
    for room in sorted(tried):
        percent = 100 * found[room] / tried[room]
        print(f"{room}: {found[room]} of {tried[room]} mutants found, {percent:.1f} %")
    enough = all(100 * found[room] >= LEAST_PERCENT * tried[room] for room in tried)
    return 0 if tried and enough else 1


if __name__ == "__main__":
    sys.exit(report(sys.stdin))
