"""Deflections of a beam under a lasting load (Gilbert and Nejadi 2004) by the whole tool, from beam files with stages.

The bounds are what is not known: the scatter that the models state of themselves, and the tensile strength, which was
not reported. What is seen in print and what is from memory stands in the heads of the data files.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from evidence import sealed, sustained
from evidence.statistics import summary

from soffit.member.making import Scales
from soffit.member.time import cracking

NONE = 1e-9
TENSILE = 1.645 * 0.30
"""From the mean to the 5 % and 95 % fractiles of the tensile strength (JCSS Probabilistic Model Code, part 3)."""


@pytest.mark.parametrize("humidity", [40, 50])
def test_every_reading_lies_in_the_band(humidity: int) -> None:
    """With nothing but the strength, all 34 between the 5 % and 95 % fractiles of creep 25 %, shrinkage 35 % (fib Model
    Code 2010 5.1.9.4.3), modulus 15 % and tensile strength 30 % (JCSS). The humidity is not known; at 60 %, where the
    shrinkage that was measured lies far outside its own band, the last readings lie above (the page says by how much).
    """
    beam, (_, seen) = sustained.first(humidity=humidity), sustained.points()
    assert len(seen.age) == 34
    assert sustained.outside(sustained.spread(beam), seen).max() == 0.0


def test_every_reading_with_the_measured_concrete() -> None:
    """Modulus, creep and shrinkage put in as measured (from memory): all readings within what the tensile strength,
    which was not reported, leaves open between its 5 % and 95 % fractiles."""
    beam, (_, seen) = sustained.first(), sustained.points()
    scale = sustained.scales(beam)
    low, high = (sustained.follow(beam, replace(scale, tensile=t)).at(seen.age) for t in (1.0 + TENSILE, 1.0 - TENSILE))
    assert np.all((low < seen.deflection) & (seen.deflection < high))


def growth(scale: Scales) -> float:
    """Predicted over measured growth of B1-a from the first hours to the end."""
    (_, seen), told = sustained.points(), sustained.follow(sustained.first(), scale)
    predicted = told.at(seen.age)
    return float((predicted[-1] - predicted[1]) / (seen.deflection[-1] - seen.deflection[1]))


def test_growth_with_the_measured_concrete() -> None:
    """Within a tenth: 0.2 mm of digitising are 3 % of it, the tensile strength moves it by as much, creep and shrinkage
    are printed to two and three digits. The bound has teeth: without creep, or without shrinkage, it is missed."""
    scale = sustained.scales(sustained.first())
    assert growth(scale) == pytest.approx(1.0, abs=0.10)
    assert growth(replace(scale, creep=NONE)) < 0.8
    assert growth(replace(scale, shrinkage=NONE)) < 0.5


def test_last_curvature_by_hand() -> None:
    """Midspan of B1-a at the end by EN 1992-1-1:2004 7.4.3: states I and II with the effective modulus E/(1 + φ)
    (7.20), shrinkage by ε αe S/I (7.21), ζ = 1 − 0.5 (Mcr/M)² (7.19), (7.18). The march differs by its history: stress
    of the concrete moves with time, and shrinks what is not yet cracked."""
    beam = sustained.first()
    told = sustained.follow(beam, sustained.scales(beam)).past
    step, middle = told.at(sustained.LAST), int(np.argmin(np.abs(told.x - 1825.0)))
    width, h, d, area, steel = 250.0, 348.0, 300.0, 400.0, 200e3
    moment = 18.6e3 * 3500 / 3 + 0.25 * 0.348 * 25.0 * 3500**2 / 8
    soft = sustained.MODULUS / (1 + sustained.CREEP)
    ratio = steel / soft

    def bent(depth: float, cracked: bool) -> float:
        """Curvature of a section whose concrete counts from the top to ``depth``."""
        if cracked:
            p = ratio * area / (width * d)
            depth = d * (np.sqrt(p * p + 2 * p) - p)
        whole = width * depth + ratio * area
        centre = (width * depth**2 / 2 + ratio * area * d) / whole
        inertia = width * depth**3 / 12 + width * depth * (centre - depth / 2) ** 2 + ratio * area * (d - centre) ** 2
        return float((moment / soft + sustained.SHRINKAGE * ratio * area * (d - centre)) / inertia)

    # first cracking with the tensile strength at loading, bars counted, as the load came on
    n = steel / sustained.MODULUS
    whole = width * h + (n - 1) * area
    low = h - (width * h**2 / 2 + (n - 1) * area * d) / whole
    inertia = width * h**3 / 12 + width * h * (low - h / 2) ** 2 + (n - 1) * area * (low - (h - d)) ** 2
    crack = float(told.tensile[told.at(sustained.LOADED)]) * inertia / low
    share = 1 - 0.5 * (crack / moment) ** 2
    assert told.cracked[step, middle] == pytest.approx(share, abs=0.01)
    by_hand = share * bent(0.0, True) + (1 - share) * bent(h, False)
    assert told.curvature[step, middle] == pytest.approx(by_hand, rel=0.04)


def test_tension_stiffening_fades(monkeypatch: pytest.MonkeyPatch) -> None:
    """β falls from 1.0 to 0.5: kept at 1.0, B1-a ends less bent by what ζ of 7.4.3 gives by hand, within 20 %."""
    scale = replace(sustained.scales(sustained.first()), creep=NONE, shrinkage=NONE)
    fading = sustained.follow(sustained.first(), scale)
    middle = fading.station
    last = fading.past.at(sustained.LAST)
    monkeypatch.setattr(cracking, "SUSTAINED", 1e12)
    kept = sustained.follow(sustained.first(), scale)
    open_ = 1.0 - kept.past.cracked[last, middle]
    assert 1.0 - fading.past.cracked[last, middle] == pytest.approx(open_ / 2, rel=0.02)
    assert fading.final > 1.05 * kept.final


def test_last_deflections_of_all_six() -> None:
    """From memory but for B1-a: with the measured concrete the mean of six within a tenth, which is what 30 % of the
    tensile strength do on the slabs (on the beams less)."""
    ratios = []
    for each in sustained.specimens().values():
        scale = sustained.scales(each.beam)
        at = {t: sustained.follow(each.beam, replace(scale, tensile=t)).final for t in (0.7, 1.0, 1.3)}
        assert at[1.3] < at[1.0] < at[0.7]
        ratios.append(each.final / at[1.0])
    s = summary(ratios)
    assert s.n == 6
    assert s.mean == pytest.approx(1.0, abs=0.10)
    assert s.variation < 0.10


def test_the_other_models_stay_within_their_own_scatter() -> None:
    """Measured over predicted at the end with the strength alone. The error of a deflection is no larger than that of
    creep and shrinkage together where both err alike: 25 % and 35 %, at 1.645 standard deviations."""
    told = {key: sustained.follow(sustained.first(key)) for key in sustained.MODELS}
    assert len(told) == 4
    _, seen = sustained.points()
    for key, history in told.items():
        ratio = seen.deflection / history.at(seen.age)
        assert 0.65 < ratio.min() <= ratio.max() < 1.5, key


def test_sealed_creep_is_read_as_the_ageing_tests_read_it() -> None:
    found = sealed.sealed()
    assert found.loaded.size == 52
    assert set(np.unique(found.loaded)) == {28.0, 270.0}
    assert found.measured[0] == 27.4
