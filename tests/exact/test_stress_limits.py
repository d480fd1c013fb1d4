"""Limits of stress by the standards and which of them applies at a stage; hand values."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

import aged
from soffit.codes.aashto import stresses as aashto
from soffit.codes.aci318 import stresses as aci
from soffit.codes.en1992 import stresses as en
from soffit.codes.stages import StageCheck, at_stages
from soffit.materials.ageing.aashto import KSI
from soffit.materials.ageing.casting import Casting
from soffit.materials.standards import PSI
from soffit.member.beam import Beam
from soffit.member.making import Stage
from soffit.member.time.engine import past
from soffit.member.time.result import Past


def test_en_by_hand() -> None:
    assert en.characteristic(30.0, 3.0, 40.0) == 22.0
    assert en.characteristic(60.0, 3.0, 40.0) == 40.0  # never above what is ordered
    assert en.characteristic(30.0, 28.0, 40.0) == 40.0
    assert en.compression_at_transfer(22.0) == pytest.approx(13.2)
    assert en.compression_at_transfer(22.0, proven_pretensioned=True) == pytest.approx(15.4)
    assert en.compression_quasi_permanent(40.0) == pytest.approx(18.0)
    assert en.compression_characteristic(40.0) == pytest.approx(24.0)
    assert en.tendon_in_service(1860.0) == pytest.approx(1395.0)


def test_aci_by_hand_and_mistake_9() -> None:
    """At 3600 and 6400 psi the roots are 60 and 80 psi; 0.70 f'ci is for the ends, 0.60 for what lies between."""
    fci, fc = 3600.0 * PSI, 6400.0 * PSI
    assert aci.compression_at_transfer(fci, end=True) / PSI == pytest.approx(2520.0)
    assert aci.compression_at_transfer(fci, end=False) / PSI == pytest.approx(2160.0)
    assert aci.tension_at_transfer(fci, end=True) / PSI == pytest.approx(360.0)
    assert aci.tension_at_transfer(fci, end=False) / PSI == pytest.approx(180.0)
    edges = [600.0, 600.01, 960.0, 960.01]
    assert [aci.tension_class(s * PSI, fc) for s in edges] == ["U", "T", "T", "C"]
    assert aci.compression_in_service(fc, total=False) / PSI == pytest.approx(2880.0)
    assert aci.compression_in_service(fc, total=True) / PSI == pytest.approx(3840.0)


def test_aashto_by_hand_and_mistakes_12_and_26() -> None:
    """At 4 ksi the root is 2 ksi; caps of 0.2, 0.3 and 0.6 ksi from 4.45, 10.0 and 9.97 ksi on."""
    assert aashto.tension_at_transfer(4.0 * KSI, bonded=False) / KSI == pytest.approx(0.1896)
    assert aashto.tension_at_transfer(9.0 * KSI, bonded=False) / KSI == pytest.approx(0.2)
    assert aashto.tension_at_transfer(9.0 * KSI, bonded=True) / KSI == pytest.approx(0.72)
    assert aashto.tension_in_service(9.0 * KSI) / KSI == pytest.approx(0.57)
    assert aashto.tension_in_service(16.0 * KSI) / KSI == pytest.approx(0.6)
    assert aashto.tension_in_service(16.0 * KSI, severe=True) / KSI == pytest.approx(0.3)
    assert aashto.compression_at_transfer(10.0) == pytest.approx(6.5)
    assert aashto.compression_at_transfer(10.0, "before 2016") == pytest.approx(6.0)
    assert aashto.tendon_after_seating(1860.0, at_anchor=False) == pytest.approx(1376.4)
    assert aashto.tendon_after_seating(1860.0, at_anchor=True) == pytest.approx(1302.0)


@cache
def plank() -> Past:
    return past(aged.plank())


def loaded(share: float, value: float = 6.0) -> Past:
    beam = aged.plank()
    assert beam.making is not None
    stages = tuple(replace(s, share=share) if s.cases == ("live",) else s for s in beam.making.stages)
    loads = tuple(replace(w, value=value) if w.case == "live" else w for w in beam.loads)
    return past(replace(beam, loads=loads, making=replace(beam.making, stages=stages)))


def of(checks: tuple[StageCheck, ...], standard: str, rule: str, what: str = "compression") -> list[StageCheck]:
    return [c for c in checks if c.standard == standard and c.rule == rule and c.what == what]


def test_the_limit_at_transfer_goes_by_the_strength_of_that_day() -> None:
    found = at_stages(plank())
    (transfer,) = of(found, en.NAME, "0.6 fck(t)")
    assert (transfer.kind, transfer.strength) == ("transfer", "mean 30.0 − 8 = 22.0 MPa at 1 day")
    assert transfer.limit == pytest.approx(13.2)
    (end,) = of(found, aci.NAME, "0.70 f'ci")
    assert (end.limit, end.strength) == (pytest.approx(21.0), "30 MPa, the strength at transfer")
    assert end.where.endswith("at an end")


