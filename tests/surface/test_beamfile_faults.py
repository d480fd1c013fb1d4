"""Every way to get a beam file wrong: one sentence each, on its own line, and all of them at once."""

# ruff: noqa: E501 - each sentence stands whole on its line
from __future__ import annotations

from pathlib import Path

import pytest

from soffit.beamfile import read, read_text, starter
from soffit.errors import BeamFileError, SoffitError

GOOD = """\
name = "Beam"
self_weight = true
[concrete]
strength = "35 MPa"
strength_is = "mean"
[section]
shape = "rectangle"
width = "100 mm"
depth = "150 mm"
[[bars]]
count = 2
size = "10"
grade = "B500B"
at = "25 mm from bottom"
[[tendons]]
when = "after curing"
bond = "unbonded"
count = 2
thread = "M10"
grade = "8.8"
profile = "60 mm from bottom"
force = "20 kN"
duct = "14 mm"
anchor = { kind = "nut", class = "8" }
[[stirrups]]
size = "6"
legs = 2
spacing = "75 mm"
grade = "B500A"
[supports]
span = "1.05 m"
overhangs = "75 mm"
[[loads]]
case = "dead"
point = "1 kN"
at = "0.6 m"
[press]
points = ["425 mm", "775 mm"]
capacity = "100 kN"
"""


def faults(text: str) -> list[str]:
    with pytest.raises(BeamFileError) as refused:
        read_text(text, "b.toml")
    assert all("\n" not in each for each in refused.value.problems)
    return refused.value.problems


def changed(old: str, new: str) -> str:
    assert GOOD.count(old) == 1, old
    return GOOD.replace(old, new)


def test_the_good_file_is_good() -> None:
    assert read_text(GOOD).name == "Beam"


