"""Losses by the standards against hand values; the common mistakes of the fact sheet, each by its number."""

from __future__ import annotations

import pytest

from soffit.codes.aashto import losses as aashto
from soffit.codes.aci318 import losses as zia
from soffit.codes.en1992 import losses as en
from soffit.codes.explained import Difference, sentence
from soffit.materials.ageing.aashto import KSI
from soffit.materials.ageing.aashto_losses import Girder
from soffit.materials.standards import PSI

GIVEN = {
    "steel_area": 1000.0, "area": 2e5, "inertia": 4e9, "arm": 200.0, "steel_modulus": 200e3, "concrete_modulus": 40e3,
    "creep": 2.5, "shrinkage": 4e-4, "relaxation": 50.0, "stress": 10.0,
}  # fmt: skip


def test_5_46_by_hand() -> None:
    """80 + 0.8 · 50 + 5 · 2.5 · 10 = 245 over 1 + 5 · 0.005 · (1 + 2) · (1 + 0.8 · 2.5) = 1.225: 200 MPa."""
    terms = en.long_term(**GIVEN)
    assert (terms.shrinkage, terms.relaxation, terms.creep) == pytest.approx((80.0, 40.0, 125.0))
    assert terms.restraint == pytest.approx(1.225)
    assert terms.total == pytest.approx(200.0)


def test_mistake_16_ratio_the_right_way_up_and_0_8_on_relaxation() -> None:
    """With Ecm/Ep the denominator would be 1.009; with all of the relaxation the numerator 255."""
    terms = en.long_term(**GIVEN)
    assert terms.restraint > 1.2
    assert terms.total * terms.restraint == pytest.approx(245.0)


def test_tendons_at_several_heights() -> None:
    """With one height both arms are the same; a tendon in the centroid feels no arm at all."""
    assert en.long_term(**GIVEN, all_arm=200.0) == en.long_term(**GIVEN)
    middle = en.long_term(**(GIVEN | {"arm": 0.0}), all_arm=200.0)
    assert middle.restraint == pytest.approx(1.0 + 5.0 * 0.005 * 3.0)


def test_one_after_another() -> None:
    assert [en.share_of_shortening(n) for n in (1, 2, 4)] == pytest.approx([0.0, 0.25, 0.375])
    assert en.elastic(steel_modulus=200e3, concrete_modulus=40e3, stress=10.0, share=0.25) == pytest.approx(12.5)
    turn = aashto.elastic_shortening_in_turn(tendons=2, stress=10.0, steel_modulus=200e3, concrete_modulus=40e3)
    assert turn == pytest.approx(12.5)


def test_approximate_losses_of_aashto_at_the_usual_values() -> None:
    """At H = 70 % and f'ci = 4 ksi both factors are 1: 12 ksi of shrinkage and 10 fpi Aps/Ag of creep."""
    terms = aashto.approximate(
        stress=200.0 * KSI, steel_area=1.0, area=100.0, humidity=70.0, transfer_strength=4.0 * KSI
    )
    assert (terms.humidity_factor, terms.strength_factor) == pytest.approx((1.0, 1.0))
    assert (terms.creep / KSI, terms.shrinkage / KSI, terms.relaxation / KSI) == pytest.approx((20.0, 12.0, 2.4))


def test_refined_losses_without_deck_do_not_depend_on_the_day_that_parts_them() -> None:
    """Little steel, no later load: shrinkage and creep before and after td add up to the whole."""
    g = Girder(1.0, 5e5, 2e11, 300.0, 195e3, 30e3)

    def whole(share: float) -> float:
        terms = aashto.refined(
            g, g, stress=15.0, placing=0.0, later_modulus=34e3, creep_until=2.0 * share, creep=2.0, later_creep=0.5,
            shrinkage_until=5e-4 * share, shrinkage=5e-4, strand_stress=1300.0, yield_stress=1670.0,
        )  # fmt: skip
        return terms.total

    assert whole(0.3) == pytest.approx(whole(0.8), rel=1e-5)
    assert whole(0.5) == pytest.approx(
        5e-4 * 195e3 + 195 / 30 * 15 * 2 + 2 * 1300 / 30 * (1300 / 1670 - 0.55), rel=1e-4
    )


