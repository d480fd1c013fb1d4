"""Bring what the documentation quotes up to date: quoted output, the reference of the beam file, the pictures.

Run it after a change that tests/docs finds the documentation stale for:

    .venv/bin/python docs/refresh.py

Text around the quotations is left alone; read it again yourself, for it may speak of the old numbers.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import drawn
import quoted

REFERENCE = quoted.ROOT / "docs" / "beam-file.md"


def renewed(quote: str, printed: str) -> str | None:
    """The quotation with the lines of what was printed; none where what it leaves out makes that unclear."""
    if not any(line.rstrip().endswith(quoted.DOTS) for line in quote.splitlines()[1:]):
        return printed.rstrip("\n") + "\n" if printed.strip() else printed
    left = printed.splitlines(keepends=True)
    lines = []
    for line in quote.splitlines(keepends=True):
        if line.strip() == quoted.DOTS:
            lines.append(line)
            continue
        cut = line.rstrip().endswith(quoted.DOTS)
        words = quoted.skeleton(line.rstrip().removesuffix(quoted.DOTS))
        like = [i for i, each in enumerate(left) if _alike(words, quoted.skeleton(each), cut)]
        if not like:
            return None
        found = left[like[0]]
        lines.append(_shortened(found, line) if cut else found)
        left = left[like[0] + 1 :]
    return "".join(lines)


def _alike(words: str, printed: str, cut: bool) -> bool:
    return printed.startswith(words) if cut else printed == words


def _shortened(found: str, line: str) -> str:
    """As many words of the new line as the old quotation showed."""
    count = len(line.rstrip().removesuffix(quoted.DOTS).split())
    end = 0
    for word in found.split()[:count]:
        end = found.index(word, end) + len(word)
    return f"{found[:end]} {quoted.DOTS}\n"


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
    drawn.draw()


if __name__ == "__main__":
    main()