# line that is replaced, what replaces it, and the whole sentence
ONE = [
    # words and numbers
    ('name = "Beam"', "name = 3", '1: name: found 3, which is no text; write it in quotes, such as "Bench beam B".'),
    ('name = "Beam"', 'name = ""', '1: name: found "", which is empty; write text such as "Bench beam B".'),
    ("self_weight = true", 'self_weight = "no"', '2: self_weight: found "no", which is neither true nor false; write true or false without quotes.'),
    ("self_weight = true", 'units = "us"', '2: units: found "us", which is no choice here; did you mean "US"?'),
    ("self_weight = true", "self_wieght = true", '2: self_wieght: this key is not known; did you mean "self_weight"?'),
    # concrete
    ('strength = "35 MPa"', 'strenght = "35 MPa"', '4: concrete.strenght: this key is not known; did you mean "strength"?'),
    ('strength = "35 MPa"', "", '3: concrete.strength: is missing; write strength = "35 MPa".'),
    ('strength = "35 MPa"', "strength = 35", '4: concrete.strength: found 35, a bare number; write its unit too, such as "35 MPa" or "35 ksi".'),
    ('strength = "35 MPa"', 'strength = "35"', '4: concrete.strength: found "35", which has no unit; write "35 MPa" or "35 ksi".'),
    ('strength = "35 MPa"', 'strength = "35 mpa"', '4: concrete.strength: found "35 mpa", where "mpa" is no unit known here; did you mean "MPa"?'),
    ('strength = "35 MPa"', 'strength = "35 mm"', '4: concrete.strength: found "35 mm", which is a length and not a stress; write a stress such as "35 MPa" or "5 ksi".'),
    ('strength = "35 MPa"', 'strength = "35 GPa"', '4: concrete.strength: found "35 GPa", which is more than 250 MPa; check the unit.'),
    ('strength = "35 MPa"', 'strength = "35 psi"', '4: concrete.strength: found "35 psi", which is less than 1 MPa; check the unit.'),
    ('strength = "35 MPa"', 'strength = "-35 MPa"', '4: concrete.strength: found "-35 MPa", which is negative; write a stress such as "35 MPa".'),
    ('strength = "35 MPa"', 'strength = "nan MPa"', '4: concrete.strength: found "nan MPa", which is not a finite number; write a stress such as "35 MPa" or "5 ksi".'),
    ('strength = "35 MPa"', "strength = nan", '4: concrete.strength: found nan, a bare number; write its unit too, such as "nan MPa" or "nan ksi".'),
    ('strength = "35 MPa"', 'strength = "1.5 MPa"', '4: concrete.strength: found "1.5 MPa", but the cylinder strength is 1.5 MPa, and only values from 2 to 200 MPa are accepted; check the value and its unit.'),
    ('strength_is = "mean"', 'strength_is = "maen"', '5: concrete.strength_is: found "maen", which is no choice here; did you mean "mean"?'),
    ('strength_is = "mean"', 'strength_by = "XYZ"', '5: concrete.strength_by: found "XYZ", which is no choice here; write "EN 1992-1-1" or "ACI 318-19".'),
    ('strength_is = "mean"', 'law = "popovic"', '5: concrete.law: found "popovic", which is no choice here; did you mean "popovics"?'),
    ('strength_is = "mean"', "relative_humidity = 50", '5: concrete.relative_humidity: found 50, a bare number; write "60 %" with its % sign.'),
    ('strength_is = "mean"', 'relative_humidity = "150 %"', '5: concrete.relative_humidity: found "150 %", which is above 100 %; write "60 %".'),
    ('strength_is = "mean"', 'tensile_strength = "20 MPa"', '5: concrete.tensile_strength: found "20 MPa", but the axial tensile strength is 20 MPa, and only values from 0.035 to 8.75 MPa are accepted; check the value and its unit.'),
    ('strength_is = "mean"', 'strength_at_transfer = "60 MPa"', '5: concrete.strength_at_transfer: found "60 MPa", which is above the strength when loaded; give at most the strength when loaded, 35 MPa.'),
    # section
    ('shape = "rectangle"', 'shape = "rectangel"', '7: section.shape: found "rectangel", which is no choice here; did you mean "rectangle"?'),
    ('shape = "rectangle"', "shape = 4", '7: section.shape: found 4, which is no choice here; write "rectangle", "tee", "ell", "inverted-tee", "i", "box", "circle" or "outline".'),
    ('shape = "rectangle"', "", '6: section.shape: is missing; write one of "rectangle", "tee", "ell", "inverted-tee", "i", "box", "circle", "outline".'),
    ('shape = "rectangle"', 'shap = "rectangle"', '7: section.shap: this key is not known; did you mean "shape"?'),
    ('width = "100 mm"', "", '6: section.width: is missing; write width = "150 mm".'),
    ('width = "100 mm"', 'width = "100 mm"\nheight = "3 mm"', '9: section.height: this key is not known; the keys here are shape, width, depth.'),
    ('depth = "150 mm"', 'depth = "150 m"', '9: section.depth: found "150 m", which is more than 20 m; check the unit.'),
    ('depth = "150 mm"', 'depth = "0 mm"', '9: section.depth: found "0 mm", which is zero; write a length such as "150 mm".'),
    # bars
    ('count = 2\nsize = "10"', 'count = 0\nsize = "10"', "11: bars[1].count: found 0, which is below what can be built; write a whole number from 1 to 1000."),
    ('count = 2\nsize = "10"', 'count = 2.5\nsize = "10"', "11: bars[1].count: found 2.5, which is no whole number; write a whole number from 1 to 1000."),
    ('count = 2\nsize = "10"', 'count = "2"\nsize = "10"', '11: bars[1].count: found "2", which is no whole number; write a whole number from 1 to 1000 without quotes.'),
    ('count = 2\nsize = "10"', 'count = 12\nsize = "10"', "11: bars[1].count: found 12, but 12 of them need 120 mm and the section is 100 mm wide there; use fewer or thinner ones, or another height."),
    ('size = "10"', "size = 10", '12: bars[1].size: found 10, which is no text; write it in quotes, such as "10".'),
    ('size = "10"', 'size = "11"', '12: bars[1].size: found "11", which is not in the catalogue; did you mean "10", "12" or "#11"?'),
    ('size = "10"', 'diameter = "10 m"', '12: bars[1].diameter: found "10 m", which is more than 100 mm; check the unit.'),
    ('size = "10"', 'size = "10"\narea = "785 mm2"', '13: bars[1].area: found "785 mm2", but 785 mm² does not fit in a diameter of 10 mm; check the unit, and give the area of one piece.'),
    ('size = "10"', "", '10: bars[1].size: is missing; write size = "10" or another name of the catalogue, or diameter, or area.'),
    ('grade = "B500B"', 'grade = "B500X"', '13: bars[1].grade: found "B500X", which is not in the catalogue; did you mean "B500C", "B500B" or "B500A"?'),
    ('grade = "B500B"', 'grade = "Y1860S7"', '13: bars[1].grade: found "Y1860S7", which is a grade of strand, but the size is one of bar; choose a grade that this size is made in.'),
    ('grade = "B500B"', "", '10: bars[1].yield: is missing; write grade = "B500B" or another name of the catalogue, or yield = "500 MPa".'),
    ('grade = "B500B"', 'grade = "B500B"\ntensile = "400 MPa"', '14: bars[1].tensile: found "400 MPa", but the tensile strength 400 MPa is below the yield strength 500 MPa; check the values and their units.'),
    ('grade = "B500B"', 'yield = "500 MPa"\nstrain_at_max = 0.001', "14: bars[1].strain_at_max: found 0.001, but the strain at maximum 0.001 is not beyond the yield strain 0.0025; check the values and their units."),
    ('grade = "B500B"', 'law = "linear"\ntensile = "600 MPa"', '10: bars[1].modulus: is missing; write modulus = "45 GPa".'),
    ('grade = "B500B"', 'law = "linear"\nyield = "600 MPa"', '14: bars[1].yield: found "600 MPa", but a linear law has no yield; give tensile, modulus and law alone.'),
    ('at = "25 mm from bottom"', 'at = "25 mm"', '14: bars[1].at: found "25 mm", which does not say from where; write a height such as "25 mm from bottom" or "25 mm from top".'),
    ('at = "25 mm from bottom"', 'at = "25 mm from left"', '14: bars[1].at: found "25 mm from left", where "left" is no face of the section; write a height such as "25 mm from bottom" or "25 mm from top".'),
    ('at = "25 mm from bottom"', 'at = "25 from bottom"', '14: bars[1].at: found "25 from bottom", whose distance has no unit; write a height such as "25 mm from bottom" or "25 mm from top".'),
    ('at = "25 mm from bottom"', 'at = "250 mm from bottom"', '14: bars[1].at: found "250 mm from bottom", but the bar would stand out of the concrete, which is 150 mm deep; keep its centre between 5 mm and 145 mm above the soffit.'),
    ('at = "25 mm from bottom"', 'at = "4 mm from top"', '14: bars[1].at: found "4 mm from top", but the bar would stand out of the concrete, which is 150 mm deep; keep its centre between 5 mm and 145 mm above the soffit.'),
    ('at = "25 mm from bottom"', "", '10: bars[1].at: is missing; write at = "25 mm from bottom", or cover = "20 mm" with face = "bottom".'),
    ('at = "25 mm from bottom"', 'cover = "-20 mm"', '14: bars[1].cover: found "-20 mm", which is negative; write a length such as "25 mm".'),
    ('at = "25 mm from bottom"', 'cover = "145 mm"', '14: bars[1].cover: found "145 mm", but the bar would stand out of the concrete, which is 150 mm deep; keep its centre between 5 mm and 145 mm above the soffit.'),
    ('at = "25 mm from bottom"', 'at = "25 mm from bottom"\ncover = "20 mm"', '15: bars[1].cover: found "20 mm", but at is given too; give one of them.'),
    ('at = "25 mm from bottom"', 'face = "top"', '14: bars[1].face: found "top", but cover is not given; write cover = "20 mm" beside face, or at alone.'),
    ('at = "25 mm from bottom"', 'at = "25 mm from bottom"\nfrom = "2 m"', '15: bars[1].from: found "2 m", but the beam ends at 1200 mm (x is measured from its left end); give at most 1200 mm.'),
    ('at = "25 mm from bottom"', 'at = "25 mm from bottom"\nfrom = "1 m"\nto = "0.5 m"', '16: bars[1].to: found "0.5 m", but from = 1000 mm; let it begin before it ends.'),
    ('at = "25 mm from bottom"', 'at = "25 mm from bottom"\nends = "hok"', '15: bars[1].ends: found "hok", which is no choice here; did you mean "hook"?'),
    ('at = "25 mm from bottom"', 'at = "25 mm from bottom"\nends = ["hook"]', '15: bars[1].ends: found ["hook"], which has too few entries; write 2 of them, such as ["straight", "straight"].'),
    # tendons
    ('when = "after curing"', 'when = "after"', '16: tendons[1].when: found "after", which is no choice here; write "before casting" or "after curing".'),
    ('thread = "M10"', 'thread = "M11"', '19: tendons[1].thread: found "M11", which is not in the catalogue; did you mean "M10", "M12" or "M18"?'),
    ('thread = "M10"', 'thread = "M10"\nsize = "M10"', '19: tendons[1].thread: found "M10", but size is given too; give one of them.'),
    ('profile = "60 mm from bottom"', 'profile = "146 mm from bottom"', '21: tendons[1].profile: found "146 mm from bottom", but the duct would stand out of the concrete, which is 150 mm deep; keep its centre between 7 mm and 143 mm above the soffit.'),
    ('profile = "60 mm from bottom"', 'profile = [["0 m", "75 mm"], ["1.2 m", 3]]', '21: tendons[1].profile[2][2]: found 3, which is no text; write a height such as "25 mm from bottom" or "25 mm from top".'),
    ('profile = "60 mm from bottom"', 'profile = [["0 m", "75 mm"],\n ["1 m", "75 mm"]]', "21: tendons[1].profile: found [[\"0 m\", \"75 mm\"], [\"1 m\", \"75 mm\"]], but the tendon runs from 0 mm to 1200 mm; let its points reach from end to end, or give from and to."),
    ('profile = "60 mm from bottom"', 'profile = [["0 m", "75 mm"],\n ["0.6 m", "60 mm"],\n ["0.5 m", "75 mm"]]', "23: tendons[1].profile[3]: found 500 mm after 600 mm; let the points go from left to right."),
    ('profile = "60 mm from bottom"', 'profile = [["0 m", "75 mm"], ["1.2 m", "75 mm"]]\nshape = "parabola"', '21: tendons[1].profile: found [["0 m", "75 mm"], ["1.2 m", "75 mm"]], whose 2 points make no parabolas; give three points, or five, seven, …: one parabola through each three in turn.'),
    ('force = "20 kN"', "", '15: tendons[1].stress: is missing; write stress = "1200 MPa", or force, or torque, or turns.'),
    ('force = "20 kN"', 'force = "20 kN"\nstress = "400 MPa"', '22: tendons[1].force: found "20 kN", but stress is given too; give one of them.'),
    ('force = "20 kN"', 'stress = "900 MPa"', '22: tendons[1].stress: found "900 MPa", which is above the tensile strength of 800 MPa; lower it, or choose a stronger tendon.'),
    ('force = "20 kN"', 'force = "60 kN"', '22: tendons[1].force: found "60 kN", a stress of 1035 MPa, which is above the tensile strength of 800 MPa; lower it, or choose a stronger tendon.'),
    ('force = "20 kN"', 'torque = "60 kN"', '22: tendons[1].torque: found "60 kN", which is a force and not a moment; write a moment such as "60 N m" or "44 lb ft".'),
    ('force = "20 kN"', 'force = "20 kN"\nnut_factor = 0.2', "23: tendons[1].nut_factor: found 0.2, but torque is not given; leave it out."),
    ('duct = "14 mm"', 'duct = "8 mm"', "23: tendons[1].duct: found \"8 mm\", which is narrower than the tendon's 10 mm; give the outer diameter of the duct."),
    ('duct = "14 mm"', "long_term_loss = 15", '23: tendons[1].long_term_loss: found 15, a bare number; write "15 %" with its % sign.'),
    ('duct = "14 mm"', 'stress_is = "effective"\nlong_term_loss = "15 %"', '24: tendons[1].long_term_loss: found "15 %", but the stress is effective, after all losses; leave one of them out.'),
    ('duct = "14 mm"', 'transfer_length = "300 mm"', '23: tendons[1].transfer_length: found "300 mm", but a post-tensioned tendon is held by its anchors; leave it out, or write when = "before casting".'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = { kind = "nut", clas = "8" }', '24: tendons[1].anchor.clas: this key is not known; did you mean "class"?'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = { kind = "nut" }', '24: tendons[1].anchor.class: is missing; write class = "8", the property class of the nut, or strength = "40 kN".'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = { kind = "nutt" }', '24: tendons[1].anchor.kind: found "nutt", which is no choice here; write "wedge" or "nut".'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = "nut"', '24: tendons[1].anchor: found "nut", which is no table; write { kind = "nut", class = "8" } or { kind = "wedge", draw_in = "5 mm" }.'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = { kind = "wedge", draw_in = "-5 mm" }', '24: tendons[1].anchor.draw_in: found "-5 mm", which is negative; write a length such as "25 mm".'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = { kind = "nut", strength = "15 kN" }', '22: tendons[1].force: found "20 kN", but the anchor holds only 15 kN: measured capacity of the anchor; lower it, or choose a stronger anchor.'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = { kind = "nut", class = "8", thread = "Q" }', '24: tendons[1].anchor.thread: found "Q", but no thread is called \'Q\'; write a name of the catalogue such as "M3", "M4", "M5", "M6", "M8".'),
    ('anchor = { kind = "nut", class = "8" }', 'anchor = { kind = "nut", class = "88" }', '24: tendons[1].anchor.class: found "88", which is not in the catalogue; did you mean "8"?'),
    ('thread = "M10"\ngrade = "8.8"', 'diameter = "10 mm"\nyield = "640 MPa"\ntensile = "800 MPa"', '25: tendons[1].anchor.thread: is missing; write thread = "M10", for the size of the tendon is no thread.'),
    ('grade = "B500B"', 'law = "linear"\ntensile = "600 MPa"\nmodulus = "45 GPa"\nstrain_at_max = 0.05', '16: bars[1].strain_at_max: found 0.05, which contradicts tensile and modulus; leave it out, or give 0.0133.'),
    ('grade = "B500B"', 'law = "linear"\nmodulus = "45 GPa"', '10: bars[1].tensile: is missing; write tensile = "600 MPa", at which it ruptures.'),
    # stirrups
    ('spacing = "75 mm"', 'spacing = "0 mm"', '28: stirrups[1].spacing: found "0 mm", which is zero; write a length such as "100 mm".'),
    ("legs = 2", "legs = 20", "27: stirrups[1].legs: found 20, but 20 of 6 mm do not fit in a web of 100 mm; use fewer or thinner legs."),
    # supports
    ('span = "1.05 m"', "", '30: supports.span: is missing; write span = "1.05 m", or spans = ["5 m", "5 m"].'),
    ('span = "1.05 m"', 'span = "0 m"', '31: supports.span: found "0 m", which is zero; write a length such as "1.2 m".'),
    ('span = "1.05 m"', 'span = "-1 m"', '31: supports.span: found "-1 m", which is negative; write a length such as "1.2 m".'),
    ('span = "1.05 m"', 'span = "1050 km"', '31: supports.span: found "1050 km", which is more than 1000 m; check the unit.'),
    ('span = "1.05 m"', 'span = "1.05 m"\nspans = ["1.05 m"]', '32: supports.spans: found ["1.05 m"], but span is given too; give one of them.'),
    ('overhangs = "75 mm"', 'overhangs = "75 mm"\nends = "free"', '33: supports.ends: found "free", which does not hold the beam; write ["fixed", "free"] for a cantilever, or "pinned" for a simple span.'),
    ('overhangs = "75 mm"', 'overhangs = "75 mm"\nends = ["fixed", "free"]', '32: supports.overhangs: found "75 mm", but an end is free, and its span is an overhang already; write "0 m" at the free end.'),
    ('overhangs = "75 mm"', 'overhangs = "75 mm"\nbearing = "2 m"', '33: supports.bearing: found "2 m", which is as long as the span; give less than 1050 mm.'),
    # loads and press
    ('case = "dead"', 'case = "deda"', '34: loads[1].case: found "deda", which is no choice here; did you mean "dead"?'),
    ('point = "1 kN"', 'point = "0 kN"', '35: loads[1].point: found "0 kN", which is zero; write a force such as "20 kN".'),
    ('point = "1 kN"', "", '33: loads[1].uniform: is missing; write uniform = "5 kN/m", or point with at, or patch with from and to.'),
    ('point = "1 kN"', 'uniform = "1 kN/m"', '36: loads[1].at: found "0.6 m", but a uniform load has no such key; write point with at, patch with from and to, or uniform alone.'),
    ('point = "1 kN"', 'point = "1 kN"\nuniform = "1 kN/m"', '35: loads[1].point: found "1 kN", but uniform is given too; write each load as its own [[loads]].'),
    ('at = "0.6 m"', 'at = "1.3 m"', '36: loads[1].at: found "1.3 m", but the beam ends at 1200 mm (x is measured from its left end); give at most 1200 mm.'),
    ('at = "0.6 m"', "", '33: loads[1].at: is missing; write at = "1 m" beside point.'),
    ('points = ["425 mm", "775 mm"]', 'points = ["425 mm",\n "1.3 m"]', "39: press.points[2]: found 1300 mm, but the beam ends at 1200 mm (x is measured from its left end); put it where it bends the beam."),
    ('points = ["425 mm", "775 mm"]', 'points = ["75 mm", "775 mm"]', "38: press.points[1]: found 75 mm, which is over a support; put it where it bends the beam."),
    ('points = ["425 mm", "775 mm"]', "points = []", '38: press.points: found [], which has too few entries; write 1 to 50 of them, such as ["350 mm", "700 mm"].'),
    ('points = ["425 mm", "775 mm"]', 'points = "425 mm"', '38: press.points: found "425 mm", which is no list; write a list such as ["350 mm", "700 mm"].'),
    ('points = ["425 mm", "775 mm"]', 'points = ["425 mm", "425 mm"]', '38: press.points: found ["425 mm", "425 mm"], which names a place twice; name each once; all of them push alike.'),
    ('capacity = "100 kN"', 'gauge = "2 m"', '39: press.gauge: found "2 m", but the beam ends at 1200 mm (x is measured from its left end); give at most 1200 mm.'),
    ('capacity = "100 kN"', 'self_weight = false', "39: press.self_weight: this key is not known; it belongs at the top of the file."),
    ('legs = 2', 'bearing = "50 mm"', "27: stirrups[1].bearing: this key is not known; it belongs in [supports]."),
    # tables
    ("[supports]", "[suports]", '30: suports: this key is not known; did you mean "supports"?'),
    ("[[bars]]", "[bars]", "10: bars: found a table, which is no list of tables; write each as [[bars]], with two brackets."),
    ("[press]", "[[press]]", "37: press: found [a table], which is no table; write it once, as [press]."),
    ("[press]", "[pres]", '37: pres: this key is not known; did you mean "press"?'),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "sentence"), ONE, ids=[f"{new or old}" for old, new, _ in ONE])