def test_stresses_are_the_extremes_of_the_past() -> None:
    found, p = at_stages(plank()), plank()
    step = p.instants[0].step
    lowest = min(p.bottom[step].min(), p.top[step].min())
    (transfer,) = of(found, en.NAME, "0.6 fck(t)")
    assert transfer.stress == pytest.approx(lowest)
    assert p.bottom[step, np.argmin(np.abs(p.x - transfer.x))] == pytest.approx(lowest)
    assert transfer.ratio == pytest.approx(-lowest / 13.2)
    ends, middle = of(found, aci.NAME, "0.70 f'ci")[0], of(found, aci.NAME, "0.60 f'ci")[0]
    assert min(ends.stress, middle.stress) == pytest.approx(lowest)
    # fse db/21 of 1300 MPa and 12.5 mm
    assert min(ends.x, 9200.0 - ends.x) <= 1300.0 * 12.5 / 21.0 < min(middle.x, 9200.0 - middle.x)


def test_a_part_of_the_live_load_stays_and_the_whole_is_the_total() -> None:
    part, whole = at_stages(loaded(0.3)), at_stages(loaded(1.0))
    assert {c.kind for c in part} == {"transfer", "sustained"}
    total = [c for c in whole if c.kind == "total"]
    assert {c.instant.label for c in total} == {"live load put on", "age of 50 years"}
    assert {c.rule for c in total if c.what == "compression"} >= {"0.6 fck", "0.60 f'c", "0.60 φw f'c, φw = 1"}


def test_mistake_9_class_c_has_no_limit_of_compression() -> None:
    found = at_stages(loaded(1.0, 16.0), (aci.NAME,))
    cracked = [c for c in found if c.kind == "total"]
    assert all(c.note.startswith("Class C") for c in cracked if c.what == "tension")
    assert not [c for c in cracked if c.what == "compression"]
    assert [c for c in found if c.rule == "0.45 f'c"]  # before the load came it was in class U


def test_tendons() -> None:
    found = at_stages(past(aged.girder()))
    by = {(c.standard, c.rule): c for c in found if c.what == "tendon" and c.instant.label == "tendons A stressed"}
    assert by[en.NAME, "min(0.75 fpk, 0.85 fp0.1k)"].limit == pytest.approx(min(0.75 * 1860, 0.85 * 1640))
    anchor = by[aci.NAME, "0.70 fpu"]
    assert anchor.limit == pytest.approx(1302.0)
    assert anchor.stress > 1302.0
    assert not anchor.kept
    assert (aci.NAME, "0.74 fpu") not in by
    # after all losses means at the end
    service = [c for c in found if c.rule == "0.80 fpy"]
    assert {c.instant.label for c in service} == {"age of 50 years"}


def test_ordinary_beams_are_checked_cracked_and_by_en_1992_alone() -> None:
    p = past(aged.joist())
    found = at_stages(p)
    assert {c.standard for c in found} == {en.NAME}
    pressed = [c for c in found if c.what == "compression" and c.instant.label == "age of 50 years"]
    assert {c.where for c in pressed} == {"cracked section"}
    # elastic, as if uncracked, it would be less
    assert pressed[0].stress < p.top[-1].min()
    (bar,) = [c for c in found if c.what == "bar" and c.instant.label == "age of 50 years"]
    assert bar.stress == pytest.approx(p.crack_stress[-1].max())


def young() -> Beam:
    beam = aged.plank(((1, 125.0),), loads=False, area=5.0)
    made = replace(
        beam.making,
        casting=Casting(48.0, 60.0, 176.0, "N", cured_until=1.0, specified=40.0),
        stages=(Stage("release", 0.3, (0,)), Stage("age", 100.0)),
    )
    return replace(beam, making=made)


def test_concrete_without_a_specified_strength_may_bear_nothing() -> None:
    found = [c for c in at_stages(past(young())) if c.kind == "transfer" and c.standard == en.NAME]
    (none,) = found
    assert not none.kept
    assert none.note == "a mean strength of 5.5 MPa at 0.3 days has no characteristic value (fcm − 8 MPa)"


def test_an_unknown_standard() -> None:
    with pytest.raises(ValueError) as error:
        at_stages(plank(), ("BS 8110",))
    assert str(error.value) == (
        "there are no limits of stress by 'BS 8110': choose among EN 1992-1-1:2004, ACI 318-19, AASHTO LRFD"
    )
