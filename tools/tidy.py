#!/usr/bin/env python3
"""clang-tidy over every source of the rooms and the command line (not their tests), two at a time.

    tools/tidy.py BUILD_FOLDER      a folder with compile_commands.json written for clang

A source that passed is not looked at again until it, any header of the tree, the checks or its command change.
"""
import hashlib
import json
import os
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
TIDY = "clang-tidy-14"
CLANG_WARNINGS = "--checks=clang-diagnostic-*"  # on top of .clang-tidy: what clang itself would warn about


def digest(*parts):
    return hashlib.sha256(b"\0".join(p if isinstance(p, bytes) else p.encode() for p in parts)).hexdigest()


def look(entry, headers, folder, stamps):
    source = Path(entry["file"])
    stamp = stamps / digest(headers, source.read_bytes(), entry["command"], str(source))
    if stamp.exists():
        return source, None, 0.0
    begun = time.monotonic()
    done = subprocess.run([TIDY, "-p", str(folder), "--quiet", CLANG_WARNINGS, str(source)], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
                          check=False)
    if done.returncode == 0:
        stamp.touch()
        return source, None, time.monotonic() - begun
    return source, done.stdout.decode("utf-8", "replace") or "clang-tidy failed without a word", time.monotonic() - begun


def main():
    folder = Path(sys.argv[1]).resolve()
    stamps = ROOT / "build" / "tidy-passed"
    stamps.mkdir(parents=True, exist_ok=True)
    entries = [e for e in json.loads((folder / "compile_commands.json").read_text(encoding="utf-8"))
               if Path(e["file"]).is_relative_to(ROOT) and Path(e["file"]).relative_to(ROOT).parts[0] in ("core", "cli")
               and "test" not in Path(e["file"]).relative_to(ROOT).parts]
    entries = list({e["file"]: e for e in entries}.values())
    shared = [p for top in ("core", "cli") for p in sorted((ROOT / top).rglob("*.?pp")) if p.suffix != ".cpp"]
    shared += [ROOT / ".clang-tidy"]
    headers = digest(*(p.read_bytes() for p in shared))
    failed = 0
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 2) as pool:
        for source, complaint, took in pool.map(lambda e: look(e, headers, folder, stamps), entries):
            print(f"{source.relative_to(ROOT)} {'FAILED' if complaint else 'ok'} {took:.0f} s", flush=True)
            if complaint:
                failed += 1
                print(complaint, flush=True)
    if not entries:
        print("no sources found")
        failed = 1
    print(f"{len(entries)} sources; clang-tidy complains about {failed}")
    print(f"{0 if failed else 1} passed, {1 if failed else 0} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
