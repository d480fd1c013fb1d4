"""``[verify]``, ``[project]``, ``[[vehicles]]``: what a good file gives, and one sentence for every wrong one."""

from __future__ import annotations

from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path

import pytest

import soffit
from soffit.beamfile import read_text
from soffit.beamfile.tables.verifying import SYMBOLS
from soffit.codes.verification import verify
from soffit.errors import BeamFileError
from soffit.member.verifying import Project, Vehicle, Verifying

BASE = """
name = "Ramp"
[concrete]
strength = "30 MPa"
strength_is = "specified"
[section]
shape = "rectangle"
width = "300 mm"
depth = "500 mm"
[[bars]]
count = 3
size = "20"
grade = "B500B"
at = "50 mm from bottom"
[supports]
span = "6 m"
[[loads]]
case = "live"
uniform = "10 kN/m"
"""


def read(tmp_path: Path, more: str) -> soffit.Beam:
    path = tmp_path / "ramp.toml"
    path.write_text(BASE + more, encoding="utf-8")
    return soffit.read(path)


def test_a_file_without_them_takes_the_usual(tmp_path):
    assert read(tmp_path, "").verifying == Verifying()


def test_everything_said(tmp_path):
    beam = read(
        tmp_path,
        """eccentricity = "-80 mm"
category = "E"
[[loads]]
case = "dead"
compression = "200 kN"
[verify]
exposure = ["XC4", "XF1"]
category = "C"
working_life = "100 years"
fire = "R60"
redistribution = "15 %"
cot_theta = 1.5
finishes = "fragile"
laps = "50 %"
lap_at = ["4 m", "2 m"]
residual = ["4 MPa", "3 MPa"]
national = { alpha_cc = 0.85, both_6_10a_and_b = true }
[project]
name = "Alder Weir footbridge"
revision = "B"
[[vehicles]]
name = "cart"
axles = ["20 kN", "40 kN"]
gaps = ["2 m"]
dynamic = 1.3
""",
    )
    v = beam.verifying
    assert v.exposure == ("XC4", "XF1")
    assert (v.category, v.fire, v.redistribution, v.stirrup_angle) == ("C", 60, pytest.approx(0.15), 1.5)
    assert v.working_life == pytest.approx(100.0)
    assert v.lap_at == (2000.0, 4000.0)
    assert v.residual == (4.0, 3.0)
    assert dict(v.national) == {"αcc": 0.85, "6.10ab": 1.0}
    assert v.vehicles == (Vehicle("cart", "traffic", (20e3, 40e3), (2000.0,), 1.3, True),)
    assert v.axial == (("dead", -200e3),)
    assert v.project == Project(name="Alder Weir footbridge", revision="B")
    assert (beam.loads[0].eccentricity, beam.loads[0].category) == (-80.0, "E")
    assert len(beam.loads) == 1
    assert beam.concrete.specified == 30.0
    left_out = [note for note in beam.notes if "a verification counts" in note]
    assert len(left_out) == 3


def test_a_life_is_the_same_with_and_without_them(tmp_path):
    more = (
        '[verify]\nexposure = "XC3"\n[[vehicles]]\naxles = ["500 kN"]\n[[loads]]\ncase = "dead"\ncompression = "1 MN"\n'
    )
    assert soffit.life(read(tmp_path, "")).peak.load == soffit.life(read(tmp_path, more)).peak.load


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ('[verify]\nexposure = "XC9"\n', 'verify.exposure: found "XC9", which is no choice here'),
        ('[verify]\nexposure = ["XC1", "XF1", "XC3"]\n', "but XC1 and XC3 are of one kind; keep the harder"),
        ('[verify]\nexposure = ["X0", "XD1"]\n', "but X0 is no attack at all and XD1 is one; leave one of them out"),
        ('[verify]\nexposure = ["F1", "F1"]\n', "which names F1 twice; name it once."),
        ('[verify]\nexposure = ["indoors", "outdoors"]\n', "but indoors and outdoors are of one kind"),
        ('[verify]\nnational = { k3 = 3.4 }\n', "verify.national.k3: this key is not known; "),
        ('[verify]\nfire = "60 min"\n', 'verify.fire: found "60 min", which is no choice here; write "R30", '),
        ('[verify]\nredistribution = 15\n', "verify.redistribution: found 15, a bare number; write \"15 %\""),
        ('[verify]\nnational = { alpha = 1 }\n', "verify.national.alpha: this key is not known; "),
        ('[verify]\nnational = { alpha_cc = 85 }\n', "verify.national.alpha_cc: found 85, which is above 1.2"),
        ('[verify]\nlap_at = ["2 m"]\n', 'verify.laps: is missing; write laps = "50 %" beside lap_at.'),
        ('[verify]\nlaps = "50 %"\nlap_at = ["9 m"]\n', "the beam ends at 6 m"),
        ('[verify]\nexposures = "XC1"\n', 'verify.exposures: this key is not known; did you mean "exposure"?'),
        ('[[vehicles]]\naxles = ["20 kN", "40 kN"]\n', "vehicles[1].gaps: is missing; give 1, one from each"),
        ('[[vehicles]]\naxles = ["20 kN"]\ngaps = ["2 m"]\n', "which are 1 distances between 1 axles; give 0"),
        ('[[vehicles]]\naxles = ["-20 kN"]\n', "which is negative"),
        ('[[loads]]\ncase = "dead"\ncompression = "1 kN"\nat = "2 m"\n', "but a compression load has no such key"),
        ('[project]\nname = "a\\u0007b"\n', "which holds signs that cannot be printed"),
    ],
)  # fmt: skip
def test_one_sentence_for_every_fault(tmp_path, more, sentence):
    with pytest.raises(BeamFileError) as error:
        read(tmp_path, more)
    assert sentence in str(error.value)
    assert "ramp.toml:" in str(error.value)