def test_deck_weight_takes_creep_back_and_its_shrinkage_too() -> None:
    g = Girder(4000.0, 5e5, 2e11, 300.0, 195e3, 30e3)
    base = {
        "stress": 15.0, "placing": 0.0, "later_modulus": 34e3, "creep_until": 1.0, "creep": 2.0, "later_creep": 0.8,
        "shrinkage_until": 2e-4, "shrinkage": 5e-4, "strand_stress": 1300.0, "yield_stress": 1670.0,
    }  # fmt: skip
    plain = aashto.refined(g, g, **base)
    # what is lost before the deck presses the concrete less after it
    lost = (plain.shrinkage + plain.creep + plain.relaxation) * 4000.0 / 5e5 * (1 + 5e5 * 300.0**2 / 2e11)
    by_hand = (195 / 30 * 15.0 * 1.0 - 195 / 34 * lost * 0.8) * plain.later_restraint
    assert plain.later_creep == pytest.approx(by_hand)
    heavy = aashto.refined(g, g, **(base | {"placing": -4.0}))
    assert heavy.later_creep == pytest.approx(plain.later_creep - 195 / 34 * 4.0 * 0.8 * plain.later_restraint)
    drying = aashto.refined(g, g, **(base | {"deck_stress": -1.0}))
    assert drying.deck == pytest.approx(-195 / 34 * plain.later_restraint * (1 + 0.7 * 0.8))


def test_relaxation_of_zia_by_hand() -> None:
    """270 ksi: low relaxation (5000 − 0.04 · 40000) · 1.00 at 0.75; stress-relieved (20000 − 0.15 · 40000) · 1.00 at
    0.70; a bar of 160 ksi (6000 − 0.05 · 40000) · 0.75 at 0.70."""
    other = 40000.0 * PSI

    def lost(fpu: float, ratio: float, steel: str) -> float:
        return zia.relaxation(other=other, tensile=fpu * KSI, ratio=ratio, steel=steel) / PSI

    assert lost(270.0, 0.75, "low relaxation") == pytest.approx(3400.0)
    assert lost(270.0, 0.70, "ordinary") == pytest.approx(14000.0)
    assert lost(160.0, 0.70, "bar") == pytest.approx(3000.0)
    assert lost(270.0, 0.50, "low relaxation") == lost(270.0, 0.60, "low relaxation")


def test_shrinkage_of_zia() -> None:
    """Es 28 000 ksi, V/S 4 in, 70 %: 8.2e-6 · 28e6 · 0.76 · 30 psi; stressed five days after curing 0.80 of it."""
    given = {"steel_modulus": 28000 * KSI, "volume_surface": 4 * 25.4, "humidity": 70.0}
    assert zia.shrinkage(**given, when="before casting") / PSI == pytest.approx(8.2e-6 * 28e6 * 0.76 * 30)
    late = zia.shrinkage(**given, when="after curing", cured=5.0)
    assert late == pytest.approx(0.80 * zia.shrinkage(**given, when="before casting"))


def test_the_sentence_tells_the_largest_first_and_adds_up() -> None:
    causes = (Difference("its creep", -3.0), Difference("its shrinkage", 12.0), Difference("a trifle", 0.3))
    assert sentence("(5.46)", 209.3, 200.0, causes, "MPa") == (
        "(5.46) gives 209 MPa, 9 MPa more than step by step (200): +12.0 by its shrinkage; −3.0 by its creep; +0.3 by "
        "smaller things."
    )
    assert sentence("It", -1.5, -1.52, (), "mm", 1) == "It gives −1.5 mm, as step by step (−1.5)."


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: en.long_term(**(GIVEN | {"area": 0.0})), "area is 0, and a number above zero is wanted"),
        (lambda: en.long_term(**(GIVEN | {"creep": -1.0})), "creep is -1, and zero or a number above it is wanted"),
        (lambda: en.long_term(**(GIVEN | {"stress": float("nan")})), "stress is nan, and a number is wanted"),
        (lambda: en.share_of_shortening(0), "0 tendons are stressed one after another, and at least one is wanted"),
        (
            lambda: aashto.approximate(stress=1e3, steel_area=1.0, area=9.0, humidity=0.7, transfer_strength=30.0),
            "the relative humidity is wanted in per cent, from above 1 to 100, and 0.7 is none",
        ),
        (
            lambda: zia.relaxation(other=0.0, tensile=1860.0, ratio=0.85, steel="low relaxation"),
            "a stress of 0.850 of the strength is above 0.8, where the table of C ends",
        ),
        (
            lambda: zia.shrinkage(steel_modulus=1.0, volume_surface=50.0, humidity=60.0, when="after curing"),
            "the days from the end of moist curing to stressing are wanted of post-tensioned tendons",
        ),
    ],
)
def test_what_is_refused(call, said: str) -> None:
    with pytest.raises(ValueError) as error:
        call()
    assert str(error.value) == said
