"""A life does not depend on how finely the beam, its steps or its outline are cut."""

from __future__ import annotations

import numpy as np
import pytest

from soffit.member import curvatures, grid
from soffit.member.beam import Beam, Press, Profile, Supports
from soffit.member.life import life
from soffit.member.result import Life
from soffit.section import outline
from specimens import CONCRETE, bars, beam, stirrups, tendon, uniform

L = 4000.0
BARRED = beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),))
DRAPED = Profile((0.0, L / 2, L), (150.0, 60.0, 150.0), "parabola")
SPECIMENS: dict[str, Beam] = {
    "barred": BARRED,
    "uniform": beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),), loads=(uniform(L),)),
    "plain": beam(L),
    "pretensioned": beam(
        L,
        tendons=(
            tendon(150.0, 60.0, L, 1100.0, when="before casting", bond="bonded", transfer_length=400.0, diameter=8.0),
        ),
        stirrups=(stirrups(L),),
    ),
    "unbonded": beam(
        L,
        bars=(bars(2, 12.0, 40.0, L),),
        tendons=(tendon(150.0, DRAPED, L, 1000.0),),
        stirrups=(stirrups(L),),
        loads=(uniform(L),),
    ),
    "propped": beam(
        L,
        supports=Supports((0.0, L), fixed_left=True),
        bars=(bars(3, 12.0, 40.0, L), bars(3, 12.0, 260.0, L)),
        stirrups=(stirrups(L),),
        press=Press((L / 2,)),
    ),
}


def falling(told: Life, share: float) -> float:
    """Deflection at which the load has fallen to a share of the peak, mm."""
    peak = int(np.argmax(told.curve.load))
    load, deflection = told.curve.load[peak:], told.curve.deflection[peak:]
    i = int(np.argmax(load <= share * load[0]))
    assert i > 0
    t = (load[i - 1] - share * load[0]) / (load[i - 1] - load[i])
    return float(deflection[i - 1] + t * (deflection[i] - deflection[i - 1]))


def rising(told: Life, share: float) -> float:
    """Deflection at which the load has first risen to a share of the peak, mm."""
    peak = int(np.argmax(told.curve.load))
    return float(
        np.interp(share * told.curve.load[peak], told.curve.load[: peak + 1], told.curve.deflection[: peak + 1])
    )


@pytest.mark.parametrize("name", SPECIMENS)
def test_stretches_of_the_beam(name, monkeypatch):
    """Peak, deflections on the way up and at the peak with half, and four times, the stretches."""
    found = []
    for pieces in (30, 60, 240):
        monkeypatch.setattr(grid, "PIECES", pieces)
        told = life(SPECIMENS[name])
        found.append([told.peak.load, rising(told, 0.5), rising(told, 0.9), told.peak.deflection])
    coarse, usual, fine = np.array(found)
    np.testing.assert_allclose(usual, fine, rtol=5e-3)
    np.testing.assert_allclose(coarse, fine, rtol=2e-2)
    assert usual[0] == pytest.approx(fine[0], rel=1e-3)


@pytest.mark.parametrize("name", ["barred", "plain", "uniform", "pretensioned"])
def test_falling_branch_does_not_depend_on_the_stations(name, monkeypatch):
    """The hinge has its length whatever the stations are."""
    found = []
    for pieces in (30, 60, 240):
        monkeypatch.setattr(grid, "PIECES", pieces)
        told = life(SPECIMENS[name])
        found.append([falling(told, 0.95), falling(told, 0.85)])
    np.testing.assert_allclose(found[0], found[2], rtol=2e-2)
    np.testing.assert_allclose(found[1], found[2], rtol=5e-3)


@pytest.mark.parametrize("name", SPECIMENS)
def test_steps_of_curvature(name, monkeypatch):
    found = []
    for growth in (1.12, 1.06, 1.015):
        monkeypatch.setattr(curvatures, "GROWTH", growth)
        told = life(SPECIMENS[name])
        found.append([told.peak.load, rising(told, 0.9)])
    coarse, usual, fine = np.array(found)
    np.testing.assert_allclose(usual, fine, rtol=2e-3)
    np.testing.assert_allclose(coarse, fine, rtol=1e-2)


def test_events_do_not_depend_on_the_steps(monkeypatch):
    """Decompression and first crack are solved for, not stepped on; yield is found between two steps."""
    loads = []
    for growth in (1.06, 1.015):
        monkeypatch.setattr(curvatures, "GROWTH", growth)
        told = life(SPECIMENS["unbonded"])
        loads.append({e.event: e.load for e in told.events})
    for name, tolerance in (("decompression", 1e-6), ("first crack", 1e-4), ("bar yield", 2e-3)):
        assert loads[0][name] == pytest.approx(loads[1][name], rel=tolerance), name


def test_sides_of_a_circle(monkeypatch):
    found = []
    for sides in (24, 96, 384):
        monkeypatch.setattr(outline, "CIRCLE_SIDES", sides)
        steel = (bars(2, 20.0, 60.0, L), bars(2, 20.0, 300.0, L))
        specimen = beam(L, outline.circle(360.0), bars=steel, stirrups=(stirrups(L),), concrete=CONCRETE)
        told = life(specimen)
        found.append([told.peak.load, told.peak.deflection, told.events[0].load])
    np.testing.assert_allclose(found[0], found[2], rtol=1e-2)
    np.testing.assert_allclose(found[1], found[2], rtol=1e-3)