def test_one_fault_is_one_sentence(old: str, new: str, sentence: str) -> None:
    assert faults(changed(old, new)) == [f"b.toml:{sentence}"]


PRETENSIONED = """\
[concrete]
strength = "40 MPa"
[section]
shape = "rectangle"
width = "300 mm"
depth = "300 mm"
[supports]
span = "5 m"
[[tendons]]
when = "before casting"
bond = "bonded"
count = 4
size = "12.5 strand"
grade = "Y1860S7"
profile = "50 mm from bottom"
stress = "1200 MPa"
"""

PRETENSIONED_FAULTS = [
    ('bond = "bonded"', 'bond = "unbonded"', '11: tendons[1].bond: found "unbonded", but a tendon stressed before casting is held by its bond alone; write bond = "bonded", or when = "after curing".'),
    ('stress = "1200 MPa"', 'stress = "1200 MPa"\nduct = "20 mm"', '17: tendons[1].duct: found "20 mm", but a tendon stressed before casting has no duct; leave it out, or write when = "after curing".'),
    ('stress = "1200 MPa"', 'stress = "1200 MPa"\nshape = "parabola"', '17: tendons[1].shape: found "parabola", but a tendon stressed before casting runs straight; write shape = "straight" with a point at each deviator.'),
    ('stress = "1200 MPa"', 'torque = "60 N m"', '16: tendons[1].torque: found "60 N m", but a tendon stressed before casting has no nut to turn; give stress or force, or write when = "after curing".'),
    ('stress = "1200 MPa"', 'stress = "1200 GPa"', '16: tendons[1].stress: found "1200 GPa", which is more than 10000 MPa; check the unit.'),
    ('grade = "Y1860S7"', 'yield = "1600 MPa"', "9: tendons[1].tensile: is missing; write the tensile strength of the strand or wire too, or its grade."),
    ('grade = "Y1860S7"', 'grade = "B500B"', '14: tendons[1].grade: found "B500B", which is a grade of bar, but the size is one of strand; choose a grade that this size is made in.'),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "sentence"), PRETENSIONED_FAULTS)
