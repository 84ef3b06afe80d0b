#!/usr/bin/env python3
"""Reads every #include of the source tree and fails on an arrow that the order of the rooms does not allow.

A room (a folder in core/) may include itself and the rooms before it. Around the core: book/ and sheet/ see quantity/
alone, verbs/ the core and these two, serve/ these and verbs/, cli/ everything; nobody sees more of the book than
book/book.hpp, nor of the sheet than sheet/sheet.hpp, sheet/calendar.hpp and sheet/words.hpp.
The core is pure: no files, no printing, no clock; peers for comparison appear only in test/ folders.

    tools/include_map.py              prints the map, checks it
    tools/include_map.py --self-test  plants forbidden includes in a copy and must see each one caught
"""
import re
import sys
import tempfile
from pathlib import Path

ROOMS = ["quantity", "numeric", "bag", "swing", "delivery", "strike", "flight", "shot", "sighting", "reading", "cause", "exercise", "proof", "plan"]
# Around the core, upstream first: what each may see beside itself.
AROUND = {"book": {"quantity"}, "sheet": {"quantity"}, "verbs": {*ROOMS, "book", "sheet"},
          "serve": {*ROOMS, "book", "sheet", "verbs"}, "cli": {*ROOMS, "book", "sheet", "verbs", "serve"}}
# Of these, others see only the headers named here.
DOORS = {"book": ["book/book.hpp"], "sheet": ["sheet/sheet.hpp", "sheet/calendar.hpp", "sheet/words.hpp"]}
IMPURE = re.compile(
    r"<(fstream|iostream|ostream|istream|cstdio|stdio\.h|chrono|ctime|time\.h|filesystem|unistd\.h|sys/.*|random|CLI/.*)>")
