"""A verification looks at few places in full: at all places it finds nothing worse."""

from __future__ import annotations

from pathlib import Path

import pytest

import soffit
from soffit.codes.design import Design
from soffit.codes.en1992 import shear
from soffit.codes.verification import verify

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
STRENGTH = ("flexure", "shear", "torsion", "interface")


@pytest.mark.parametrize("name", ["edge-beam", "girder", "plank", "ramp", "two-span"])
def test_at_all_places_nothing_is_worse(name, monkeypatch):
    beam = soffit.read(EXAMPLES / f"alder-weir-{name}.toml")
    found = {standard: _ratios(beam, standard) for standard in ("en1992", "mc2010")}
    monkeypatch.setattr(shear, "LOOKED_AT", 10**6)
    monkeypatch.setattr(Design, "overbent", lambda self, sagging, strength, ends=True: self.places)
    for standard, few in found.items():
        for key, ratio in _ratios(beam, standard).items():
            assert ratio <= few[key] * (1.0 + 1e-6), (standard, key)


def _ratios(beam, standard):
    only = STRENGTH if standard == "en1992" else ("flexure",)
    return {check.key: check.ratio for check in verify(beam, standard, only).checks}
