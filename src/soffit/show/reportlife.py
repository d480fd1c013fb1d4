"""The predicted life beside the verification: the picture of the end, the events, and strength against prediction."""

from __future__ import annotations

from soffit.codes.crosscheck import crosscheck
from soffit.codes.verification import Verification
from soffit.member.result import Life
from soffit.show.numbers import NOTHING, Units, column, quantity, sig, unit
from soffit.show.reportblocks import Block, bullets, capital, figure, table, words
from soffit.show.reportcurves import load_curve
from soffit.show.reportdrawing import living

ABOUT = (
    "What a beam with the mean properties of this file does by the models of Soffit as the load rises until it fails: "
    "no check, and no part of the verification, but a second opinion on it."
)


def lived(found: Verification, life: Life, units: Units, room: float) -> list[Block]:
    """The pages on the life of the same beam."""
    drawn = living(life, room, units)
    blocks = [
        words(ABOUT, "lead"),
        words(life.failure.sentence, "strong"),
        figure(drawn, "The beam at the peak of its load", "At the peak"),
        figure(load_curve(life, units, room, 62.0), "Load against deflection; the numbers are those of the events",
               "Load and deflection"),
        _events(life, units),
        *beside(found, life, units),
    ]  # fmt: skip
    return blocks


def _events(life: Life, units: Units) -> Block:
    events = life.events
    head = ["", "event", f"load, {unit('force', units)}", f"moment, {unit('moment', units)}",
            f"deflection, {unit('length', units)}", f"crack, {unit('crack width', units)}"]  # fmt: skip
    columns = [
        column([e.load for e in events], "force", units), column([e.moment for e in events], "moment", units),
        column([e.deflection for e in events], "length", units),
        column([e.crack_width for e in events], "crack width", units),
    ]  # fmt: skip
    rows = [[str(i + 1), capital(e.event), *(c[i] for c in columns)] for i, e in enumerate(events)]
    return table(head, rows, "rlrrrr", [1])


def beside(found: Verification, life: Life, units: Units) -> list[Block]:
    """Every strength check beside the effect that the life has at its place as it reaches its peak."""
    compared = crosscheck(found, life)
    if not compared.rows:
        return [bullets(compared.warnings)]
    rows = []
    for row in compared.rows:
        kind = row.check.resistance.kind
        where = NOTHING if row.check.x is None else quantity(row.check.x, "span", units)
        rows.append([capital(row.check.title), where, quantity(row.effect, kind, units),
                     quantity(row.resistance, kind, units), sig(row.times)])  # fmt: skip
    head = ["check", "at", "predicted, mean", "design strength", "times"]
    first = compared.rows[0]
    agreed = (
        f"The life reaches {sig(first.times)} times the design strength of {first.check.title} before it ends by "
        f"{compared.mode}, and both say {compared.predicted} first."
    )
    said = [*([agreed] if compared.agree and first.times >= 1.0 else []), *compared.warnings]
    return [
        words("Predicted mean behaviour beside the design strength", "title"),
        table(head, rows, "lrrrr", [0]),
        *([bullets(said)] if said else []),
    ]
