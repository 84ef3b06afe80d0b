#!/usr/bin/env python3
"""Compares docs/commands.md with what the program says about itself.

Every command of `strikewright --help` has a heading in docs/commands.md, every option of `strikewright COMMAND --help`
is written in that command's section (or in the section on common options), and the page names no command and no
option that does not exist. Links of all pages to files of this tree must lead somewhere. Every line of the README's
example output is a line that the program prints for the demo lesson.

    tools/docs_check.py PROGRAM        tools/docs_check.py --self-test
"""
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
OPTION = re.compile(r"(?<![\w-])--[a-z][a-z0-9-]*")
COMMON = re.compile(r"option", re.IGNORECASE)


def help_of(program, words):
    done = subprocess.run([str(program)] + words + ["--help"], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=20,
                          check=False, stdin=subprocess.DEVNULL)
    return done.stdout.decode("utf-8", "replace"), done.returncode


def commands_in(text):
    """Names in the block under a line such as 'Commands:' or 'Subcommands:'; deeper lines are continuations."""
    names, inside, indent = [], False, None
    for line in text.splitlines():
        if re.match(r"^\s*(Sub)?commands:?\s*$", line, re.IGNORECASE):
            inside, indent = True, None
            continue
        entry = re.match(r"^(\s+)([a-z][a-z0-9-]*)(\s|$)", line)
        if inside and entry:
            indent = indent if indent is not None else len(entry.group(1))
            if len(entry.group(1)) == indent:
                names.append(entry.group(2))
        elif inside and line.strip() and not line.startswith(" "):
            inside = False
    return names


def sections_of(page):
    """{heading text: section text} for headings of level 2 and 3."""
    sections, heading = {}, ""
    for line in page.splitlines():
        found = re.match(r"^#{2,3}\s+(.*)$", line)
        if found:
            heading = re.sub(r"[`*]", "", found.group(1)).strip()
        sections[heading] = sections.get(heading, "") + line + "\n"
    return sections


def compare(page, helps):
    """`helps`: {command: help text}. Sentences on what differs."""
    faults, sections = [], sections_of(page)
    common = "".join(text for heading, text in sections.items()
                     if COMMON.search(heading) and heading.split()[0] not in helps)
    known = {option for text in helps.values() for option in OPTION.findall(text)}
    for command, text in helps.items():
        own = "".join(body for heading, body in sections.items()
                      if command in heading.removeprefix("strikewright ").split()[:1])
        if not own:
            faults.append(f"docs/commands.md: no heading for the command '{command}'")
            continue
        for option in sorted(set(OPTION.findall(text))):
            if not re.search(re.escape(option) + r"(?![\w-])", own + common):
                faults.append(f"docs/commands.md: '{command}' says nothing of {option}")
    for option in sorted(set(OPTION.findall(page)) - known - {"--help", "--version"}):
        faults.append(f"docs/commands.md: no command has {option}")
    for line in re.findall(r"\bstrikewright ([a-z][a-z-]*)\b", "\n".join(re.findall(r"```.*?```", page, re.DOTALL))):
        if line not in helps:
            faults.append(f"docs/commands.md: there is no command '{line}'")
    return faults


def dead_links(root):
    for page in sorted([*root.glob("*.md"), *root.glob("docs/**/*.md"), *root.glob("core/*/*.md"), *root.glob("reference/*.md")]):
        text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)
        for target in re.findall(r"\]\(([^)\s]+)\)", text):
            if "://" in target or target.startswith(("#", "mailto:")):
                continue
            if not (page.parent / target.split("#")[0]).exists():
                yield f"{page.relative_to(root)}: the link to {target} leads nowhere"


def stale_example(readme, printed):
    """Sentences on lines of the README's 'What it looks like' that `printed` has not; '...' leaves lines out."""
    shown = readme.split("## What it looks like", 1)[-1].split("\n## ", 1)[0]
    there = {line.strip() for line in printed.splitlines()}
    lines = [line.strip() for line in shown.splitlines() if line.startswith("    ")]
    if not lines:
        return ["README.md: no example output under 'What it looks like'"]
    return [f"README.md: the demo does not print '{line}'" for line in lines if line not in there | {"..."}]


def self_test():
    top = "Usage: x\n\nCommands:\n  flight    the ball\n              in the air\n  read      a file\n\nOptions:\n  --version\n"
    helps = {"flight": "  --spin RPM  --json", "read": "  --json"}
    good = "# Commands\n## Common options\n`--json` `--help`\n## flight\n`--spin`\n## read\nreads\n```\nstrikewright read\n```\n"
    trials = [
        commands_in(top) == ["flight", "read"],
        not compare(good, helps),
        any("no heading" in f for f in compare(good.replace("## read", "## reed"), helps)),
        any("says nothing of --spin" in f for f in compare(good.replace("`--spin`", ""), helps)),
        any("no command has --spine" in f for f in compare(good + "--spine", helps)),
        any("no command 'reed'" in f for f in compare(good.replace("strikewright read", "strikewright reed"), helps)),
    ]
    shown = "## What it looks like\n\n    low point  3\n      ...\n\n## Next\n    not shown\n"
    trials += [not stale_example(shown, "low point  3\n"), len(stale_example(shown, "low point  4\n")) == 1,
               bool(stale_example("nothing", "low point  3\n"))]
    print(f"{sum(trials)} passed, {len(trials) - sum(trials)} failed")
    return 0 if all(trials) else 1


def main():
    if "--self-test" in sys.argv[1:]:
        return self_test()
    program = Path(sys.argv[1]).resolve()
    text, code = help_of(program, [])
    names = commands_in(text)
    faults = list(dead_links(ROOT))
    if code != 0 or not names:
        faults.append("strikewright --help lists no commands")
    helps = {}
    for name in names:
        helps[name], code = help_of(program, [name])
        if code != 0:
            faults.append(f"strikewright {name} --help ends with exit code {code}")
    page = ROOT / "docs" / "commands.md"
    faults += compare(page.read_text(encoding="utf-8"), helps) if page.is_file() else ["docs/commands.md is not there"]
    demo = subprocess.run([str(program), "read", "demo/lesson.csv", "--truth", "demo/lesson-truth.csv"], cwd=ROOT, timeout=60,
                          stdout=subprocess.PIPE, check=False, stdin=subprocess.DEVNULL)
    faults += stale_example((ROOT / "README.md").read_text(encoding="utf-8"), demo.stdout.decode("utf-8", "replace"))
    for fault in faults:
        print(fault)
    print(f"{0 if faults else 1} passed, {1 if faults else 0} failed")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
