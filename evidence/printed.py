"""The part of the page on printed worked examples of prestress."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from evidence import prose, tables
from evidence.worked import Compared, examples

KINDS = {"published": "printed", "own-reference": "own computation", "statement-only": "answer not printed"}
HEAD = ("example", "what", "kind", "quantities", "computed / printed", "largest difference / tolerance", "checked in")


def of_print(found: Sequence[Compared]) -> Iterator[str]:
    yield prose.PRINTED
    yield tables.markdown(HEAD, [_cells(c) for c in found], left=3) + "\n"
    yield (
        f"{sum(len(c.pairs) for c in found)} printed quantities were computed again; the largest difference is"
        f" {max(c.worst for c in found if c.pairs):.2f} of the tolerance that the printed digits leave. What these"
        " examples print beside them and is not computed here:\n"
    )
    yield "\n".join(_left(c) for c in found if c.left)


def _cells(c: Compared) -> list[str]:
    ratios = c.ratios
    named = ", ".join(f"`{t.removeprefix('test_').removesuffix('.py')}`" for t in c.tests) or "nowhere"
    told = f"{min(ratios):.3f} to {max(ratios):.3f}" if ratios else "–"
    return [
        f"`{c.id}`", examples()[c.id]["topic"], KINDS[c.kind], str(len(c.pairs) or "–"), told,
        f"{c.worst:.2f}" if c.pairs else "–", named,
    ]  # fmt: skip


def _left(c: Compared) -> str:
    reasons: dict[str, list[str]] = {}
    for key, why in c.left.items():
        reasons.setdefault(why, []).append(f"`{key}`")
    told = "; ".join(f"{', '.join(keys)}: {why}" for why, keys in reasons.items())
    return f"- `{c.id}`: {told}."
