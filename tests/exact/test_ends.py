"""Ends of prestressed beams: formulas of the clauses in closed form, the working that is computed from its own text,
and the geometry around the anchors."""

from __future__ import annotations

from dataclasses import replace
from math import inf, sqrt

import pytest

from soffit.codes import specified
from soffit.codes.aashto import ends as aashto
from soffit.codes.aci318 import ends as aci318
from soffit.codes.en1992 import ends as en1992
from soffit.codes.endzone import Anchors, Plate, Reaction
from soffit.codes.working import Check, Symbol, evaluate, work
from soffit.detail import endplaces as places
from soffit.detail import endsupport as support
from soffit.detail.ends import ends
from soffit.errors import PhysicsError, SoffitError
from soffit.materials.standards import aci_mean
from soffit.member.beam import Anchor, Beam, Load, Profile, Supports
from soffit.section.outline import box, circle, rectangle, tee
from specimens import beam, stirrups, tendon, uniform

PSI, KSI, INCH = specified.PSI, specified.KSI, 25.4
ZONE = Anchors(jack=1000e3, size=200.0, section=800.0, prism=600.0, eccentricity=100.0, incline=0.1)
LENGTH = 6000.0


def stressed(plate: tuple[float, float] | None = (150.0, 200.0), y: float = 300.0, **more: object) -> Beam:
    """400 × 600 mm, one tendon of 1000 mm² at 1000 MPa with its plate, stirrups of 2 × 10 mm each 100 mm."""
    of = {"count": 1, "stress_is": "at the jack", "anchor": Anchor("wedge", 2e6, "", 0.0, plate, 60.0)} | more
    return beam(
        LENGTH,
        rectangle(400.0, 600.0),
        tendons=(tendon(1000.0, y, LENGTH, 1000.0, **of),),
        stirrups=(stirrups(LENGTH, 10.0, 100.0),),
        supports=Supports((150.0, LENGTH - 150.0), bearing=200.0),
        loads=(uniform(LENGTH, 10.0), uniform(LENGTH, 5.0, "dead")),
    )


def check(found: Beam, title: str, to: str = "en1992") -> Check:
    (line,) = [line for line in ends(found, to).ends[0].lines if line.title == title]
    return line.check


class TestWorking:
    A, H = Symbol("a", 3.0, "length", ""), Symbol("h_a'", 2.0, "length", "")

    def test_value_follows_from_the_text(self) -> None:
        made = work("x", "", "2·a^2 − √(h_a' + a·a·a − 4) + max(a, h_a')/0.5", (self.A, self.H), "length")
        assert made.value == pytest.approx(18.0 - 5.0 + 6.0)
        assert made.written(lambda s: f"<{s.value:g}>") == "2·<3>^2 − √(<2> + <3>·<3>·<3> − 4) + max(<3>, <2>)/0.5"

    @pytest.mark.parametrize(
        "text", ["a + b", "a +", "__import__('os')", "a.real", "a if 1 else 2", "open(a)", "a(3)", ""]
    )
    def test_only_arithmetic_of_known_symbols(self, text: str) -> None:
        with pytest.raises(ValueError, match="is no formula of its symbols"):
            evaluate(text, (self.A,))

    def test_one_symbol_has_one_value(self) -> None:
        with pytest.raises(ValueError, match="is given twice"):
            evaluate("a", (self.A, replace(self.A, value=4.0)))

    def test_ratio_where_nothing_resists_or_is_asked(self) -> None:
        some, none = work("x", "", "a", (self.A,), "area"), work("y", "", "0", (), "area")
        assert Check("", "", some, none, ()).ratio == inf
        assert Check("", "", none, none, ()).ratio == 0.0
        assert not Check("", "", some, none, ()).kept


