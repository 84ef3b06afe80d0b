#!/usr/bin/env python3
"""Runs the plain-text cases of cases/ through the built program.

    tools/cases.py PROGRAM [FILE_OR_FOLDER...]     default: cases/
    tools/cases.py --self-test

A case is lines that a coach can read:

    # A high draw with a seven iron.
    $ strikewright flight --ball-speed 54mps --launch-angle 17deg --spin 6800rpm --json
    near carry_m 150 3
    must "carry_m"
    must not nan

    `$ strikewright ARGS [< FILE]`  runs the program in the top folder; the lines below it speak about this run.
                                    {tmp} in ARGS is a folder that is empty when the case begins.
    `exit N`                        the exit code (0 when the line is left out)
    `must TEXT`, `must not TEXT`    what it prints, on either stream, holds or does not hold TEXT
    `near KEY VALUE TOLERANCE`      the number at KEY of the JSON on standard output; KEY as in patterns[0].mean.low_point_mm.mean
    `same KEY VALUE`                the text, truth value or null at KEY
    `silent`                        nothing on standard error
"""
import json
import re
import shlex
import stat
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SECONDS = 60  # a run that takes longer hangs


class BadCase(Exception):
    """The case itself is written wrongly."""


def value_at(document, key):
    at = document
    for part in re.findall(r"[^.\[\]]+", key):
        try:
            at = at[int(part)] if isinstance(at, list) else at[part]
        except (KeyError, IndexError, ValueError, TypeError):
            raise LookupError(f"there is no {part!r} on the way to {key}") from None
    return at


def steps_of(text, name):
    """[(line number, command, [(line number, expectation)])]"""
    steps = []
    for number, line in enumerate(text.splitlines(), 1):
        line = line.strip()
        if not line or line.startswith("#"):
            continue
        if line.startswith("$"):
            steps.append((number, line[1:].strip(), []))
        elif steps:
            steps[-1][2].append((number, line))
        else:
            raise BadCase(f"{name}:{number}: '{line}' stands before any '$ strikewright' line")
    if not steps:
        raise BadCase(f"{name}: no '$ strikewright' line")
    return steps


def run(command, program, folder, place):
    words = [word.replace("{tmp}", folder) for word in shlex.split(command)]
    if not words or words[0] != "strikewright":
        raise BadCase(f"{place}: a run begins with 'strikewright'")
    given = None
    if "<" in words:
        at = words.index("<")
        given, words = (ROOT / words[at + 1]).read_bytes(), words[:at]
    try:
        return subprocess.run([str(program)] + words[1:], cwd=ROOT, input=given if given is not None else b"",
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE, timeout=SECONDS, check=False)
    except subprocess.TimeoutExpired:
        raise BadCase(f"{place}: still running after {SECONDS} s") from None


def judge(line, out, err, place):
    """A sentence on how the run disappoints this expectation, or None."""
    word, _, rest = line.partition(" ")
    if word == "must":
        unwanted = rest.startswith("not ")
        text = rest[4:] if unwanted else rest
        if (text in out or text in err) == unwanted:
            return f"the output {'holds' if unwanted else 'does not hold'} '{text}'"
        return None
    if word == "silent":
        return f"standard error says '{err.strip()[:200]}'" if err.strip() else None
    if word not in ("near", "same"):
        raise BadCase(f"{place}: '{word}' is none of: exit, must, must not, near, same, silent")
    try:
        found = value_at(json.loads(out), rest.split()[0])
    except (json.JSONDecodeError, LookupError) as fault:
        return str(fault)
    if word == "same":
        wanted = rest.split(None, 1)[1]
        text = found if isinstance(found, str) else json.dumps(found)
        return None if text == wanted else f"{rest.split()[0]} is {text}, not {wanted}"
    try:
        key, wanted, tolerance = rest.split()
        wanted, tolerance = float(wanted), float(tolerance)
    except ValueError:
        raise BadCase(f"{place}: wanted 'near KEY VALUE TOLERANCE'") from None
    if isinstance(found, bool) or not isinstance(found, (int, float)):
        return f"{key} is {json.dumps(found)[:80]}, not a number"
    return None if abs(found - wanted) <= tolerance else f"{key} is {found:g}, not {wanted:g} ± {tolerance:g}"


