#!/usr/bin/env python3
"""clang-tidy over every source of the rooms and the command line (not their tests).

    tools/tidy.py BUILD_FOLDER [--long]     a folder with compile_commands.json written for clang;
                                            --long: the command line, too, and the path-sensitive analyser

Most of the time goes into reading the headers of the libraries, so the sources of a folder are looked at together, a
few dozen at once; where they cannot be compiled together, one by one. A batch that passed is not looked at again until one
of it, any header of the tree, the checks or the command change.
"""
import hashlib
import json
import os
import shlex
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
STAMPS = ROOT / "build" / "tidy-passed"
TIDY = "clang-tidy-14"
# On top of .clang-tidy: what clang itself would warn about, and the analyser when there is time for it.
EXTRA_CHECKS = "--checks=clang-diagnostic-*" + (",clang-analyzer-*" if "--long" in sys.argv else "")
TOGETHER = 30
LOOKED_AT = ("core", "book", "sheet", "verbs", "serve", "cli") if "--long" in sys.argv else ("core", "book", "sheet", "verbs", "serve")


def digest(*parts):
    return hashlib.sha256(b"\0".join(p if isinstance(p, bytes) else p.encode() for p in parts)).hexdigest()


def flags_of(command):
    """Of a compile command: what the front end needs, so without launcher, compiler, output and source."""
    words = shlex.split(command)
    words = words[next(k for k, word in enumerate(words) if word.startswith("-")):]
    for single in ("-o", "-c"):
        at = words.index(single)
        del words[at:at + 2]
    return words


def tidy(source, flags):
    """What clang-tidy complains about; empty when nothing."""
    done = subprocess.run([TIDY, "--quiet", EXTRA_CHECKS, str(source), "--"] + flags, stdout=subprocess.PIPE,
                          stderr=subprocess.DEVNULL, cwd=ROOT, check=False)
    return "" if done.returncode == 0 else done.stdout.decode("utf-8", "replace") or "clang-tidy failed without a word"


def look(batch, headers):
    """(name, complaint, seconds) for sources with the same flags."""
    sources, flags, name = batch
    stamp = STAMPS / digest(headers, *(s.read_bytes() for s in sources), *map(str, sources), EXTRA_CHECKS, *flags)
    if stamp.exists():
        return name, "", 0.0
    begun = time.monotonic()
    together = STAMPS / f"{name.replace('/', '_').replace(' ', '_')}.cpp"
    together.write_text("".join(f'#include "{source}"\n' for source in sources), encoding="utf-8")
    complaint = tidy(together, flags)
    if "clang-diagnostic-error" in complaint:  # two sources with the same name for different things
        complaint = "".join(tidy(source, flags) for source in sources)
    if not complaint:
        stamp.touch()
    return name, complaint, time.monotonic() - begun


def batches_of(folder):
    """[(sources, flags, name)]"""
    groups = {}
    for entry in json.loads((folder / "compile_commands.json").read_text(encoding="utf-8")):
        source = Path(entry["file"])
        parts = source.relative_to(ROOT).parts if source.is_relative_to(ROOT) else ("",)
        if parts[0] in LOOKED_AT and "test" not in parts and source.suffix == ".cpp":
            key = ("/".join(parts[:-1]), tuple(flags_of(entry["command"])))
            groups.setdefault(key, []).append(source)
    for (place, flags), sources in groups.items():
        sources = sorted(set(sources))
        for at in range(0, len(sources), TOGETHER):
            part = f" {at // TOGETHER + 1}" if len(sources) > TOGETHER else ""
            yield sources[at:at + TOGETHER], list(flags), place + part


def main():
    STAMPS.mkdir(parents=True, exist_ok=True)
    batches = sorted(batches_of(Path(sys.argv[1]).resolve()), key=lambda batch: -len(batch[0]))
    shared = [p for top in ("core", "book", "sheet", "verbs", "serve", "cli") for p in sorted((ROOT / top).rglob("*.?pp")) if p.suffix != ".cpp"]
    headers = digest(*(p.read_bytes() for p in shared + [ROOT / ".clang-tidy"]))
    failed = 0
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 2) as pool:
        for (sources, _, _), (name, complaint, took) in zip(batches, pool.map(lambda b: look(b, headers), batches)):
            failed += bool(complaint)
            print(f"{name}: {len(sources)} sources, {'FAILED' if complaint else 'ok'}, {took:.0f} s\n{complaint}", flush=True)
    if not batches:
        print("no sources found")
        failed = 1
    print(f"{0 if failed else 1} passed, {1 if failed else 0} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