class TestClauses:
    def test_aashto_bursting(self) -> None:
        tie = aashto.bursting(ZONE, 420.0)
        pu = 1.2e6
        sin_a = 0.09983341664682815
        assert tie.force.value == pytest.approx(0.25 * pu * 0.75 + 0.5 * pu * sin_a)
        assert tie.centre is not None
        assert tie.centre.value == pytest.approx(0.5 * 600.0 + 500.0 * sin_a)
        assert tie.steel.value == pytest.approx(tie.force.value / 420.0)
        assert tie.length.value == pytest.approx(2.5 * tie.centre.value)

    def test_aci_has_the_same_force_and_its_own_factor(self) -> None:
        ours, theirs = aci318.bursting(ZONE, 420.0), aashto.bursting(ZONE, 420.0)
        assert ours.force.value == theirs.force.value
        assert ours.steel.value == pytest.approx(theirs.steel.value / 0.85)

    def test_en_bursting_in_its_prism_with_steel_at_300(self) -> None:
        tie = en1992.bursting(ZONE, 500.0)
        assert tie.force.value == pytest.approx(0.25 * (600.0 - 200.0) / 600.0 * 1.2e6)
        assert tie.steel.value == pytest.approx(tie.force.value / 300.0)
        assert tie.length.value == 600.0
        assert en1992.bursting(ZONE, 250.0).steel.value == pytest.approx(tie.force.value / (250.0 / 1.15))

    def test_en_bearing_to_three_times_fcd(self) -> None:
        plate = Plate(40000.0, 37000.0, 1.5, 800e3)
        assert en1992.plate(plate, 30.0).resistance.value == pytest.approx(37000.0 * 20.0 * 1.5)
        assert en1992.plate(replace(plate, ratio=5.0), 30.0).resistance.value == pytest.approx(3 * 20.0 * 37000.0)
        assert en1992.plate(plate, 30.0).demand.value == pytest.approx(960e3)

    def test_american_bearing_under_a_plate(self) -> None:
        plate = Plate(40000.0, 37000.0, 1.5, 800e3)
        fn = 0.7 * 30.0 * 1.5
        assert aashto.plate(plate, 30.0).resistance.value == pytest.approx(0.80 * fn * 37000.0)
        assert aci318.plate(plate, 30.0).resistance.value == pytest.approx(0.85 * fn * 37000.0)

    def test_bearing_at_a_support(self) -> None:
        force = Reaction(100e3, 50e3)
        en, aci, lrfd = (rules.bearing(force, 30000.0, 30.0) for rules in (en1992, aci318, aashto))
        assert (en.demand.value, en.resistance.value) == pytest.approx((210e3, 600e3))
        assert (aci.demand.value, aci.resistance.value) == pytest.approx((200e3, 0.65 * 0.85 * 30 * 30000))
        assert (lrfd.demand.value, lrfd.resistance.value) == pytest.approx((212.5e3, 0.70 * 0.85 * 30 * 30000))
        assert aci318.bearing(Reaction(100e3, 0.0), 3e4, 30.0).demand.value == pytest.approx(140e3)

    def test_splitting_steel_works_at_20_ksi(self) -> None:
        tie = aashto.splitting(1000.0 * 4448.2216152605, 40 * INCH, 60 * KSI)
        assert tie.steel.value == pytest.approx(40.0 / 20.0 * INCH**2, rel=1e-9)
        weak = aashto.splitting(1e6, 1000.0, 100.0)
        assert weak.steel.value == pytest.approx(4e4 / 100.0)

    def test_transmission_length_of_a_strand(self) -> None:
        # fact of standards: 12.5 mm, 1300 MPa, fctm(t) = 2.896 MPa (C30), sudden release gives 892 mm
        *_, lpt, low = en1992.transmission(1300.0, 12.5, 0.30 * 30.0 ** (2 / 3), strand=True)
        assert lpt.value == pytest.approx(892.0, abs=1.0)
        assert low.value == pytest.approx(0.8 * lpt.value)

    def test_specified_strengths_undo_the_means(self) -> None:
        assert specified.en(38.0) == 30.0
        for psi in (2500.0, 3500.0, 5000.0, 8000.0):
            assert specified.aci(aci_mean(psi * PSI)) == pytest.approx(psi * PSI)
        with pytest.raises(
            PhysicsError, match=r"a mean strength of 8\.0 MPa has no characteristic value in EN 1992-1-1"
        ):
            specified.en(8.0)
        with pytest.raises(PhysicsError, match=r"a mean strength of 5\.0 MPa is too little for a specified strength"):
            specified.aci(5.0)


