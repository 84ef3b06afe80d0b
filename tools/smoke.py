#!/usr/bin/env python3
"""Runs every program of one kind briefly: benchmarks, so that their own checks of the answers run, and fuzz targets.

    tools/smoke.py bench BUILD_FOLDER
    tools/smoke.py fuzz BUILD_FOLDER SECONDS_EACH [NAMES...]     these only; the others are named as not run
"""
import os
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def programs_in(kind, folder):
    """(name, path) of each program, read off the sources, so that one whose source is gone is not run."""
    if kind == "bench":
        sources = sorted((ROOT / "bench").glob("*_bench.cpp")) + sorted((ROOT / "bench").glob("*_world.cpp"))
        return [(source.stem, folder / "bench" / source.stem) for source in sources]
    return [(source.stem, folder / "fuzz" / f"fuzz_{source.stem}") for source in sorted((ROOT / "fuzz").glob("*.cpp"))]


def bench(program):
    name, path = program
    # What is no benchmark checks the world that readings are judged by.
    asked = "check" if name.endswith("_world") else "--benchmark_min_time=0.01"
    done = subprocess.run([str(path), asked], cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          check=False)
    text = done.stdout.decode("utf-8", "replace")
    # Google Benchmark ends with 0 even when a benchmark found its own answer wrong.
    return name, done.returncode == 0 and "ERROR OCCURRED" not in text and "error_occurred" not in text, text


def fuzz(program, seconds):
    name, path = program
    with tempfile.TemporaryDirectory() as found:
        seeds = [str(p) for p in [ROOT / "fuzz" / "corpus" / name] if p.is_dir()]
        done = subprocess.run([str(path), f"-max_total_time={seconds}", "-timeout=10", "-rss_limit_mb=2048", "-max_len=20000",
                               "-seed=1", f"-artifact_prefix={ROOT}/build/logs/fuzz-{name}-", found] + seeds, cwd=ROOT,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
        lines = done.stdout.decode("utf-8", "replace").splitlines()
    return name, done.returncode == 0, "\n".join(lines[-1:] if done.returncode == 0 else lines[-60:])


def main():
    kind, folder = sys.argv[1], Path(sys.argv[2]).resolve()
    passed, failed = 0, 0
    programs, wanted = programs_in(kind, folder), sys.argv[4:]
    for name, _ in programs:
        if wanted and name not in wanted:
            print(f"{name}: not run here")
    programs = [program for program in programs if not wanted or program[0] in wanted]
    # Benchmarks side by side, too: here they check their answers, and nobody reads their times.
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 2) as pool:
        for name, good, text in pool.map(bench if kind == "bench" else lambda p: fuzz(p, sys.argv[3]), programs):
            passed, failed = passed + good, failed + (not good)
            print(f"{name}: {'passed' if good else 'FAILED'}\n{text}", flush=True)
    if not programs:
        print(f"no {kind} programs found")
        failed = 1
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
