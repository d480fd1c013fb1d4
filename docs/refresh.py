"""Bring what the documentation quotes up to date: quoted output, the reference of the beam file, the pictures.

Run it after a change that tests/docs finds the documentation stale for:

    .venv/bin/python docs/refresh.py

Text around the quotations is left alone; read it again yourself, for it may speak of the old numbers.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import checked
import drawn
import quoted

REFERENCE = quoted.ROOT / "docs" / "beam-file.md"


def renewed(quote: str, printed: str) -> str | None:
    """The quotation with the lines of what was printed; none where what it leaves out makes that unclear.

    A quotation that leaves lines out is a row of stretches; each keeps the lines from its first line to its last, which
    are known again by their first word. The first stretch begins, and the last one ends, where the output does.
    """
    stretches = _stretches(quote.splitlines())
    if len(stretches) == 1:
        return printed.rstrip("\n") + "\n" if printed.strip() else printed
    lines, at, kept = printed.rstrip("\n").splitlines(), 0, []
    for i, stretch in enumerate(stretches):
        if not stretch:  # what is left out goes to the edge of the output
            kept.append([])
            continue
        if i == len(stretches) - 1:
            start, end = _last(lines, stretch[0], at), len(lines)
        else:
            start = 0 if i == 0 else _next(lines, stretch[0], at)
            end = None if start is None else _next(lines, stretch[-1], start)
            end = None if end is None else end + 1
        if start is None or end is None:
            return None
        kept.append(lines[start:end])
        at = end
    dots = [line for line in quote.splitlines() if line.strip() == quoted.DOTS]
    out = kept[0]
    for line, stretch in zip(dots, kept[1:], strict=True):
        out = [*out, line, *stretch]
    return "\n".join(out) + "\n"


def _stretches(lines: list[str]) -> list[list[str]]:
    """The lines between those that stand for what is left out."""
    found: list[list[str]] = [[]]
    for line in lines:
        if line.strip() == quoted.DOTS:
            found.append([])
        else:
            found[-1].append(line)
    return found


def _word(line: str) -> str:
    return (quoted.skeleton(line).split() or [""])[0]


def _next(lines: list[str], like: str, start: int) -> int | None:
    return next((i for i in range(start, len(lines)) if _word(lines[i]) == _word(like)), None)


def _last(lines: list[str], like: str, start: int) -> int | None:
    return next((i for i in reversed(range(start, len(lines))) if _word(lines[i]) == _word(like)), None)


def refresh(page: Path) -> None:
    with tempfile.TemporaryDirectory() as folder:
        played = quoted.play(page, Path(folder))
    text = page.read_text(encoding="utf-8")
    for quote, printed in sorted(played.printed, key=lambda each: -each[0].start):
        if quoted.same(quote.quoted, printed):
            continue
        new = renewed(quote.quoted, printed)
        if new is None:
            print(f"{page}:{quote.line}: `{quote.command}` printed something else; quote it anew by hand:\n{printed}")
        else:
            text = text[: quote.start] + new + text[quote.start + len(quote.quoted) :]
    page.write_text(text, encoding="utf-8")
    for fault in played.faults:
        if "now prints" not in fault:
            print(fault)


def main() -> None:
    from soffit.beamfile import reference

    REFERENCE.write_text(reference().rstrip("\n") + "\n", encoding="utf-8")
    for page in quoted.pages():
        refresh(page)
    checked.write()
    drawn.draw()


if __name__ == "__main__":
    main()