EXAMPLES = Path(__file__).parents[2] / "examples"
OTHER = {
    "both_6_10a_and_b": 1.0, "gamma_g": 1.2, "gamma_g_inf": 0.6, "gamma_s": 1.3, "gamma_p": 1.3, "r_sup": 1.2,
    "w_max": 0.07, "k3_cracks": 1.0, "sag": 900.0, "sag_after": 1900.0, "beta_2": 0.6, "k2_spacing": 40.0,
    "delta_c_dev": 3.0, "cot_theta_max": 1.1, "k1_shear": 0.4, "c_rd_c": 0.2, "k1_spacing": 2.0,
    "k2_stress": 0.6, "xi": 0.75, "psi_1": 0.99,
}  # fmt: skip
"""Far from the recommended values; 0.45 for the rest."""
OF_SHEAR = ("c_rd_c", "k1_shear", "cot_theta_max")


def results(beam: soffit.Beam) -> list[tuple[str, float, float]]:
    found = verify(beam, "en1992")
    return [(each.title, each.demand.value, each.resistance.value) for each in found.checks]


def given(beam: soffit.Beam, national: tuple[tuple[str, float], ...]) -> list[tuple[str, float, float]]:
    return results(replace(beam, verifying=replace(beam.verifying, national=national)))


LIFTED = """
[concrete]
strength = "30 MPa"
[section]
shape = "rectangle"
width = "300 mm"
depth = "500 mm"
[[bars]]
count = 3
size = "20"
grade = "B500B"
at = "50 mm from bottom"
[[bars]]
count = 4
size = "25"
grade = "B500B"
at = "50 mm from top"
from = "1 m"
to = "13 m"
[[bars]]
count = 2
size = "8"
grade = "B500B"
at = "40 mm from top"
ends = "hook"
[supports]
spans = ["4 m", "6 m", "4 m"]
[[loads]]
case = "dead"
uniform = "5 kN/m"
[[loads]]
case = "live"
uniform = "30 kN/m"
"""
"""Light spans beside a heavily loaded one: its own weight holds them down."""


@pytest.fixture(scope="module")
def usual() -> list[tuple[soffit.Beam, list[tuple[str, float, float]]]]:
    beams = [soffit.read(EXAMPLES / f"alder-weir-{stem}.toml") for stem in ("ramp", "deck-unit", "two-span", "girder")]
    beams.append(read_text(LIFTED, "lifted.toml"))
    return [(beam, results(beam)) for beam in beams]


@pytest.mark.parametrize("key", SYMBOLS)
def test_every_national_value_changes_a_result(usual, key):
    """A value that the file takes and no check reads would be dropped without a word."""
    if key in OF_SHEAR and find_spec("soffit.codes.en1992.shear") is None:
        pytest.skip("EN 1992-1-1 6.2 is not checked yet")
    own = ((SYMBOLS[key], OTHER.get(key, 0.45)), *((("6.10ab", 1.0),) if key == "xi" else ()))
    assert any(given(beam, own) != (given(beam, own[1:]) if own[1:] else was) for beam, was in usual)
