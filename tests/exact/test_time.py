"""A beam over time against what can be worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.timed import ONLY_CREEP, STILL, YEARS, bars, beam, cast, in_duct, making, strands

from soffit.errors import PhysicsError
from soffit.materials.ageing.models import model
from soffit.member.beam import Bed, Load, Profile, Supports
from soffit.member.making import Scales, Stage
from soffit.member.statics import point
from soffit.member.time import past
from soffit.member.time.bedded import in_bed
from soffit.member.time.viscous import ageing_coefficient
from soffit.section import elastic

LIGHT = Load("dead", 0.5, 0.0, 10000.0)
STAND = Stage("support", 28.0)
PUT_ON = Stage("load", 28.0, cases=("dead",))
OLD = Stage("age", YEARS)


def test_plain_concrete_bends_as_its_compliance_says() -> None:
    """Constant moment, no steel: κ = M J(t, t0)/I."""
    b = beam(making([STAND, PUT_ON, OLD], ONLY_CREEP), loads=[LIGHT], self_weight=False)
    p = past(b, per_decade=12)
    m = p.middle
    law = model("EN 1992-1-1", cast())
    expected = p.moment[-1, m] / b.outline.inertia * law.compliance(p.t[-1], 28.0)
    assert p.curvature[-1, m] == pytest.approx(float(expected), rel=1e-9)
    assert p.deflection[-1, m] == pytest.approx(5 / 48 * float(expected) * 1e8, rel=1e-3)


def test_shrinkage_held_back_by_bars_at_the_centroid() -> None:
    """Without creep: σs = −ε E_s/(1 + n ρ), steady modulus; the bars are squeezed and the concrete stretched alike."""
    b = beam(making([STAND, OLD], Scales(creep=1e-12)), bars=[bars(2000.0, 250.0)], self_weight=False)
    p = past(b)
    law = model("EN 1992-1-1", cast())
    net = b.outline.area - 2000.0
    stress = 0.0
    # the modulus grows while it shrinks: sum over the steps of the march, each with its own
    for n in range(1, len(p.t)):
        shrunk = float(law.shrinkage(p.t[n]) - law.shrinkage(p.t[n - 1]))
        compliance = 0.5 / float(law.modulus(p.t[n])) + 0.5 / float(law.modulus(p.t[n - 1]))
        stress -= shrunk * 200e3 / (1.0 + 200e3 * 2000.0 * compliance / net)
    assert p.bars[-1, 0, 5] == pytest.approx(stress, rel=1e-9)
    assert p.bottom[-1, 5] == pytest.approx(-stress * 2000.0 / net, rel=1e-9)


def test_elastic_loss_of_a_centric_strand() -> None:
    """σ after release = σ0/(1 + n ρ) with net section and the modulus of the day."""
    b = beam(making([Stage("release", 2.0, (0,)), OLD], STILL), tendons=[strands(250.0, 1e4)], self_weight=False)
    p = past(b)
    e = float(model("EN 1992-1-1", cast()).modulus(2.0))
    area = 8 * 93.0
    expected = 1250.0 / (1.0 + 195e3 / e * area / (b.outline.area - area))
    assert p.tendons[0].stress[-1, p.middle] == pytest.approx(expected, rel=1e-9)
    assert p.tendons[0].elastic[-1, p.middle] == pytest.approx(1250.0 - expected, rel=1e-9)


def test_tendons_stressed_one_after_another_lose_half_of_each_others_shortening() -> None:
    """EN 1992-1-1:2004 5.10.5.1: (n − 1)/2n of the shortening by all, here 3/8; none for a single tendon."""
    level = Profile((0.0, 1e4), (250.0, 250.0))
    for count, share in ((4, 3 / 8), (1, 0.0)):
        b = beam(
            making([Stage("stress", 28.0, (0,)), OLD], STILL), tendons=[in_duct(level, 1e4, count)], self_weight=False
        )
        p = past(b)
        e = float(model("EN 1992-1-1", cast()).modulus(28.0))
        area = count * 150.0
        whole = 195e3 / e * area / (b.outline.area - area)
        assert p.tendons[0].stress[-1, 3] == pytest.approx(1300.0 / (1.0 + share * whole), rel=1e-6)


def test_the_second_tendon_shortens_the_first() -> None:
    level = Profile((0.0, 1e4), (250.0, 250.0))
    two = [in_duct(level, 1e4, 1, name="A"), in_duct(level, 1e4, 1, name="B")]
    b = beam(making([Stage("stress", 28.0, (1, 0)), OLD], STILL), tendons=two, self_weight=False)
    p = past(b)
    e = float(model("EN 1992-1-1", cast()).modulus(28.0))
    n_rho = 195e3 / e * 150.0 / (b.outline.area - 300.0)
    # B first, then A squeezes it: B resists with its own stiffness
    assert p.tendons[0].stress[-1, 3] == pytest.approx(1300.0, rel=1e-9)
    assert p.tendons[1].stress[-1, 3] == pytest.approx(1300.0 * (1.0 - n_rho / (1.0 + n_rho)), rel=1e-6)


def test_secondary_moment_of_a_parabola_over_two_spans() -> None:
    """Load balancing: w = 8 P f/L², M over the middle support by w alone = w L²/8, secondary = that less P e."""
    span, drape = 12000.0, 150.0
    profile = Profile((0.0, 6000.0, 12000.0, 18000.0, 24000.0), (250.0, 100.0, 250.0, 100.0, 250.0), "parabola")
    b = beam(
        making([Stage("stress", 28.0, (0,)), OLD], STILL),
        length=24000.0,
        supports=Supports((0.0, span, 2 * span)),
        tendons=[in_duct(profile, 24000.0, 1)],
        self_weight=False,
    )
    p = past(b, pieces=192)
    force = p.tendons[0].stress[-1, 0] * 150.0
    middle = int(np.argmin(np.abs(p.x - span)))
    w = 8.0 * force * drape / span**2
    # no eccentricity over the support: all of the moment there is secondary
    assert p.secondary[-1, middle] == pytest.approx(w * span**2 / 8.0, rel=2e-3)
    assert p.moment[-1, middle] == pytest.approx(p.secondary[-1, middle], rel=1e-9)


def test_creep_alone_changes_no_moment_of_a_beam_cast_in_one_piece() -> None:
    """First theorem of linear viscoelasticity: loads on rigid supports, one concrete, no steel."""
    b = beam(
        making([STAND, PUT_ON, OLD], ONLY_CREEP),
        length=20000.0,
        supports=Supports((0.0, 1e4, 2e4)),
        loads=[Load("dead", 1.0, 0.0, 2e4)],
        self_weight=False,
    )
    p = past(b, pieces=160)
    on = p.instants[1].step
    assert p.moment[-1] == pytest.approx(p.moment[on], rel=1e-9, abs=1.0)
    middle = int(np.argmin(np.abs(p.x - 1e4)))
    assert p.moment[on, middle] == pytest.approx(-1.0 * 1e8 / 8.0, rel=3e-4)


def test_a_support_put_under_a_creeping_span_takes_up_load() -> None:
    """The reaction R solves ∫ J(t, τ) dR(τ) = R_el (J(t, t0) − J(t1, t0)): here by rectangles on a fine grid; one
    step of the age-adjusted method gives R_el E1 ΔJ/(1 + χ φ) (A. Ghali, R. Favre and M. Elbadry 2002, from memory).
    """
    later = Supports((0.0, 1e4, 2e4))
    b = beam(
        making([Stage("load", 28.0, cases=("dead",)), Stage("support", 60.0, supports=later), OLD], ONLY_CREEP),
        length=20000.0,
        supports=Supports((0.0, 2e4)),
        loads=[Load("dead", 0.1, 0.0, 2e4)],
        self_weight=False,
    )
    p = past(b, pieces=160)
    middle = int(np.argmin(np.abs(p.x - 1e4)))
    simple = 0.1 * 4e8 / 8.0
    found = (simple - p.moment[-1, middle]) / (5.0 / 8.0 * 0.1 * 2e4 * 2e4 / 4.0)
    law = model("EN 1992-1-1", cast())
    t = np.concatenate([[60.0], 60.0 + np.geomspace(1e-3, YEARS - 60.0, 800)])
    j = law.compliance(t[:, None], np.minimum(t[None, :], t[:, None]))
    imposed = law.compliance(t, 28.0) - float(law.compliance(60.0, 28.0))
    reaction = np.zeros(len(t))
    for n in range(1, len(t)):
        reaction[n] = (imposed[n] - j[n, 1:n] @ reaction[1:n]) / j[n, n]
    assert found == pytest.approx(reaction.sum(), rel=1e-2)
    coarse = past(b, pieces=160, adjusted=True)
    by_one_step = (simple - coarse.moment[-1, middle]) / (5.0 / 8.0 * 0.1 * 2e4 * 2e4 / 4.0)
    e, growth = float(law.modulus(60.0)), imposed[-1]
    few = np.concatenate([[60.0], 60.0 + np.geomspace(0.05, YEARS - 60.0, 60)])
    chi = ageing_coefficient(np.tril(law.compliance(np.maximum(few[:, None], few[None, :]), few[None, :])))
    creep = float(law.compliance(YEARS, 60.0)) * e - 1.0
    assert by_one_step == pytest.approx(growth * e / (1.0 + chi * creep), rel=5e-3)
    # an imposed strain that grows more slowly than creep itself relaxes less than the one step says
    assert 0.85 < by_one_step / found < 1.0


def test_cracked_section_without_creep_is_the_elastic_cracked_section() -> None:
    """The fibres against the exact transformed section, on the day of loading."""
    reinforcement = bars(1200.0, 50.0)
    load = point(20e3, 5000.0)
    b = beam(making([STAND, PUT_ON, OLD], STILL), bars=[reinforcement], loads=[replace(load, case="dead")])
    p = past(b, fibres=400)
    on, m = p.instants[1].step, p.middle
    e = float(model("EN 1992-1-1", cast()).modulus(28.0))
    layer = elastic.ElasticLayer(50.0, 1200.0, 200e3)
    plane = elastic.cracked_plane(b.outline, e, [layer], moment=p.moment[on, m])
    assert p.cracked[on, m] > 0.2
    assert p.crack_stress[on, m] == pytest.approx(elastic.steel_stress(plane, layer), rel=2e-3)


def test_the_ageing_coefficient_of_a_maxwell_body() -> None:
    """J = (1 + t)/E relaxes as exp(−t), so χ = 1/(1 − e^−φ) − 1/φ."""
    t = np.linspace(0.0, 2.0, 400)
    j = np.tril(1.0 + (t[:, None] - t[None, :]))
    assert ageing_coefficient(j) == pytest.approx(1.0 / (1.0 - np.exp(-2.0)) - 0.5, rel=1e-5)


def test_a_prop_taken_away_leaves_the_beam_on_its_ends() -> None:
    """No creep: the moments are then those of the simple span, whatever stood between."""
    propped = Supports((0.0, 5000.0, 1e4))
    b = beam(
        making([Stage("support", 28.0, supports=propped), PUT_ON, Stage("support", 40.0), OLD], STILL),
        loads=[LIGHT],
        self_weight=False,
    )
    p = past(b)
    before = p.instants[1].step
    middle = int(np.argmin(np.abs(p.x - 5000.0)))
    assert p.moment[before, middle] == pytest.approx(-0.5 * 5000.0**2 / 8.0, rel=5e-3)
    assert p.moment[-1, middle] == pytest.approx(0.5 * 1e8 / 8.0, rel=1e-5)


SENTENCES = [
    (
        beam(making([STAND, OLD]), bars=[bars(500.0, 50.0)]),
        {"making": None},
        "how this beam ages is not known, for the humidity around it is not given: "
        'write relative_humidity = "60 %" in [concrete]',
    ),
    (
        beam(making([Stage("load", 0.05, cases=("dead",)), OLD]), loads=[LIGHT]),
        {},
        "dead load put on at 1.2 hours meets no hard concrete: the earliest age is 0.1 days",
    ),
    (
        beam(making([STAND, PUT_ON, OLD]), loads=[Load("dead", 30.0, 0.0, 1e4)]),
        {},
        "no steel holds a crack together at x = 5000 mm, 28 days after casting: the beam breaks as it cracks",
    ),
    (
        beam(making([Stage("release", 1.0, (0,)), OLD]), tendons=[replace(strands(250.0, 1e4), stress_is="effective")]),
        {},
        "the stress of tendon A is effective, after all losses, so none can be computed: "
        'write stress_is = "at the jack"',
    ),
    (
        beam(making([Stage("release", 0.5, (0,)), OLD]), tendons=[strands(100.0, 1e4, 40)], width=200.0, depth=400.0),
        {},
        "the concrete at x =",
    ),
]


@pytest.mark.parametrize(("b", "change", "sentence"), SENTENCES)
def test_what_cannot_be_is_said_in_one_sentence(b: object, change: dict[str, object], sentence: str) -> None:
    with pytest.raises(PhysicsError) as told:
        past(replace(b, **change))  # type: ignore[type-var]
    assert sentence in str(told.value)


def test_heat_in_the_bed_brings_relaxation_forward() -> None:
    """EN 1992-1-1:2004 (10.2), from memory: 1.14^ΔT per heated day; 0.75 days at 30 K more count for 38 days."""
    warm = replace(strands(250.0, 1e4), bed=Bed(60000.0, 0.0, 30.0))
    stages = [Stage("stress", -1.0, (0,)), Stage("release", 1.0, (0,)), OLD]
    made = making(stages, casting=replace(cast(), heat_days=0.75))
    found = in_bed(beam(made, tendons=[warm]), made, 0)
    mu, hours = 1250.0 / 1860.0, 24.0 * (2.0 + 0.75 * 1.14**30)
    expected = 1250.0 * 0.66 * 2.5 * np.exp(9.1 * mu) * (hours / 1000.0) ** (0.75 * (1.0 - mu)) * 1e-5
    assert found.relaxation == pytest.approx(expected, rel=1e-9)
    assert found.warming == pytest.approx(0.5 * 195e3 * 1e-5 * 30.0)