def test_what_a_pretensioned_tendon_cannot_be(old: str, new: str, sentence: str) -> None:
    read_text(PRETENSIONED)
    assert faults(PRETENSIONED.replace(old, new)) == [f"b.toml:{sentence}"]


SHAPES = [
    ('shape = "outline"\npoints = [["0 mm", "0 mm"], ["100 mm", "0 mm"], ["50 mm", "100 mm"], ["100 mm", "300 mm"], ["0 mm", "300 mm"], ["50 mm", "100 mm"]]', "3: section.points: found a list of 6, but there is no concrete at 100 mm above the soffit; leave some width at every height between soffit and top."),
    ('shape = "tee"\ndepth = "600 mm"\nweb_width = "300 mm"\nflange_width = "200 mm"\nflange_depth = "100 mm"', '5: section.flange_width: found "200 mm", which is narrower than the web; give at least the web_width of 300 mm.'),
    ('shape = "tee"\ndepth = "600 mm"\nweb_width = "300 mm"\nflange_width = "900 mm"\nflange_depth = "600 mm"', '6: section.flange_depth: found "600 mm", but the flange is 600 mm deep and the section 600 mm; leave some web between them.'),
    ('shape = "box"\nwidth = "600 mm"\ndepth = "600 mm"\nwall = "300 mm"\ntop_depth = "100 mm"\nbottom_depth = "100 mm"', '5: section.wall: found "300 mm", but two walls leave no hole between them; keep the wall below half of the width 600 mm.'),
    ('shape = "i"\ndepth = "600 mm"\nweb_width = "100 mm"\ntop_width = "300 mm"\ntop_depth = "300 mm"\nbottom_width = "300 mm"\nbottom_depth = "300 mm"', '3: section.depth: found "600 mm", but flanges and tapers together are 600 mm deep and the section 600 mm; leave some web between them.'),
    ('shape = "outline"\npoints = [["0 mm", "0 mm"], ["100 mm", "0 mm"], ["100 mm", "100 mm"], ["0 mm", "100 mm"]]\nholes = [[["50 mm", "50 mm"], ["150 mm", "50 mm"], ["150 mm", "60 mm"]]]', "4: section.holes[1]: found a hole which reaches outside the outline; keep every hole inside the outline and apart from the others."),
    ('shape = "outline"\npoints = [["0 mm", "0 mm"], ["100 mm", "100 mm"], ["100 mm", "0 mm"], ["0 mm", "160 mm"]]', '3: section.points: found a list of 4, but the outline crosses itself; check the order and the coordinates of the points.'),
    ('shape = "outline"\npoints = [["0 mm", "0 mm"], ["100 mm", "0 mm"]]', '3: section.points: found [["0 mm", "0 mm"], ["100 mm", "0 mm"]], which has too few entries; write 3 to 200 of them, such as [["0 mm", "75 mm"], ["0 mm", "75 mm"], ["0 mm", "75 mm"]].'),
    ('shape = "outline"\npoints = [["0 mm", "0 mm"], ["100 mm", "0 mm"], ["50 mm"]]', '3: section.points[3]: found ["50 mm"], which is no point; write two lengths such as ["0 mm", "75 mm"].'),
]  # fmt: skip