class TestPlaces:
    def test_edge_tension_of_a_rectangle(self) -> None:
        """P at e from the middle: σ = P/bh (−1 + 6 e/h) at the far edge, over h (6 e/h − 1)/(12 e/h)."""
        p, b, h, e = 1e6, 300.0, 600.0, 200.0
        edge, far = p / (b * h) * (6 * e / h - 1), h * (6 * e / h - 1) / (12 * e / h)
        assert places.edge_tension(rectangle(b, h), p, h / 2 - e) == pytest.approx(edge * far * b / 2)
        assert places.edge_tension(rectangle(b, h), p, h / 2 + e) == pytest.approx(edge * far * b / 2)
        assert places.edge_tension(rectangle(b, h), p, h / 2 - 99.9) == 0.0

    def test_edge_tension_of_a_tee_balances(self) -> None:
        """What is pulled and what is pressed add up to the force: a fine sum over the height as the reference."""
        outline, p, y = tee(900.0, 350.0, 1200.0, 180.0), 1e6, 100.0
        area, c, inertia = outline.area, outline.centroid, outline.inertia
        n = 90000
        heights = [(i + 0.5) * 900.0 / n for i in range(n)]
        pulled = sum(
            max(-p / area - p * (y - c) * (h - c) / inertia, 0.0) * (350.0 if h < 720.0 else 1200.0) for h in heights
        )
        assert places.edge_tension(outline, p, y) == pytest.approx(pulled * 900.0 / n, rel=1e-4)

    def test_concentric_area_stops_at_the_nearest_edge(self) -> None:
        (row,) = places.rows(stressed(), "left")
        assert places.free_ratio(rectangle(400.0, 600.0), row, []) == pytest.approx(400.0 / 150.0, rel=1e-9)
        low = replace(row, y=110.0)
        assert places.free_ratio(rectangle(400.0, 600.0), low, []) == pytest.approx(1.1)
        # a neighbour of equal plate whose middle is 300 mm higher leaves half of that
        assert places.free_ratio(rectangle(400.0, 900.0), row, [replace(row, y=600.0)]) == pytest.approx(1.5)

    def test_close_anchors_act_as_one(self) -> None:
        low, high = stressed(y=150.0).tendons[0], stressed(y=450.0).tendons[0]
        both = replace(stressed(), tendons=(low, high))
        (one,) = places.clusters(both, places.rows(both, "left"))
        assert (one.force, one.y, one.size, one.prism) == pytest.approx((2e6, 300.0, 500.0, 600.0))
        apart = replace(both, outline=rectangle(400.0, 900.0), tendons=(low, stressed(y=600.0).tendons[0]))
        lower, upper = places.clusters(apart, places.rows(apart, "left"))
        assert (lower.prism, upper.prism) == pytest.approx((300.0, 450.0))

    def test_reactions_of_a_beam_with_overhangs(self) -> None:
        found = support.reaction(stressed(), "left")
        assert found is not None
        assert (found.permanent, found.variable) == pytest.approx((15e3, 30e3))

    def test_end_reaction_of_two_equal_spans_is_three_eighths(self) -> None:
        """3/8 q L of a uniform load (beam theory, propped cantilever), and no secondary part of a concordant tendon."""
        level = replace(stressed(y=300.0), supports=Supports((0.0, 3000.0, LENGTH), bearing=200.0))
        for side in ("left", "right"):
            found = support.reaction(level, side)  # type: ignore[arg-type]
            assert found is not None
            assert found.permanent == pytest.approx(3 / 8 * 5.0 * 3000.0, rel=1e-5)
            assert found.variable == pytest.approx(3 / 8 * 10.0 * 3000.0, rel=1e-5)
            assert found.prestress == pytest.approx(0.0, abs=1e-3)

    def test_secondary_reaction_of_a_level_eccentric_tendon(self) -> None:
        """P e all along over two equal spans: the middle answers with −3/2 P e, so the end with −3/2 P e/L."""
        off = replace(stressed(y=400.0), supports=Supports((0.0, 3000.0, LENGTH), bearing=200.0))
        found = support.reaction(off, "left")
        assert found is not None
        force = 1000.0 * 1000.0
        # sagging +P e from a tendon above the centroid; no losses but half of no shortening: one tendon
        assert found.prestress == pytest.approx(-1.5 * force * 100.0 / 3000.0, rel=1e-3)
        check_ = en1992.bearing(found, 1e4, 30.0)
        assert check_.demand.value == pytest.approx(1.35 * found.permanent + 1.5 * found.variable + found.prestress)

    def test_an_uplifting_load_on_the_far_span_is_left_out(self) -> None:
        far = Load("live", 10.0, 3000.0, LENGTH)
        one = replace(stressed(), supports=Supports((0.0, 3000.0, LENGTH), bearing=200.0), loads=(far,))
        left, right = support.reaction(one, "left"), support.reaction(one, "right")
        assert left is not None
        assert right is not None
        assert left.variable == 0.0
        assert right.variable == pytest.approx(7 / 16 * 10.0 * 3000.0, rel=1e-5)

    def test_an_end_that_lifts_off_bears_on_nothing(self) -> None:
        heavy = Load("dead", 500e3, LENGTH, LENGTH)  # on an overhang
        one = replace(stressed(), supports=Supports((0.0, 4000.0), bearing=200.0), loads=(heavy,))
        end = ends(one).ends[0]
        assert any(text.startswith("bearing at the support: the end lifts off") for text in end.not_checked)
        assert not any(line.title == "bearing at the support" for line in end.lines)

    def test_stirrups_are_counted_where_they_are_drawn(self) -> None:
        ((_, count),) = places.near(stressed(), "left", 250.0)
        assert count == 3  # in the face (put in behind its cover), at 100 and at 200 mm
        ((_, count),) = places.near(stressed(), "right", 250.0)
        assert count == 3


