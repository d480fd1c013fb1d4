"""Anchorage zones and pretensioned ends, from ``data/examples.json``.

Both entries are of the kind ``own-reference``: worked out by their author from the clause they name, *from memory*, and
not printed anywhere.
"""

from __future__ import annotations

import pytest
from printed import INCH, KIP, KSI

from soffit.codes.aashto import ends as aashto
from soffit.codes.endzone import Anchors, Plate
from soffit.codes.working import Symbol


def test_bursting_and_splitting_own_reference(example) -> None:  # type: ignore[no-untyped-def]
    entry = example("own-anchor-zone")
    assert entry["kind"] == "own-reference"
    of, to = entry["inputs"], entry["recomputed"]
    pu, a, h = of["Pu"]["value"] * KIP, of["a"]["value"] * INCH, of["h"]["value"] * INCH
    # the entry gives the factored force
    tie = aashto.bursting(Anchors(pu / 1.2, a, h, h, of["e"]["value"], of["alpha"]["value"]), 60 * KSI)
    assert tie.force.value == pytest.approx(to["Tburst"]["value"] * KIP, rel=1e-9)
    assert tie.centre is not None
    assert tie.centre.value == pytest.approx(to["dburst"]["value"] * INCH, rel=1e-9)
    split = aashto.splitting(of["Ppre"]["value"] * KIP, 40 * INCH, 60 * KSI)
    assert split.force.value == pytest.approx(to["Psplit"]["value"] * KIP, rel=1e-5)
    assert split.steel.value == pytest.approx(to["As_split"]["value"] * INCH**2, rel=1e-5)
    assert split.length.value == pytest.approx(10 * INCH)


@pytest.mark.parametrize(("over", "key"), [(4.0, "fn_4"), (12.0, "fn_12")])
def test_bearing_under_an_anchorage_own_reference(example, over: float, key: str) -> None:  # type: ignore[no-untyped-def]
    entry = example("own-anchor-bearing")
    assert entry["kind"] == "own-reference"
    fci = entry["inputs"]["fci"]["value"] * KSI
    plate = Plate(10000.0, 9000.0, over**0.5, 1e6)
    one = Symbol("φ", 1.0, "ratio", "none, as in the entry")
    check = aashto.plate_bearing(plate, fci, aashto.factored(1e6), one, "AASHTO LRFD 5.8.4.4.2")
    assert check.resistance.value == pytest.approx(entry["recomputed"][key]["value"] * KSI * 9000.0, rel=1e-9)
