"""Beam files that are right: every key reaches the beam, and what was assumed is said."""

# ruff: noqa: E501 - a table of the beam file stands whole on its line
from __future__ import annotations

import subprocess
import sys
from math import pi
from pathlib import Path

import pytest

from soffit.beamfile import KINDS, read, read_text, starter
from soffit.catalogue import nut_class, strip_capacity, thread
from soffit.member.beam import Beam

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


def beam(*parts: str, section: str = "", supports: str = 'span = "4 m"') -> Beam:
    rectangle = 'shape = "rectangle"\nwidth = "300 mm"\ndepth = "500 mm"'
    concrete = "" if any("[concrete]" in part for part in parts) else '[concrete]\nstrength = "35 MPa"\n'
    return read_text(f"{concrete}[section]\n{section or rectangle}\n[supports]\n{supports}\n" + "\n".join(parts))


BAR = '[[bars]]\ncount = 2\nsize = "16"\ngrade = "B500B"\n'
TENDON = '[[tendons]]\nwhen = "after curing"\nbond = "unbonded"\ncount = 2\nprofile = "100 mm from bottom"\n'
STRAND = '[[tendons]]\nwhen = "before casting"\nbond = "bonded"\ncount = 2\nsize = "12.5 strand"\ngrade = "Y1860S7"\n'


@pytest.mark.parametrize("file", EXAMPLES, ids=[file.stem for file in EXAMPLES])
def test_every_example_reads_and_says_that_it_is_invented(file: Path) -> None:
    made = read(file)
    assert "nvented" in made.about
    assert made.press is not None or any(load.case != "dead" for load in made.loads)


def test_the_bench_beams_are_of_one_size() -> None:
    bench = [read(file) for file in EXAMPLES if file.stem.startswith("bench")]
    assert len(bench) == 5
    assert {(b.length, b.outline.depth, b.outline.area, b.press, b.supports) for b in bench} == {
        (1350.0, 150.0, 15000.0, bench[0].press, bench[0].supports)
    }


@pytest.mark.parametrize("kind", KINDS)
def test_every_starter_reads(kind: str) -> None:
    made = read_text(starter(kind), f"{kind}.toml")
    assert bool(made.tendons) == ("tensioned" in kind)
    assert [t.bond for t in made.tendons] == {
        "post-tensioned-unbonded": ["unbonded"], "post-tensioned-bonded": ["bonded"], "pretensioned": ["bonded"],
    }.get(kind, [])  # fmt: skip