@pytest.mark.parametrize(("section", "sentence"), SHAPES)
def test_sections_that_cannot_be_cast(section: str, sentence: str) -> None:
    told = faults(f'[section]\n{section}\n[concrete]\nstrength = "30 MPa"\n[supports]\nspan = "5 m"\n')
    assert told == [f"b.toml:{sentence}"]


def test_turns_need_a_thread() -> None:
    plain = 'diameter = "10 mm"\nyield = "640 MPa"\ntensile = "800 MPa"'
    text = changed('thread = "M10"\ngrade = "8.8"', plain).replace('force = "20 kN"', "turns = 1")
    told = faults(text.replace('anchor = { kind = "nut", class = "8" }', ""))
    assert told == [
        'b.toml:23: tendons[1].turns: found 1, but the tendon has no thread; give its thread, such as thread = "M10".'
    ]


def test_a_bar_where_a_hole_leaves_no_room() -> None:
    ring = (
        '[section]\nshape = "outline"\npoints = [["0 mm", "0 mm"], ["200 mm", "0 mm"], ["200 mm", "200 mm"], ["0 mm", "200 mm"]]\n'
        'holes = [[["1 mm", "50 mm"], ["199 mm", "50 mm"], ["199 mm", "150 mm"], ["1 mm", "150 mm"]]]\n'
    )
    told = faults(
        f'{ring}[concrete]\nstrength = "30 MPa"\n[supports]\nspan = "5 m"\n'
        '[[bars]]\ncount = 1\nsize = "10"\ngrade = "B500B"\nat = "100 mm from bottom"\n'
    )
    assert told == [
        'b.toml:13: bars[1].at: found "100 mm from bottom", but the bar needs 10 mm and the section is 2 mm wide there; '
        "use fewer or thinner ones, or another height."
    ]


