#!/usr/bin/env python3
"""The house numbers: what keeps the tree readable, checked instead of wished for.

Files of at most 500 lines, functions of at most 60, folders at most 4 deep, every note of something left to do
carries an issue number, no path of somebody's machine, a README in every room.
Prints the comment share of the public headers and the longest files and functions.

    tools/house.py              checks the tree
    tools/house.py --self-test  plants one offence of each kind and must see it caught
"""
import re
import sys
import tempfile
from pathlib import Path

FILE_LINES, FUNCTION_LINES, DEPTH = 500, 60, 4
CODE = {".hpp", ".cpp", ".ipp", ".h", ".py", ".ts", ".svelte", ".css"}
TEXT = CODE | {".md", ".txt", ".cmake", ".json", ".csv", ".case", ".yml", ""}
SKIPPED = {".git", "build", ".cache", "node_modules", "corpus", "input"}  # the last two: inputs, meant to be odd
# Spelled in pieces so that this file does not offend against itself.
LEFT_TO_DO = re.compile(r"\b(TO" + r"DO|FIX" + r"ME|XX" + r"X)\b(?!\(#\d+\))")
MACHINE_PATH = re.compile(r"(?<![\w.])/(ho" + r"me|ro" + r"ot|Us" + r"ers|wo" + r"rk|tm" + r"p|mn" + r"t)/\w|\.\./sha" + r"red\b")
NO_FUNCTION = re.compile(r"^\s*(?:inline\s+)?(namespace|struct|class|enum|union|extern)\b")
NO_HEAD = re.compile(r"=\s*$|\b(?:do|else|try)\s*$|^\s*(?:if|for|while|switch|else)\b")


def files_of(root):
    for path in sorted(root.rglob("*")):
        parts = path.relative_to(root).parts
        if path.is_file() and not SKIPPED.intersection(parts) and path.suffix in TEXT:
            yield path


def bare(line):
    """The line without strings, character constants and // comments."""
    line = re.sub(r'"(?:\\.|[^"\\])*"', '""', line)
    line = re.sub(r"'(?:\\.|[^'\\])'", "''", line)
    return line.split("//")[0]


def functions_of(lines):
    """(first line, length) of each outermost function body: a brace opened after a ')' outside any other function."""
    depth, opened, start, head = 0, None, 0, ""
    goes_on = False  # a preprocessor line that ended in a backslash
    for number, line in enumerate(map(bare, lines), 1):
        directive = goes_on or line.lstrip().startswith("#")
        goes_on = directive and line.rstrip().endswith("\\")
        if directive:
            continue
        for sign in line:
            if sign == "{":
                if opened is None and ")" in head and not NO_FUNCTION.match(head) and not NO_HEAD.search(head):
                    opened = depth
                    start = number
                depth += 1
                head = ""
            elif sign == "}":
                depth -= 1
                if opened == depth:
                    yield start, number - start + 1
                    opened = None
                head = ""
            else:
                head = "" if sign == ";" else head + sign
        head += " "


def comment_share(lines):
    said = sum(1 for line in lines if line.strip().startswith(("//", "/*", "*")) or "///<" in line)
    return said, sum(1 for line in lines if line.strip())


def faults_of(root, path, lines):
    name = path.relative_to(root)
    if len(name.parts) - 1 > DEPTH:
        yield f"{name}: {len(name.parts) - 1} folders deep, at most {DEPTH}"
    if path.suffix in CODE and len(lines) > FILE_LINES:
        yield f"{name}: {len(lines)} lines, at most {FILE_LINES}"
    if path.suffix in {".hpp", ".cpp", ".ipp", ".h"}:
        for start, length in functions_of(lines):
            if length > FUNCTION_LINES:
                yield f"{name}:{start}: a function of {length} lines, at most {FUNCTION_LINES}"
    for number, line in enumerate(lines, 1):
        if LEFT_TO_DO.search(line):
            yield f"{name}:{number}: something left to do without an issue number"
        if MACHINE_PATH.search(line):
            yield f"{name}:{number}: a path of one machine"


