"""The how-to pages: their pictures show the beams of today, and hands find what they say."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "docs"))

import drawn  # noqa: E402


def test_the_sheets_over_time_and_of_tendons_show_the_numbers_of_today() -> None:
    """They are not drawn again; the numbers written beside them when they were drawn are computed again."""
    stale = "stale; run .venv/bin/python docs/refresh.py and read the page again"
    known, now = json.loads(drawn.YEARS.read_text(encoding="utf-8")), drawn.years()
    old, new = known[drawn.AGEING]["stages"], now[drawn.AGEING]["stages"]
    assert [row[0] for row in old] == [row[0] for row in new], stale
    for before, after in zip(old, new, strict=True):
        assert before[1] == pytest.approx(after[1], rel=0.02, abs=0.05), stale
        assert before[2] == pytest.approx(after[2], rel=0.002), stale
    assert known[drawn.STRESSED] == pytest.approx(now[drawn.STRESSED], rel=0.005), stale
    for sheet in (f"{drawn.AGEING}.age.svg", f"{drawn.STRESSED}.tendons.svg"):
        assert "<svg" in (drawn.PICTURES / sheet).read_text(encoding="utf-8")


def test_the_hand_calculation_of_the_plank() -> None:
    """Stresses, elastic loss and camber at release as the page on the pretensioned plank works them out."""
    import soffit

    past = soffit.past(soffit.read(ROOT / "examples/alder-weir-deck-unit.toml"))
    i, m = next(i.step for i in past.instants if i.stage.what == "release"), past.middle
    area, inertia, arm, span = 600.0 * 320.0, 600.0 * 320.0**3 / 12.0, 55.0, 9000.0
    force = sum(float(t.force()[i, m]) for t in past.tendons)
    weight = (2400.0 * (area - 744.0) + 7850.0 * 744.0) * 9.80665e-9
    moment = weight * (span**2 / 8.0 - 150.0**2 / 2.0)
    bent = moment - force * arm
    assert past.bottom[i, m] == pytest.approx(-force / area + bent * 160.0 / inertia, abs=0.05)
    assert past.top[i, m] == pytest.approx(-force / area - bent * 160.0 / inertia, abs=0.05)
    beside = force / area - bent * 110.0 / inertia
    assert past.tendons[0].elastic[i, m] == pytest.approx(195e3 / past.modulus[i] * beside, rel=0.01)
    stiff = past.modulus[i] * inertia
    up = force * arm * span**2 / 8.0 / stiff - 5.0 * weight * span**4 / 384.0 / stiff
    assert -past.deflection[i, m] == pytest.approx(up, abs=0.1)


def test_the_hand_calculation_of_the_two_spans() -> None:
    """Moment over the pier by load balancing, with the rounded loads that the page prints."""
    import soffit
    from soffit.show.tendonsfacts import facts

    def held(load: float, a: float, b: float, span: float = 16.0) -> float:
        return load * ((b**2 - a**2) / 4.0 - (b**4 - a**4) / (8.0 * span**2))

    by_hand = held(17.9, 0.0, 6.4) + held(15.3, 6.4, 15.04) - held(138.0, 15.04, 16.0) + 59.0 / 2.0
    found = facts(soffit.read(ROOT / "examples/alder-weir-two-span.toml"))
    assert found.at(found.moments.total, 16300.0) / 1e6 == pytest.approx(by_hand, rel=0.01)