def test_all_faults_at_once_in_the_order_of_the_file() -> None:
    text = GOOD
    for old, new in [
        ('strength = "35 MPa"', 'strength = "35"'),
        ('size = "10"', 'size = "10"\nbogus = 1'),
        ('at = "25 mm from bottom"', 'at = "250 mm from bottom"'),
        ('force = "20 kN"', 'force = "200 kN"'),
        ('spacing = "75 mm"', ""),
        ('at = "0.6 m"', 'at = "1.6 m"'),
        ('capacity = "100 kN"', "capacity = 100"),
    ]:
        text = text.replace(old, new)
    told = faults(text)
    assert [each.split(": ")[1] for each in told] == [
        "concrete.strength", "bars[1].bogus", "bars[1].at", "tendons[1].force", "stirrups[1].spacing", "loads[1].at", "press.capacity",
    ]  # fmt: skip
    lines = [int(each.split(":")[1]) for each in told]
    assert lines == sorted(lines)


def test_a_fault_in_one_table_hides_none_in_another() -> None:
    told = faults(
        changed("[supports]", "[suports]")
        .replace("25 mm from bottom", "250 mm from bottom")
        .replace("60 mm from bottom", "1 m from bottom")
        .replace('grade = "B500A"', 'grade = "B500Q"')
        .replace("legs = 2", "legs = 22")
        .replace('force = "20 kN"', 'force = "200 kN"')
    )
    assert [each.split(": ")[1] for each in told] == [
        "bars[1].at", "tendons[1].profile", "tendons[1].force", "stirrups[1].legs", "stirrups[1].grade", "suports",
    ]  # fmt: skip