def check(root):
    faults, longest, said, written = [], [], 0, 0
    for path in files_of(root):
        lines = path.read_text(encoding="utf-8").splitlines()
        faults += faults_of(root, path, lines)
        if path.suffix in CODE:
            longest.append((len(lines), str(path.relative_to(root))))
        if path.suffix == ".hpp" and path.relative_to(root).parts[0] == "core":
            share = comment_share(lines)
            said, written = said + share[0], written + share[1]
    core = root / "core"
    rooms = [*(sorted(core.iterdir()) if core.is_dir() else []), *(root / name for name in ("book", "verbs", "serve", "cli"))]
    for room in rooms:
        if room.is_dir() and any(room.rglob("*.?pp")) and not (room / "README.md").is_file():
            faults.append(f"{room.relative_to(root)}: a room without a README.md")
    return faults, sorted(longest, reverse=True), said / max(written, 1)


def self_test():
    body = "\n".join(["  x += 1;"] * 70)
    trials = [
        ("core/a/long.hpp", "\n" * 501, True),
        ("core/a/ok.hpp", "\n" * 499, False),
        ("core/a/f.cpp", "int f(int x) {\n" + body + "\n}\n", True),
        ("core/a/f.cpp", "namespace n {\nint f(int x)\n    noexcept {\n" + body + "\n}\n}\n", True),
        ("core/a/f.cpp", "struct S {\n  void f() {\n" + body + "\n  }\n};\n", True),
        ("core/a/f.cpp", 'TEST_CASE("x") {\n' + body + "\n}\n", True),
        ("core/a/f.cpp", "namespace n {\n" + "int g(int x) { return x; }\n" * 80 + "}\n", False),
        ("core/a/f.cpp", "constexpr S table[] = {\n" + "  {f(1), 2},\n" * 80 + "};\n", False),
        ("core/a/f.cpp", "#define W __attribute__((x))\nnamespace n {\n" + "int g();\n" * 80 + "}\n", False),
        ("core/a/f.cpp", "#define W(x) \\\n  f(x)\nint f(int x) {\n" + body + "\n}\n", True),
        ("core/a/b/c/d/e/f.cpp", "int x;\n", True),
        ("core/a/f.cpp", "// TO" + "DO later\n", True),
        ("core/a/f.cpp", "// TO" + "DO(#12) later\n", False),
        ("web/a.ts", "\n" * 501, True),
        ("book/a.cpp", "int x;\n", True),
        ("docs/a.md", "see /ho" + "me/me/file\n", True),
    ]
    wrong = 0
    for place, text, bad in trials:
        with tempfile.TemporaryDirectory() as folder:
            root = Path(folder)
            (root / place).parent.mkdir(parents=True, exist_ok=True)
            (root / place).write_text(text, encoding="utf-8")
            if place.startswith("core/a"):
                (root / "core/a/README.md").write_text("a room\n", encoding="utf-8")
            caught = check(root)[0]
            if bool(caught) != bad:
                wrong += 1
                print(f"self-test: {place} {text[:30]!r}: {'not caught' if bad else caught}")
    print(f"{len(trials) - wrong} passed, {wrong} failed")
    return wrong


def main():
    if "--self-test" in sys.argv[1:]:
        return 1 if self_test() else 0
    faults, longest, share = check(Path(__file__).resolve().parent.parent)
    median = longest[len(longest) // 2][0]
    print(f"{len(longest)} code files, median {median} lines; longest: " + ", ".join(f"{n} {p}" for n, p in longest[:3]))
    print(f"comment lines in the core's headers: {100 * share:.0f} %")
    for fault in faults:
        print(fault)
    print(f"{0 if faults else 1} passed, {1 if faults else 0} failed")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
