"""The reference of checks, ``docs/checks.md``, made from the registers of the standards and the records of real checks.

Every formula on the page is one that was computed: the example beams are verified, and the workings of each check are
gathered by name, formula and clause. A check that no example calls for stands with its register's sentence alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from quoted import ROOT

from soffit.beamfile import read
from soffit.codes.verification import STANDARDS, register, verify
from soffit.codes.working import Check, Working

PAGE = ROOT / "docs" / "checks.md"
HEAD = """# Reference of checks

Made from the program itself by `docs/refresh.py`: the registers of the four standards, and the formulas that were
computed when the beams in `examples/` were verified. A formula that only another beam calls for (another case of a
table, another shape) stands in the working of that beam: `soffit verify FILE --to STANDARD --working all`.

Formulas marked *from memory* were written without the print at hand: compare them with your own copy before you rely on
them. Formulas without a clause are mechanics. All of it is for a licensed engineer to review.
"""


def page() -> str:
    beams = [read(path) for path in sorted((ROOT / "examples").glob("*.toml"))]
    parts = [HEAD]
    for standard in STANDARDS:
        found = [verify(beam, standard) for beam in beams]
        names = sorted({each.name for each in found})
        parts.append(f"## {', '.join(names)}\n\n`--to {standard}`\n")
        checks = [check for each in found for check in each.checks]
        for entry in register(standard):
            parts.append(f"### {standard}: {entry.title}\n\n`{entry.key}` · {entry.clause} · {entry.about}\n")
            mine = [c for c in checks if _entry(c, standard) == entry.key]
            rows = _rows(mine)
            if rows:
                parts.append("| | formula | what it is | clause |\n|---|---|---|---|")
                parts.append("\n".join(rows) + "\n")
        left = {u.title: u for each in found for u in each.unchecked if not u.scope}
        if left:
            parts.append(f"### {standard}: left to the engineer\n")
            parts.append("\n".join(f"- {_cell(u.title)}: {_cell(u.why)}." for u in left.values()) + "\n")
    return "\n".join(parts)


def _entry(check: Check, standard: str) -> str:
    keys = [entry.key for entry in register(standard) if check.key.startswith(entry.key)]
    return max(keys, key=len, default="")


def _rows(checks: Iterable[Check]) -> list[str]:
    seen: dict[tuple[str, str, str], Working] = {}
    for check in checks:
        for each in check.workings:
            if each.formula != each.name:
                seen.setdefault((_unnumbered(each.name), _unnumbered(each.formula), each.clause), each)
    return [
        f"| {_cell(w.name)} | `{w.formula}` | {_cell(w.what)} | {_cell(', '.join(filter(None, (w.clause, w.mark))))} |"
        for w in seen.values()
        if not w.name.startswith(("εs", "εp", "fs", "fp", "Ts", "Tp")) or _unnumbered(w.name) == w.name or "1" in w.name
    ]


def _unnumbered(text: str) -> str:
    """Without the running numbers of layers, so that two beams' layers are one row."""
    return "".join(c for c in text if not c.isdigit())


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ").replace("<", "&lt;")


def write(target: Path = PAGE) -> None:
    target.write_text(page().rstrip("\n") + "\n", encoding="utf-8")