def test_faults_of_several_tables_of_one_kind_are_told_apart() -> None:
    more = '[[bars]]\ncount = 1\nsize = "8"\ngrade = "B500B"\nat = "1 m from top"\n'
    told = faults(GOOD + more)
    assert told == [
        'b.toml:44: bars[2].at: found "1 m from top", but the bar would stand out of the concrete, which is 150 mm '
        "deep; keep its centre between 4 mm and 146 mm above the soffit."
    ]


def test_a_file_in_us_units_is_answered_in_them() -> None:
    told = faults(
        '[concrete]\nstrength = "5 ksi"\n[section]\nshape = "rectangle"\nwidth = "12 in"\ndepth = "20 in"\n'
        '[supports]\nspan = "20 ft"\n[[bars]]\ncount = 2\nsize = "#8"\ngrade = "Grade 60"\nat = "25 in from bottom"\n'
    )
    assert "which is 20 in deep; keep its centre between 0.5 in and 19.5 in" in told[0]


SYNTAX = [
    ("", '1: the file is empty; write [concrete], [section] and [supports] at least.'),
    ("# only a remark\n", "1: the file is empty"),
    ('name = "a\n', "1: "),
    ("name = a\n", '1: invalid value in "name = a"; write lines like depth = "150 mm", with every quantity in quotes.'),
    ('[concrete]\nstrength "35 MPa"\n', "2: expected '=' after a key in a key/value pair"),
    ('[concrete]\nage = "1 d"\nage = "2 d"\n', "3: cannot overwrite a value"),
    ("[concrete]\n[concrete]\n", "2: cannot declare ('concrete',) twice"),
    ("a = " + "[" * 5000, "1: the lists are nested too deeply"),
    ("a = " + "9" * 5000, "1: a number has too many digits"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "sentence"), SYNTAX, ids=range(len(SYNTAX)))
