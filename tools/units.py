#!/usr/bin/env python3
"""Runs the doctest programs of a build folder, as many at once as there are cores, and adds up their cases.

    tools/units.py BUILD_FOLDER [--long] [--shards N] [--only NAME,NAME...]

Cases in a TEST_SUITE named "long" run only with --long. Programs are split in N shards, so that one with much to do
does not leave the other cores idle.
"""
import json
import os
import re
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

SUMMARY = re.compile(r"test cases:\s*(\d+)\s*\|\s*(\d+) passed\s*\|\s*(\d+) failed")
SLOW_SECONDS = 5.0


def option(name, standard):
    return sys.argv[sys.argv.index(name) + 1] if name in sys.argv else standard


def programs_in(folder):
    """[(name, command, working folder)] as ctest knows them: a program no longer built is not run."""
    wanted = option("--only", "")
    listed = subprocess.run(["ctest", "--show-only=json-v1"], cwd=folder, stdout=subprocess.PIPE, check=True)
    for test in json.loads(listed.stdout)["tests"]:
        if wanted and test["name"] not in wanted.split(","):
            continue
        where = next((p["value"] for p in test["properties"] if p["name"] == "WORKING_DIRECTORY"), str(folder))
        yield test["name"], test.get("command", ["(not built)"]), where


def shards_of(program, suites, shards):
    """[(name, command, working folder, cases)] that together run every case of the program once."""
    name, command, where = program
    counted = subprocess.run(command + suites + ["--count"], cwd=where, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                             check=False)
    found = re.search(r"unskipped test cases passing the current filters: (\d+)", counted.stdout.decode("utf-8", "replace"))
    cases = int(found.group(1)) if found else 0
    pieces = max(1, min(shards, cases // 4))
    bounds = [cases * k // pieces for k in range(pieces + 1)]
    if pieces == 1:
        return [(name, command + suites, where, cases)]
    return [(f"{name} {low + 1}-{high}", command + suites + [f"--first={low + 1}", f"--last={high}"], where, high - low)
            for low, high in zip(bounds, bounds[1:])]


def run(shard):
    name, command, where, cases = shard
    begun = time.monotonic()
    try:
        done = subprocess.run(command + ["--duration=true", "--no-colors"], cwd=where, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, check=False)
        text, code = done.stdout.decode("utf-8", "replace"), done.returncode
    except OSError as fault:
        text, code = str(fault), 1
    found = SUMMARY.search(text)
    # doctest's own "passed" is of the whole program, whatever piece of it ran.
    failed = int(found.group(3)) if found else 0
    passed = cases - failed if found else 0
    if code != 0 and failed == 0:
        failed = 1  # ended before its own summary, or was stopped by a sanitizer
    return name, passed, failed, time.monotonic() - begun, text


def slow_cases(text):
    for seconds, case in re.findall(r"^(\d+\.\d+) s: (.*)$", text, re.MULTILINE):
        if float(seconds) > SLOW_SECONDS:
            yield f"    {float(seconds):.0f} s: {case}"


def main():
    folder = Path(sys.argv[1]).resolve()
    suites = [] if "--long" in sys.argv else ["--test-suite-exclude=long"]
    shards = int(option("--shards", "1"))
    work = [shard for program in programs_in(folder) for shard in shards_of(program, suites, shards)]
    passed, failed = 0, 0
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 2) as pool:
        for name, good, bad, took, text in pool.map(run, work):
            passed, failed = passed + good, failed + bad
            print(f"{name}: {good} passed, {bad} failed, {took:.1f} s", flush=True)
            for line in slow_cases(text):
                print(line)
            if bad:
                print(re.sub(r"^\d+\.\d+ s: .*\n", "", text, flags=re.MULTILINE), flush=True)
    if passed + failed == 0:
        failed = 1
        print("no test cases found")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
