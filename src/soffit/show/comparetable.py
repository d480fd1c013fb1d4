"""Several beams in one table and one sentence: which carries most, cracks last, breaks suddenly."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from soffit.show.columns import Line, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import Units, column, quantity, unit

if TYPE_CHECKING:
    from soffit.member.result import Life

CRACKS, YIELDS, PEAK = ("first crack",), ("bar yield", "tendon yield"), ("peak",)


def compared(
    lives: Sequence[Life],
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
) -> str:
    """The table as text; the arguments are those of :func:`soffit.show.story.told`."""
    lines = table(lives, units or lives[0].beam.units, width, written)
    return coloured(lines, colours) if colours else plain(lines)


def table(lives: Sequence[Life], units: Units, width: int | None, written: Sequence[str] = ()) -> list[Line]:
    """One row a beam; loads are those of the press (or the scaled live load) at each event."""
    force, length = unit("force", units), unit("length", units)
    names = [life.name for life in lives]
    rows = [
        ["", "beam", "first crack", "yield", "peak", "sag at peak", "warning", "fails by"],
        ["", "", force, force, force, length, "", ""],
        *(
            [str(i), life.name, *cells, life.warning.word, life.failure.mode]
            for i, (life, *cells) in enumerate(zip(lives, *_loads_and_sag(lives, units), strict=True), start=1)
        ),
    ]
    cells = _fitted(grid(rows, "rlrrrrll"), width)
    lines: list[Line] = [[("  ".join(row), "faint")] for row in cells[:2]]
    best = max(life.peak.load for life in lives)
    for life, (number, name, *figs, word, mode) in zip(lives, cells[2:], strict=True):
        weight = "strong" if life.peak.load == best else ""
        style = "fails" if life.failure.brittle else ""
        lines.append([(number + "  ", "faint"), (name, weight), ("  " + "  ".join([*figs, word, ""]), weight)])
        lines[-1].append((mode, style))
    lines.append([])
    for i, (name, life) in enumerate(zip(names, lives, strict=True), start=1):
        lines += hanging(str(i), [f"{name}: {life.failure.sentence}"], width, len(str(len(lives))) + 2)
    if written:
        lines += [[], *hanging("written", [", ".join(written)], width, 9)]
    return [*lines, [], *([(piece, "strong")] for piece in wrapped(closing(lives, units), width))]


def _fitted(cells: list[list[str]], width: int | None) -> list[list[str]]:
    """Rows that fit the terminal: without the mode, which the sentences tell, then with shorter names."""
    over = 0 if width is None else len("  ".join(cells[0])) - width
    if over <= 0:
        return cells
    over -= len(cells[0][-1]) + 2
    name = max(len(cells[0][1]) - max(over, 0), 8)
    return [[row[0], _cut(row[1], name), *row[2:-1], ""] for row in cells]


def _cut(text: str, width: int) -> str:
    return text[:width] if not text[width:].strip() else text[: width - 1] + "…"


def closing(lives: Sequence[Life], units: Units) -> str:
    """One sentence that a colleague could be told on the phone."""
    names = _short([life.name for life in lives])
    if len(lives) == 1:
        alone = quantity(lives[0].peak.load, "force", units)
        return f"{lives[0].name} carries {alone}, with no other beam to compare it with."
    peak, strongest = max((life.peak.load, name) for life, name in zip(lives, names, strict=True))
    text = f"{strongest} carries the most ({quantity(peak, 'force', units)})"
    cracked = sorted(
        (load, name) for life, name in zip(lives, names, strict=True) if (load := _load(life, CRACKS)) is not None
    )
    if len(cracked) > 1 and cracked[-1][0] > 1.02 * cracked[-2][0]:  # nearer than that is a tie
        load, last = cracked[-1]
        if last == strongest:
            text += " and is the last to crack"
        else:
            text += f"; {last} is the last to crack ({quantity(load, 'force', units)})"
    sudden = [name for life, name in zip(lives, names, strict=True) if life.failure.brittle]
    if sudden:
        together = " and ".join(filter(None, [", ".join(sudden[:-1]), sudden[-1]]))
        text += f"; {together} {'breaks' if len(sudden) == 1 else 'break'} suddenly"
    return text + "."


def _short(names: Sequence[str]) -> list[str]:
    """What stands before the comma of each name, where that still tells the beams apart."""
    short = [name.split(",")[0].strip() for name in names]
    return short if all(short) and len(set(short)) == len(set(names)) else list(names)


def _loads_and_sag(lives: Sequence[Life], units: Units) -> list[list[str]]:
    # the loads of one table share their decimals, so that a row can be read across
    loads: list[float | None] = [_load(life, names) for names in (CRACKS, YIELDS, PEAK) for life in lives]
    texts = column(loads, "force", units)
    count = len(lives)
    sag = column([life.peak.deflection for life in lives], "length", units)
    return [texts[:count], texts[count : 2 * count], texts[2 * count :], sag]


def _load(life: Life, names: tuple[str, ...]) -> float | None:
    """Load of the first of the named events; none where none happens."""
    if names == PEAK:
        return life.peak.load
    return next((event.load for event in life.events if event.event in names), None)


__all__ = ["closing", "compared", "table"]