def test_text_that_is_no_document(text: str, sentence: str) -> None:
    told = faults(text)
    assert len(told) == 1
    assert told[0].startswith(f"b.toml:{sentence}")
    assert told[0].endswith(".")


def test_windows_line_ends_and_a_byte_order_mark_do_not_matter(tmp_path: Path) -> None:
    file = tmp_path / "beam.toml"
    file.write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())
    assert read(file).name == "Beam"
    file.write_bytes(b"\xef\xbb\xbf" + changed("legs = 2", "legs = 0").replace("\n", "\r\n").encode())
    with pytest.raises(BeamFileError) as refused:
        read(file)
    assert refused.value.problems[0].startswith(f"{file}:27: stirrups[1].legs: found 0")


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    file = tmp_path / "beam.toml"
    file.write_bytes(b'name = "a"\nabout = "\xe9"\n')
    cases = {
        str(file): ":2: found byte 0xe9, which is no UTF-8 text; save the file as UTF-8.",
        str(tmp_path): f": this is a folder; name a beam file in it, such as {file}.",
        str(tmp_path / "baem.toml"): f": there is no such file; did you mean {file}.",
        str(tmp_path / "x.toml"): ": there is no such file; check its name.",
        str(tmp_path / "no" / "x.toml"): ": there is no such file; check the folder's name.",
        str(file / "x.toml"): ": the file cannot be read (Not a directory); check its name and rights.",
        "a\0b": ": the file cannot be read (the name is not that of a file); check its name and rights.",
    }
    for path, sentence in cases.items():
        with pytest.raises(BeamFileError) as refused:
            read(path)
        assert refused.value.problems == [f"{path}{sentence}"]
    for data, sentence in [(GOOD.encode("utf-16"), "UTF-16"), (b" " * 2_000_000, "more than a megabyte")]:
        file.write_bytes(data)
        with pytest.raises(BeamFileError, match=sentence):
            read(file)


def test_a_starter_that_does_not_exist() -> None:
    with pytest.raises(SoffitError, match='did you mean "plain"'):
        starter("plian")
    with pytest.raises(SoffitError, match="write one of plain, bars"):
        starter("xyz")
