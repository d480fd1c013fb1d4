"""What the documentation quotes, run again: beam files, commands with their output, and Python.

A page is played from top to bottom in a folder of its own that holds a copy of ``examples/``:

- a ``toml`` block whose first line is ``# name.toml`` is written to that file;
- in a ``console`` block every ``$ soffit …`` is run, and what follows it is what the command printed;
- a ``python`` block is executed, a ``pycon`` block is executed and its output compared;
- other blocks are only shown.

A quoted line that is ``…`` alone stands for any lines, and ``…`` at the end of a line for the rest of that line.
"""

from __future__ import annotations

import doctest
import os
import re
import shlex
import shutil
from collections.abc import Iterator
from contextlib import chdir, contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from io import StringIO
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
DOTS = "…"
NUMBER = re.compile(r"(?<![\w.])[-−]?\d[\d\u202f]*(?:\.\d+)?")
_FENCE = re.compile(r"^(?P<ticks>`{3,})(?P<info>[^\n`]*)\n(?P<body>.*?)^(?P=ticks)[ ]*$", re.MULTILINE | re.DOTALL)
_COMPILING = "compiling the kernels"
_TERMINAL = {"TERM": "dumb", "COLUMNS": "100", "LINES": "40"}


def pages() -> list[Path]:
    """README and every page of the documentation that is written by hand."""
    docs = ROOT / "docs"
    made = {docs / "evidence.md", docs / "beam-file.md", docs / "checks.md"}
    found = sorted(p for p in docs.rglob("*.md") if p not in made and "evidence" not in p.relative_to(docs).parts)
    return [ROOT / "README.md", *found]


@dataclass(frozen=True)
class Block:
    kind: str
    """``toml``, ``console``, ``python``, ``pycon``, …"""
    body: str
    start: int
    """Where the body begins in the page's text."""
    line: int


def blocks(text: str) -> Iterator[Block]:
    for match in _FENCE.finditer(text):
        info = match["info"].replace("{code-block}", "").split()
        start = match.start("body")
        yield Block(info[0] if info else "", match["body"], start, text.count("\n", 0, start) + 1)


@dataclass(frozen=True)
class Quote:
    """One command and what the page says it printed."""

    command: str
    quoted: str
    start: int
    """Where the quoted output begins in the page's text."""
    line: int


def quotes(block: Block) -> Iterator[Quote]:
    """The commands of a ``console`` block."""
    at, command, output, begun = block.start, "", "", 0
    for line in [*block.body.splitlines(keepends=True), "$ "]:
        if line.startswith("$ "):
            if command:
                yield Quote(command, output, begun, block.line)
            command, output, begun = line[2:].strip(), "", at + len(line)
        else:
            output += line
        at += len(line)


class _Screen(StringIO):
    """Standard output that calls itself a terminal, so that lines are wrapped as a reader sees them."""

    def isatty(self) -> bool:
        return True


class _Beside(StringIO):
    """Standard error, shown among the output, without a progress bar."""

    def __init__(self, screen: _Screen) -> None:
        super().__init__()
        self.screen = screen

    def write(self, text: str) -> int:
        return self.screen.write(text)


@contextmanager
def _terminal() -> Iterator[None]:
    """A terminal without colours, as wide as a page has room for."""
    kept = {name: os.environ.get(name) for name in _TERMINAL}
    os.environ.update(_TERMINAL)
    try:
        yield
    finally:
        for name, value in kept.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value


def run(command: str, folder: Path) -> str:
    """What ``soffit …`` prints when it is typed in ``folder``, both streams together."""
    from soffit.cli import main

    program, *rest = shlex.split(command)
    if program != "soffit":
        raise ValueError(f"only soffit is run here, not {program!r}: use a block of another kind for {command!r}")
    out = _Screen()
    with chdir(folder), _terminal(), redirect_stdout(out), redirect_stderr(_Beside(out)):
        main(rest)
    return "".join(line for line in out.getvalue().splitlines(keepends=True) if not line.startswith(_COMPILING))


def same(quoted: str, printed: str) -> bool:
    """Whether a quotation is right: words alike, numbers alike but for the last figure, spaces as they come."""
    return _match(quoted.rstrip().splitlines(), printed.rstrip().splitlines())


def _match(quoted: list[str], printed: list[str]) -> bool:
    if not quoted:
        return not printed
    first, rest = quoted[0], quoted[1:]
    if first.strip() == DOTS:
        return any(_match(rest, printed[i:]) for i in range(len(printed) + 1))
    return bool(printed) and same_line(first, printed[0]) and _match(rest, printed[1:])


def same_line(quoted: str, printed: str) -> bool:
    if quoted.rstrip().endswith(DOTS) and quoted.strip() != DOTS:
        start = quoted.rstrip().removesuffix(DOTS).rstrip()
        return any(same_line(start, printed[:end]) for end in range(len(printed) + 1))
    if skeleton(quoted) != skeleton(printed):
        return False
    return all(_close(a, b) for a, b in zip(NUMBER.findall(quoted), NUMBER.findall(printed), strict=True))


def skeleton(line: str) -> str:
    """The words of a line without its numbers, spaces made one."""
    return " ".join(NUMBER.sub("#", line).split())


def _close(a: str, b: str) -> bool:
    """Two printed numbers within one and a half of the last figure, or half a per cent."""
    x, y = (float(t.replace("−", "-").replace("\u202f", "")) for t in (a, b))
    figures = max(len(t.partition(".")[2]) for t in (a, b))
    return abs(x - y) <= max(1.5 * 10.0**-figures if figures else 1.01, 0.005 * max(abs(x), abs(y)))


class Checker(doctest.OutputChecker):
    """Doctest's comparison with our tolerance."""

    def check_output(self, want: str, got: str, optionflags: int) -> bool:
        return super().check_output(want, got, optionflags) or same(want, got)


@dataclass
class Played:
    """What came of a page: its faults in words, and the quotations with what was really printed."""

    faults: list[str] = field(default_factory=list)
    printed: list[tuple[Quote, str]] = field(default_factory=list)


def play(page: Path, folder: Path) -> Played:
    """Run a page in an empty ``folder``."""
    text = page.read_text(encoding="utf-8")
    shutil.copytree(ROOT / "examples", folder / "examples")
    played, names = Played(), dict[str, Any]()
    where = page.relative_to(ROOT)
    for block in blocks(text):
        at = f"{where}:{block.line}"
        if block.kind == "toml":
            _write(block, folder)
        elif block.kind == "console":
            for quote in quotes(block):
                printed = run(quote.command, folder)
                played.printed.append((quote, printed))
                if not same(quote.quoted, printed):
                    played.faults.append(f"{at}: `{quote.command}` now prints\n{printed}")
        elif block.kind == "python":
            with chdir(folder):
                exec(compile(block.body, at, "exec"), names)
        elif block.kind == "pycon":
            played.faults += _doctest(block, at, names, folder)
    return played


def _write(block: Block, folder: Path) -> None:
    name = re.match(r"# ([\w-]+\.toml)\n", block.body)
    if name:
        (folder / name[1]).write_text(block.body, encoding="utf-8")


def _doctest(block: Block, at: str, names: dict[str, Any], folder: Path) -> list[str]:
    test = doctest.DocTestParser().get_doctest(block.body, {}, at, at, block.line)
    test.globs = names
    said = StringIO()
    with chdir(folder):
        failed = doctest.DocTestRunner(Checker(), verbose=False).run(test, out=said.write, clear_globs=False).failed
    return [f"{at}:\n{said.getvalue()}"] if failed else []