class TestEnds:
    def test_a_concentric_plate_in_a_rectangle(self) -> None:
        burst = check(stressed(), "bursting", "aashto")
        assert burst.demand.value == pytest.approx(0.25 * 1.2e6 * (1 - 200 / 600) / 550.0)
        # 2.5 · 300 mm is 750 mm: stirrups at 0, 100 … 700
        assert burst.resistance.value == pytest.approx(8 * 2 * 78.5398, rel=1e-5)
        plate = check(stressed(), "plate of A")
        net = 150 * 200 - 3.14159265 * 30**2
        assert plate.resistance.value == pytest.approx(net * (35 - 8) / 1.5 * (400 / 150), rel=1e-6)

    def test_strength_at_transfer_is_what_the_plate_stands_on(self) -> None:
        young = stressed()
        young = replace(young, concrete=replace(young.concrete, strength_at_transfer=23.0))
        old = check(stressed(), "plate of A").resistance.value
        assert check(young, "plate of A").resistance.value == pytest.approx(old * (23 - 8) / (35 - 8))
        assert check(young, "bearing at the support") == check(stressed(), "bearing at the support")

    def test_a_mirrored_beam_has_mirrored_ends(self) -> None:
        way = Profile((0.0, 3000.0, LENGTH), (400.0, 150.0, 250.0), "parabola")
        back = Profile((0.0, 3000.0, LENGTH), (250.0, 150.0, 400.0), "parabola")
        one = stressed()
        a = ends(replace(one, tendons=(replace(one.tendons[0], profile=way),)), "aashto")
        b = ends(replace(one, tendons=(replace(one.tendons[0], profile=back),)), "aashto")
        assert not a.alike
        for here, there in ((a.ends[0], b.ends[1]), (a.ends[1], b.ends[0])):
            assert [x.check.ratio for x in here.lines] == pytest.approx([x.check.ratio for x in there.lines], rel=1e-6)

    def test_a_force_that_points_at_the_centroid_is_positive(self) -> None:
        way = Profile((0.0, 3000.0, LENGTH), (400.0, 150.0, 400.0), "parabola")
        one = replace(stressed(), tendons=(replace(stressed().tendons[0], profile=way),))
        tie = next(line.tie for line in ends(one, "aashto").ends[1].lines if line.title == "bursting")
        assert tie is not None
        angle = next(s.value for s in tie.force.symbols if s.name == "α")
        assert angle == pytest.approx(0.1651, abs=2e-4)  # slope 4 · 250/6000
        assert tie.centre is not None
        assert tie.centre.value > 0.5 * (600.0 - 2 * 100.0)

    def test_what_is_not_checked_is_said(self) -> None:
        bare = ends(stressed(None)).ends[0]
        assert any(
            text.startswith("bearing under the plate of A: give its width and height") for text in bare.not_checked
        )
        burst = next(line for line in bare.lines if line.title == "bursting")
        assert burst.tie is not None
        assert burst.tie.force.value == pytest.approx(0.25 * 1.2e6)
        effective = ends(stressed(stress_is="effective")).ends[0]
        assert effective.not_checked[0].startswith("anchorage of A: the stress is given after all losses")
        inside = ends(stressed(x_from=500.0)).ends
        assert any(t.startswith("anchors inside the beam (A)") for t in inside[0].not_checked)
        assert not any("inside" in t for t in inside[1].not_checked)
        hollow = replace(stressed(), outline=box(400.0, 600.0, 60.0, 100.0, 100.0))
        assert any("the section is hollow" in t for t in ends(hollow).ends[0].not_checked)
        round_one = replace(stressed(), outline=circle(600.0))
        assert "bearing at the support: the soffit is not flat" in ends(round_one).ends[0].not_checked

    @pytest.mark.parametrize(
        ("to", "words"), [("en1992", "EN 1992-1-1 8.10.2 has no formula"), ("aci318", "ACI 318-19 has")]
    )
    def test_pretensioned_ends_without_a_rule(self, to: str, words: str) -> None:
        end = ends(stressed(when="before casting", bond="bonded", anchor=None), to).ends[0]
        assert any(words in text for text in end.not_checked)
        assert [line.title for line in end.lines] == ["bearing at the support"]

    def test_pretensioned_end_by_aashto(self) -> None:
        one = stressed(when="before casting", bond="bonded", anchor=None)
        split = check(one, "splitting", "aashto")
        assert split.demand.value == pytest.approx(0.04 * 1e6 / (20 * KSI))
        assert split.resistance.value == pytest.approx(2 * 157.0796, rel=1e-6)  # within 150 mm: at 0 and at 100
        assert check(one, "confinement", "aashto").ratio == pytest.approx(100.0 / 152.4)
        away = replace(one, tendons=(replace(one.tendons[0], sheathed=(1000.0, 0.0)),))
        left, right = ends(away, "aashto").ends
        assert "splitting" not in [line.title for line in left.lines]
        assert "splitting" in [line.title for line in right.lines]

    @pytest.mark.parametrize(
        ("found", "to", "sentence"),
        [
            (stressed(), "bs", "there are no rules for ends by 'bs': choose one of en1992, aci318, aashto"),
            (
                replace(stressed(), tendons=()),
                "en1992",
                "the beam has no tendons, so its ends hold no prestress to check; describe them in [[tendons]]",
            ),
            (
                stressed((150.0, 700.0)),
                "en1992",
                "the plate of tendon A reaches from -50 to 650 mm above the soffit, out of a section 600 mm deep: give "
                "a smaller plate, or move the anchor",
            ),
            (
                stressed((250.0, 200.0), count=2),
                "en1992",
                "2 plates 250 mm wide do not fit into the 400 mm of concrete at the anchors of tendon A: give a "
                "smaller plate, or one group for each height",
            ),
            (
                stressed((50.0, 50.0)),
                "en1992",
                "the hole of 60 mm leaves nothing of the plate of tendon A, 50 × 50 mm: give a larger plate",
            ),
        ],
    )
    def test_what_cannot_be(self, found: Beam, to: str, sentence: str) -> None:
        with pytest.raises(SoffitError) as error:
            ends(found, to)
        assert str(error.value) == sentence


def test_root_of_the_area_ratio_is_the_ratio_of_sides() -> None:
    plate = Plate(40000.0, 40000.0, 1.7, 1.0)
    area = next(w for w in aashto.plate(plate, 30.0).workings if w.name == "A")
    assert sqrt(area.value / 40000.0) == pytest.approx(1.7)


def test_the_strut_and_tie_of_a_concentric_plate_is_what_all_three_standards_say() -> None:
    """Half the force runs from a/4 to h/4 off the axis over h/2: T = P/2 (h − a)/4/(h/2) = P/4 (1 − a/h)."""
    jack, a, h = 900e3, 150.0, 500.0
    by_statics = 1.2 * jack / 2 * ((h - a) / 4) / (h / 2)
    for rules in (en1992, aci318, aashto):
        assert rules.bursting(Anchors(jack, a, h, h), 500.0).force.value == pytest.approx(by_statics)