PEERS = re.compile(r"<(boost/numeric/odeint.*|gsl/.*|Simbody\.h|simbody/.*|SimTK.*|benchmark/.*|doctest/.*|rapidcheck.*)>")
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"][^>"]+[>"])')


def includes_of(path):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        found = INCLUDE.match(line)
        if found:
            yield number, found.group(1)


def sources_of(folder):
    return sorted(p for p in folder.rglob("*") if p.suffix in (".hpp", ".cpp", ".ipp", ".h"))


def fault_of(root, path, target):
    """One sentence on what is wrong with `path` including `target`, or None."""
    parts = path.relative_to(root).parts
    in_core, in_test = parts[0] == "core", "test" in parts
    if target.startswith("<"):
        if in_core and not in_test and IMPURE.match(target):
            return f"the core is pure and may not use {target}"
        if in_core and not in_test and PEERS.match(target):
            return f"{target} is for tests and benchmarks only"
        return None
    name = target.strip('"')
    beside = (path.parent / name).is_file() or (parts[0] in AROUND and (root / parts[0] / name).is_file())
    if not (beside or (root / "core" / name).is_file() or (root / name).is_file()):
        return f"{target} is nowhere in the tree"
    to = name.split("/")[0]
    if in_core and not beside and to not in ROOMS:
        return f"the core may not see {target}"
    if parts[0] in AROUND and not beside and "/" in name and not in_test:
        if to != parts[0] and to not in AROUND[parts[0]]:
            return f"{parts[0]} may not see {target}"
        if to != parts[0] and name not in DOORS.get(to, [name]):
            return f"{parts[0]} may see no more of the {to} than {' and '.join(DOORS[to])}"
    if in_core and "/" in name and to in ROOMS and ROOMS.index(to) > ROOMS.index(parts[1]):
        return f"{parts[1]} comes before {to} and may not see it"
    return None


def check(root):
    """(faults, arrows): sentences, and for each room the rooms that it includes."""
    faults, arrows = [], {}
    for folder in sorted((root / "core").iterdir()):
        if folder.is_dir() and folder.name not in ROOMS:
            faults.append(f"core/{folder.name}: not a room that tools/include_map.py knows")
    for top in ("core", *AROUND):
        for path in sources_of(root / top) if (root / top).is_dir() else []:
            parts = path.relative_to(root).parts
            if top == "core" and (len(parts) < 3 or parts[1] not in ROOMS):
                continue
            place = parts[1] if top == "core" else top
            for number, target in includes_of(path):
                fault = fault_of(root, path, target)
                if fault:
                    faults.append(f"{path.relative_to(root)}:{number}: {fault}")
                to = target.strip('"').split("/")[0]
                if target.startswith('"') and (to in ROOMS or to in AROUND) and to != place and "test" not in parts:
                    arrows.setdefault(place, set()).add(to)
    return faults, arrows


def self_test():
    """Each planted line must be caught where it is forbidden and pass where it is allowed."""
    trials = [
        ("core/strike/a.hpp", '#include "flight/flight.hpp"', True),
        ("core/strike/test/a_test.cpp", '#include "flight/flight.hpp"', True),
        ("core/flight/a.cpp", '#include "strike/strike.hpp"', False),
        ("core/flight/a.cpp", "#include <fstream>", True),
        ("core/flight/a.cpp", "  #  include <chrono>", True),
        ("core/flight/test/a_test.cpp", "#include <fstream>", False),
        ("core/flight/a.hpp", "#include <gsl/gsl_odeiv2.h>", True),
        ("core/flight/a.hpp", "#include <boost/numeric/odeint.hpp>", True),
        ("core/flight/test/a_test.cpp", "#include <gsl/gsl_odeiv2.h>", False),
        ("core/flight/a.hpp", '#include "cli/main.hpp"', True),
        ("core/flight/a.hpp", '#include "flight/missing.hpp"', True),
        ("cli/a.cpp", '#include "flight/flight.hpp"', False),
        ("cli/a.cpp", '#include "book/book.hpp"', False),
        ("cli/a.cpp", '#include "book/schema.hpp"', True),
        ("book/a.cpp", '#include "flight/flight.hpp"', True),
        ("book/a.cpp", '#include "book/schema.hpp"', False),
        ("book/test/a_test.cpp", '#include "flight/flight.hpp"', False),
        ("sheet/a.cpp", '#include "book/book.hpp"', True),
        ("sheet/a.cpp", '#include "sheet/pen.hpp"', False),
        ("verbs/a.cpp", '#include "sheet/sheet.hpp"', False),
        ("verbs/a.cpp", '#include "sheet/pen.hpp"', True),
        ("verbs/a.cpp", '#include "cli/main.hpp"', True),
        ("core/flight/a.cpp", '#include "book/book.hpp"', True),
    ]
    wrong = 0
    for place, line, forbidden in trials:
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder)
            for name in ("core/strike/strike.hpp", "core/flight/flight.hpp", "cli/main.hpp", "book/book.hpp", "book/schema.hpp", "sheet/sheet.hpp",
                         "sheet/pen.hpp", place):
                (root / name).parent.mkdir(parents=True, exist_ok=True)
                (root / name).touch()
            (root / place).write_text(line + "\n", encoding="utf-8")
            caught = bool(check(root)[0])
            if caught != forbidden:
                wrong += 1
                print(f"self-test: {place} with {line}: {'not caught' if forbidden else 'caught, but allowed'}")
    print(f"{len(trials) - wrong} passed, {wrong} failed")
    return wrong


def main():
    if "--self-test" in sys.argv[1:]:
        return 1 if self_test() else 0
    faults, arrows = check(Path(__file__).resolve().parent.parent)
    order = [*ROOMS, *AROUND]
    for room in order:
        seen = sorted(arrows.get(room, ()), key=order.index)
        print(f"{room:>9} <- {' '.join(seen) if seen else '(nothing)'}")
    for fault in faults:
        print(fault)
    print(f"{0 if faults else 1} passed, {1 if faults else 0} failed")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