def test_reading_needs_no_kernels() -> None:
    code = (
        "import sys, soffit.beamfile as f; assert 'pydantic' not in sys.modules; f.read_text(f.starter('bars'));"
        "assert not {'numba', 'scipy', 'matplotlib'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_the_concrete_is_what_the_file_says() -> None:
    c = beam(
        '[concrete]\nstrength = "30 MPa"\nage = "4 weeks"\ntensile_strength = "2.5 MPa"\nmodulus = "30 GPa"\n'
        'fracture_energy = "90 N/m"\nmax_aggregate = "20 mm"\ndensity = "2300 kg/m3"\nstrain_at_peak = 0.002\n'
        'strength_at_transfer = "20 MPa"\nlaw = "en1992"\n'
    ).concrete
    assert (c.strength, c.tensile, c.modulus, c.fracture_energy) == (30.0, 2.5, 30000.0, 0.09)
    assert (c.max_aggregate, c.density, c.peak_strain, c.strength_at_transfer) == (20.0, 2300.0, 0.002, 20.0)
    assert (c.law, c.age) == ("en1992", 28.0)


def test_an_ordered_strength_becomes_a_mean_and_says_so() -> None:
    made = beam('[concrete]\nstrength = "30 MPa"\nstrength_is = "specified"')
    assert made.concrete.strength == 38.0
    assert any("specified strength" in note for note in made.notes)
    american = beam('[concrete]\nstrength = "4 ksi"\nstrength_is = "specified"\nstrength_by = "ACI 318-19"')
    assert american.concrete.strength == pytest.approx(5200 * 0.00689475729)
    assert any("taken as a measured mean" in note for note in beam().notes)


SECTIONS = [
    ('shape = "rectangle"\nwidth = "300 mm"\ndepth = "500 mm"', 150000.0, 500.0),
    ('shape = "tee"\ndepth = "500 mm"\nweb_width = "200 mm"\nflange_width = "600 mm"\nflange_depth = "100 mm"', 140000.0, 500.0),
    ('shape = "inverted-tee"\ndepth = "500 mm"\nweb_width = "200 mm"\nflange_width = "600 mm"\nflange_depth = "100 mm"', 140000.0, 500.0),
    ('shape = "ell"\ndepth = "500 mm"\nweb_width = "200 mm"\nflange_width = "600 mm"\nflange_depth = "100 mm"', 140000.0, 500.0),
    ('shape = "i"\ndepth = "800 mm"\nweb_width = "100 mm"\ntop_width = "300 mm"\ntop_depth = "100 mm"\nbottom_width = "300 mm"\n'
     'bottom_depth = "100 mm"\ntop_taper = "50 mm"\nbottom_taper = "50 mm"', 130000.0, 800.0),
    ('shape = "box"\nwidth = "600 mm"\ndepth = "500 mm"\nwall = "100 mm"\ntop_depth = "100 mm"\nbottom_depth = "100 mm"', 180000.0, 500.0),
    ('shape = "circle"\ndiameter = "400 mm"', pi * 200**2, 400.0),
    ('shape = "outline"\npoints = [["0 mm", "0 m"], ["30 cm", "0 mm"], ["0.3 m", "500 mm"], ["0 mm", "500 mm"], ["0 mm", "0 mm"]]\n'
     'holes = [[["100 mm", "100 mm"], ["200 mm", "100 mm"], ["200 mm", "200 mm"], ["100 mm", "200 mm"]]]', 140000.0, 500.0),
]  # fmt: skip


@pytest.mark.parametrize(("section", "area", "depth"), SECTIONS, ids=[s.split('"')[1] for s, _, _ in SECTIONS])
def test_every_shape(section: str, area: float, depth: float) -> None:
    outline = beam(section=section).outline
    assert outline.area == pytest.approx(area, rel=1e-9)
    assert outline.depth == pytest.approx(depth, rel=1e-3)


def test_a_section_that_may_twist_is_said_to_be_held() -> None:
    held = "held against twisting"
    assert any(held in note for note in beam(section=SECTIONS[3][0]).notes)
    lopsided = 'shape = "outline"\npoints = [["0 mm", "0 mm"], ["300 mm", "0 mm"], ["0 mm", "500 mm"]]'
    assert any(held in note for note in beam(section=lopsided).notes)
    assert not any(held in note for note in beam(section=SECTIONS[-1][0]).notes)


def test_bars_by_height_and_by_cover() -> None:
    made = beam(
        BAR + 'at = "40 mm from bottom"',
        BAR + 'at = "40 mm from top"\nfrom = "0.5 m"\nto = "3 m"\nends = ["hook", "welded plate"]\nsurface = "plain"',
        BAR + 'cover = "30 mm"',
        BAR + 'cover = "30 mm"\nface = "top"',
    )
    assert [bar.y for bar in made.bars] == [40.0, 460.0, 38.0, 462.0]
    first, second = made.bars[:2]
    assert (first.x_from, first.x_to, first.end_left, first.end_right) == (
        0.0,
        4000.0,
        "straight",
        "straight",
    )
    assert (second.x_from, second.x_to, second.end_left, second.end_right) == (
        500.0,
        3000.0,
        "hook",
        "welded plate",
    )
    assert (first.surface, second.surface) == ("deformed", "plain")
    assert first.area == pytest.approx(2 * pi / 4 * 16**2)
    assert first.label == "2 × 16 B500B"


def test_what_the_file_gives_wins_over_the_catalogue() -> None:
    made = beam(
        BAR + 'at = "40 mm from bottom"\narea = "210 mm2"\nyield = "550 MPa"\ntensile = "640 MPa"\n'
        'modulus = "205 GPa"\nstrain_at_max = "8 %"\nhardening_strain = 0.02'
    )
    bar = made.bars[0]
    s = bar.steel
    assert (bar.area, bar.diameter) == (420.0, 16.0)
    assert (s.yield_strength, s.tensile, s.modulus, s.strain_at_max, s.hardening_strain) == (
        550,
        640,
        205e3,
        0.08,
        0.02,
    )
    assert any("B500B" in note and "yield and tensile" in note for note in made.notes)


def test_a_measured_yield_keeps_the_ratio_of_the_grade() -> None:
    made = beam(BAR + 'at = "40 mm from bottom"\nyield = "600 MPa"')
    assert made.bars[0].steel.tensile == pytest.approx(600 * 540 / 500)
    assert any("keeps the grade's ratio" in note for note in made.notes)


def test_only_a_yield_strength_means_no_hardening_and_says_so() -> None:
    made = beam('[[bars]]\ncount = 2\ndiameter = "16 mm"\nyield = "500 MPa"\nat = "40 mm from bottom"')
    s = made.bars[0].steel
    assert (s.tensile, s.modulus, s.strain_at_max) == (500.0, 200e3, 0.05)
    assert any("elastic–plastic without hardening" in note for note in made.notes)
    assert any("200 GPa" in note for note in made.notes)
    assert any("0.05" in note for note in made.notes)


def test_fibre_reinforced_polymer_is_linear_to_rupture() -> None:
    made = beam(
        '[[bars]]\ncount = 2\narea = "200 mm2"\ntensile = "600 MPa"\nmodulus = "45 GPa"\nlaw = "linear"\n'
        'at = "40 mm from bottom"'
    )
    s = made.bars[0].steel
    assert (s.kind, s.tensile, s.yield_strength) == ("linear", 600.0, 600.0)
    assert s.strain_at_max == pytest.approx(600 / 45e3)
    assert made.bars[0].diameter == pytest.approx((4 * 200 / pi) ** 0.5)


def test_fibre_reinforced_polymer_by_its_rupture_strain() -> None:
    made = beam(
        '[[bars]]\ncount = 2\ndiameter = "16 mm"\ntensile = "600 MPa"\nstrain_at_max = "1.5 %"\nlaw = "linear"\nat = "40 mm from bottom"'
    )
    assert made.bars[0].steel.modulus == pytest.approx(40e3)


def test_a_wedge_without_efficiency_holds_what_the_standard_asks() -> None:
    made = beam(TENDON + 'size = "12.5 strand"\ngrade = "Y1860S7"\nstress = "1200 MPa"\nanchor = { kind = "wedge" }')
    anchor = made.tendons[0].anchor
    assert anchor is not None
    assert anchor.capacity == pytest.approx(0.95 * 1860 * 93)
    assert any("0.95" in note for note in made.notes)


def test_a_threaded_rod_as_a_bar_has_its_stress_area() -> None:
    made = beam('[[bars]]\ncount = 1\nsize = "M10"\ngrade = "8.8"\nat = "40 mm from bottom"')
    bar = made.bars[0]
    assert bar.area == pytest.approx(58.0, abs=0.05)
    assert (bar.surface, bar.steel.yield_strength, bar.steel.tensile) == ("threaded", 640.0, 800.0)


def test_us_sizes_and_units() -> None:
    made = read_text(
        '[concrete]\nstrength = "4 ksi"\ndensity = "150 lb/ft3"\n[section]\nshape = "rectangle"\nwidth = "12 in"\n'
        'depth = "1 ft 8 in"\n[supports]\nspan = "20 ft"\n[[bars]]\ncount = 3\nsize = "#8"\ngrade = "Grade 60"\n'
        'at = "2 1/2 in from bottom"\n[[loads]]\ncase = "live"\nuniform = "2 kip/ft"\n'
    )
    assert made.units == "US"
    assert (made.outline.depth, made.length, made.bars[0].y) == (508.0, 6096.0, 63.5)
    assert made.bars[0].area == pytest.approx(3 * 0.79 * 645.16)
    assert made.loads[0].value == pytest.approx(2 * 4448.2216152605 / 304.8)
    assert beam().units == "SI"
    assert read_text('units = "US"\n' + starter("plain")).units == "US"


def test_pretensioned() -> None:
    made = beam(
        STRAND
        + 'profile = "60 mm from bottom"\nstress = "1200 MPa"\nlong_term_loss = "15 %"\ntransfer_length = "700 mm"'
    )
    t = made.tendons[0]
    assert (t.stress, t.stress_is, t.long_term_loss, t.transfer_length) == (
        1200.0,
        "at the jack",
        0.15,
        700.0,
    )
    assert (t.area, t.x_from, t.x_to, t.profile.y, t.anchor) == (186.0, 0.0, 4000.0, (60.0, 60.0), None)
    assert t.steel.kind == "strand"


def test_an_anchor_of_a_pretensioned_strand_counts_for_nothing_and_says_so() -> None:
    made = beam(
        STRAND
        + 'profile = "60 mm from bottom"\nforce = "100 kN"\nanchor = { kind = "nut", thread = "M10", class = "8" }'
    )
    assert made.tendons[0].anchor is None
    assert made.tendons[0].stress == pytest.approx(100e3 / 93)
    assert any("anchor is left out of account" in note for note in made.notes)
    assert any("no loss by creep" in note for note in made.notes)


def test_a_parabola_in_a_grouted_duct() -> None:
    made = beam(
        '[[tendons]]\nwhen = "after curing"\nbond = "bonded"\ncount = 1\narea = "300 mm2"\ndiameter = "25 mm"\n'
        'grade = "Y1860S7"\nprofile = [["0 m", "250 mm"], ["2 m", "390 mm from top"], ["4 m", "250 mm"]]\n'
        'shape = "parabola"\nstress = "1300 MPa"\nduct = "50 mm"\nfriction = 0.19\nwobble = "0.001 /m"\n'
        'jacked_from = "both"\nanchor = { kind = "wedge", draw_in = "6 mm", efficiency = "90 %" }'
    )
    t = made.tendons[0]
    assert (t.profile.x, t.profile.y, t.profile.shape) == ((0, 2000, 4000), (250, 110, 250), "parabola")
    assert (t.friction, t.wobble, t.jacked_from, t.duct) == (0.19, 1e-6, "both", 50.0)
    assert t.anchor is not None
    assert t.anchor.capacity == pytest.approx(0.9 * 1860 * 300)
    assert t.anchor.draw_in == 6.0


def test_rods_stressed_by_torque() -> None:
    made = beam(TENDON + 'thread = "M10"\ngrade = "8.8"\ntorque = "60 N m"\nanchor = { kind = "nut", class = "8" }')
    t = made.tendons[0]
    assert t.stress * t.area / 2 == pytest.approx(60e3 / (0.2 * 10))  # F = T/(K d)
    assert t.stress_scatter == 0.15  # half of the ± 30 % band
    assert any("± 30 %" in note for note in made.notes)
    stiffer = beam(TENDON + 'thread = "M10"\ngrade = "8.8"\ntorque = "60 N m"\nnut_factor = 0.25')
    assert stiffer.tendons[0].stress == pytest.approx(t.stress * 0.2 / 0.25)


def test_rods_stressed_by_turns() -> None:
    t = beam(TENDON + 'thread = "M10"\ngrade = "8.8"\nturns = 3').tendons[0]
    assert t.stress == pytest.approx(205e3 * 3 * 1.5 / 4000)  # E · turns · pitch / length
    assert t.stress_scatter > 0


def test_the_nut_holds_what_the_catalogue_reckons() -> None:
    made = beam(
        TENDON
        + 'thread = "M10"\ngrade = "8.8"\nforce = "20 kN"\nanchor = { kind = "nut", class = "8", engagement = "5 mm" }'
    )
    anchor = made.tendons[0].anchor
    held = strip_capacity(thread("M10"), 5.0, 800.0, nut_class("8", 10.0))
    assert anchor is not None
    assert anchor.capacity == min(held.nut_strips, held.rod_strips)
    assert "strips" in anchor.reason


def test_a_bar_that_is_thicker_than_its_thread_breaks_in_the_thread() -> None:
    made = beam(
        TENDON + 'diameter = "12 mm"\nyield = "900 MPa"\ntensile = "1000 MPa"\nforce = "20 kN"\n'
        'anchor = { kind = "nut", thread = "M12", class = "12" }'
    )
    anchor = made.tendons[0].anchor
    assert anchor is not None
    assert anchor.capacity == pytest.approx(1000 * thread("M12").area)
    assert anchor.reason.startswith("the rod breaks in its thread")


def test_a_measured_capacity_wins() -> None:
    made = beam(
        TENDON
        + 'thread = "M10"\ngrade = "8.8"\nforce = "20 kN"\nanchor = { kind = "nut", class = "8", strength = "33 kN" }'
    )
    anchor = made.tendons[0].anchor
    assert anchor is not None
    assert (anchor.capacity, anchor.reason) == (33e3, "measured capacity of the anchor")


def test_an_effective_stress_is_used_as_it_stands() -> None:
    made = beam(TENDON + 'thread = "M10"\ngrade = "8.8"\nstress = "400 MPa"\nstress_is = "effective"')
    assert made.tendons[0].stress_is == "effective"
    assert any("after all losses, and used as it stands" in note for note in made.notes)
    assert not any("is counted" in note for note in made.notes)


def test_stirrups() -> None:
    zone = beam('[[stirrups]]\nsize = "8"\nlegs = 4\nspacing = "150 mm"\ngrade = "B500A"\nto = "1 m"').stirrups[0]
    assert (zone.area, zone.spacing, zone.diameter) == (pytest.approx(4 * 16 * pi), 150.0, 8.0)
    assert (zone.legs, zone.x_from, zone.x_to, zone.steel.yield_strength) == (4, 0.0, 1000.0, 500.0)


HELD = [
    ('span = "4 m"', (0, 4000), 4000, (False, False)),
    ('span = "4 m"\noverhangs = "0.5 m"', (500, 4500), 5000, (False, False)),
    ('span = "4 m"\noverhangs = ["0.5 m", "1 m"]', (500, 4500), 5500, (False, False)),
    ('spans = ["4 m", "5 m"]', (0, 4000, 9000), 9000, (False, False)),
    ('span = "4 m"\nends = "fixed"', (0, 4000), 4000, (True, True)),
    ('span = "4 m"\nends = ["fixed", "pinned"]', (0, 4000), 4000, (True, False)),
    ('span = "4 m"\nends = ["fixed", "free"]', (0,), 4000, (True, False)),
    ('span = "4 m"\nends = ["free", "fixed"]', (4000,), 4000, (False, True)),
    ('spans = ["4 m", "2 m"]\nends = ["pinned", "free"]', (0, 4000), 6000, (False, False)),
]  # fmt: skip


@pytest.mark.parametrize(("supports", "x", "length", "fixed"), HELD)
def test_supports(supports: str, x: tuple[float, ...], length: float, fixed: tuple[bool, bool]) -> None:
    made = beam(supports=supports + '\nbearing = "100 mm"')
    assert (made.supports.x, made.length, made.supports.bearing) == (x, length, 100.0)
    assert (made.supports.fixed_left, made.supports.fixed_right) == fixed


def test_loads_and_press() -> None:
    made = beam(
        '[[loads]]\ncase = "dead"\nuniform = "5 kN/m"\n[[loads]]\ncase = "live"\npoint = "20 kN"\nat = "1 m"\n'
        '[[loads]]\ncase = "snow"\npatch = "3 kN/m"\nfrom = "1 m"\nto = "2 m"\n'
        '[press]\npoints = ["3 m", "1 m"]\ncapacity = "100 kN"\nstroke = "50 mm"\nplate = "60 mm"\ngauge = "2 m"'
    )
    assert [(x.case, x.value, x.x_from, x.x_to, x.is_point) for x in made.loads] == [
        ("dead", 5.0, 0.0, 4000.0, False), ("live", 20e3, 1000.0, 1000.0, True), ("snow", 3.0, 1000.0, 2000.0, False),
    ]  # fmt: skip
    assert made.press is not None
    assert (made.press.points, made.press.capacity, made.press.stroke) == ((1000.0, 3000.0), 100e3, 50.0)
    assert (made.press.plate, made.press.gauge) == (60.0, 2000.0)


def test_names_default_to_the_file() -> None:
    assert read_text(starter("plain").replace('name  = "Plain beam"', ""), "folder/my beam.toml").name == "my beam"
    assert read_text("self_weight = false\n" + starter("plain")).self_weight is False
    assert read_text(starter("plain")).self_weight is True


def test_notes_are_sentences_said_once() -> None:
    for kind in KINDS:
        notes = read_text(starter(kind)).notes
        assert len(set(notes)) == len(notes)
        assert all(note.endswith(".") and "\n" not in note for note in notes)