def faults_of(step, program, folder, name):
    number, command, expectations = step
    wanted_exit, faults = 0, []
    done = run(command, program, folder, f"{name}:{number}")
    out, err = done.stdout.decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace")
    for at, line in expectations:
        if line.startswith("exit "):
            wanted_exit = int(line.split()[1])
            continue
        fault = judge(line, out, err, f"{name}:{at}")
        if fault:
            faults.append(f"{name}:{at}: {fault}")
    if done.returncode != wanted_exit:
        said = (err or out).strip()[:300]
        faults.append(f"{name}:{number}: exit code {done.returncode}, not {wanted_exit}; it said: {said}")
    return faults


def run_file(path, program, name):
    """(passed, [faults])"""
    passed, faults = 0, []
    try:
        with tempfile.TemporaryDirectory() as folder:
            for step in steps_of(path.read_text(encoding="utf-8"), name):
                wrong = faults_of(step, program, folder, name)
                passed += not wrong
                if wrong:
                    faults.append("\n".join([f"$ {step[1]}"] + wrong))
    except BadCase as fault:
        faults.append(str(fault))
    except OSError as fault:
        faults.append(f"{name}: {fault}")
    return passed, faults


def self_test():
    """A stand-in program, and cases that must pass and must fail."""
    talk = '#!/bin/sh\necho \'{"a": {"b": [1.5, null]}, "t": "left"}\'\necho warned >&2\ncat\nexit "${1:-0}"\n'
    trials = [
        ("$ strikewright\nnear a.b[0] 1.4 0.11\nsame t left\nsame a.b[1] null\nmust warned", True),
        ("# talk\n$ strikewright 3\nexit 3\nmust not broken\n", True),
        ("$ strikewright 0 < README.md\nmust Strikewright", True),
        ("$ strikewright 3", False),
        ("$ strikewright\nexit 1", False),
        ("$ strikewright\nnear a.b[0] 1.4 0.09", False),
        ("$ strikewright\nnear a.b[1] 0 1", False),
        ("$ strikewright\nnear a.c 0 1", False),
        ("$ strikewright\nmust not warned", False),
        ("$ strikewright\nmust quiet", False),
        ("$ strikewright\nsilent", False),
        ("$ strikewright\nsame t right", False),
        ("$ strikewright\nmutter x", False),
        ("$ rm x", False),
        ("must x", False),
        ("", False),
    ]
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        program, case = Path(folder) / "program", Path(folder) / "a.case"
        program.write_text(talk, encoding="utf-8")
        program.chmod(program.stat().st_mode | stat.S_IXUSR)
        for text, good in trials:
            case.write_text(text, encoding="utf-8")
            faults = run_file(case, program, "a.case")[1]
            if bool(faults) == good:
                wrong += 1
                print(f"self-test: {text!r}: {faults if good else 'should have failed'}")
    print(f"{len(trials) - wrong} passed, {wrong} failed")
    return 1 if wrong else 0


def main():
    if "--self-test" in sys.argv[1:]:
        return self_test()
    if len(sys.argv) < 2:
        print(__doc__)
        return 2
    program = Path(sys.argv[1]).resolve()
    places = [Path(p).resolve() for p in sys.argv[2:]] or [ROOT / "cases"]
    files = sorted(f for p in places for f in (p.rglob("*.case") if p.is_dir() else [p]))
    passed, failed = 0, 0
    for path in files:
        name = str(path.relative_to(ROOT)) if path.is_relative_to(ROOT) else path.name
        good, faults = run_file(path, program, name)
        passed, failed = passed + good, failed + len(faults)
        for fault in faults:
            print(fault)
    if not files:
        print("no cases found")
        failed += 1
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
