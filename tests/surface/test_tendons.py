"""``soffit tendons`` as a user meets it: text, sheet, JSON, and sentences for what cannot be."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from soffit import cli

Run = Callable[..., tuple[int, str, str]]
HEAD = """
name = "Weir approach"
[concrete]
strength = "45 MPa"
strength_at_transfer = "35 MPa"
[section]
shape = "rectangle"
width = "400 mm"
depth = "800 mm"
"""
CONTINUOUS = """
[[tendons]]
when = "after curing"
bond = "bonded"
count = 4
size = "15.7 strand"
grade = "Y1860S7"
shape = "reversed"
profile = [["0 m", "400 mm"], ["6 m", "110 mm"], ["15 m", "690 mm"], ["24 m", "110 mm"], ["30 m", "400 mm"]]
stress = "1400 MPa"
friction = 0.19
wobble_angle = "0.007 rad/m"
duct = "60 mm"
jacked_from = "both"
anchor = {kind = "wedge", draw_in = "6 mm"}
[supports]
spans = ["15 m", "15 m"]
[[loads]]
case = "crowd"
uniform = "10 kN/m"
"""
HARPED = """
[[tendons]]
when = "before casting"
bond = "bonded"
count = 4
size = "15.7 strand"
grade = "Y1860S7"
profile = [["0 m", "400 mm"], ["4 m", "90 mm"], ["8 m", "90 mm"], ["12 m", "400 mm"]]
stress = "1350 MPa"
bed = {length = "60 m", slip = "5 mm", warming = "30 K"}
[supports]
span = "12 m"
[[loads]]
case = "crowd"
uniform = "10 kN/m"
"""


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    Path("two.toml").write_text(HEAD + CONTINUOUS, encoding="utf-8")
    Path("sharp.toml").write_text(HEAD + CONTINUOUS.replace('"60 mm"', '"60 mm"\nminimum_radius = "8 m"'), "utf-8")
    Path("harped.toml").write_text(HEAD + HARPED, encoding="utf-8")

    def command(*tokens: str) -> tuple[int, str, str]:
        code = cli.main(["tendons", *tokens])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return command


def test_continuous_beam_in_words(run):
    code, out, err = run("two.toml")
    assert (code, err) == (0, "")
    for words in (
        "stressed after curing from both ends, bonded, reversed parabolas",
        "the least radius of the curves is 6.98 m at 15 m, not below the 6.10 m that AASHTO LRFD 5.4.6.1 asks of ducts",
        "1400 MPa at the jack; friction and wobble leave",
        "A draw-in of 6 mm leaves",
        "The tendons are not concordant: the line of thrust lies",
    ):
        assert words in out
    assert out.splitlines()[-1].startswith("Weir approach: the tendons balance ")
    assert out.splitlines()[-1].endswith(" at 15 m.")


def test_radius_below_the_least_given_is_a_clear_warning(run):
    code, out, _ = run("sharp.toml")
    assert code == 0
    assert "too sharp, below the 8.00 m that the file gives; lay the tendon flatter, or move the inflection" in out
    assert out.splitlines()[-1] == "A is bent too sharply: 6.98 m at 15 m, where 8.00 m is the least."


def test_harped_strands_in_words(run):
    code, out, _ = run("harped.toml")
    assert code == 0
    for words in (
        "2 kinks, the sharpest 4.43° at 4 m; a kink has no radius of its own",
        "before release it loses slip and give of the bed 16.2 MPa, warming 29.3 MPa",
        "EN 1992-1-1:2004",
        "kink at 4 m",
        "A: no friction at the deviators was given, so none is taken.",
        "Statics alone gives the moments",
    ):
        assert words in out


def test_json_is_strict_and_in_its_units(run):
    assert run("two.toml", "--json", "out.json")[0] == 0
    told = json.loads(Path("out.json").read_text(encoding="utf-8"), parse_constant=lambda name: pytest.fail(name))
    (group,) = told["tendons"]
    assert group["stress_at_jack_MPa"] == 1400.0
    assert group["stressing"]["influence_left_mm"] == group["stressing"]["influence_right_mm"]
    assert group["ordinates"][0] == {"place": "support 1", "x_mm": 0.0, "height_mm": 400.0, "below_centroid_mm": 0.0}
    assert sum(each["reaction_kN"] for each in told["supports"]) == pytest.approx(0.0, abs=1e-3)
    assert told["concordant"] is False
    up = sum(each["up_kN_per_m"] * (each["to_mm"] - each["from_mm"]) / 1e3 for each in group["equivalent_loads"])
    assert up + sum(p["up_kN"] for p in group["point_forces"]) == pytest.approx(0.0, abs=1e-2)


@pytest.mark.parametrize("name", ["two", "harped"])
def test_sheet_is_drawn_alike_twice(run, name):
    for folder in ("one/", "other/"):
        code, out, _ = run(f"{name}.toml", "--picture", folder)
        assert code == 0
        assert f"{name}-tendons.svg" in out
    one, other = (Path(folder, f"{name}-tendons.svg").read_bytes() for folder in ("one", "other"))
    assert one == other
    assert Path("one", f"{name}-tendons.png").stat().st_size > 20000


def test_units_of_what_is_shown(run):
    _, out, _ = run("two.toml", "--units", "US")
    assert "203 ksi at the jack" in out
    assert "kip·ft" in out


def test_what_cannot_be_is_one_sentence(run):
    Path("bars.toml").write_text(HEAD + CONTINUOUS[CONTINUOUS.index("[supports]") :], encoding="utf-8")
    for tokens, code, sentence in (
        (("bars.toml",), 1, "bars.toml: this beam has no tendons"),
        (("none.toml",), 1, "none.toml: there is no such file"),
        (("t*.toml", "--json", "two.toml"), 2, "--json two.toml would overwrite the beam file"),
        (("two.toml", "--json", "."), 2, "--json .: name a file, such as tendons.json."),
        (("*.toml",), 2, "*.toml fits 4 files, and tendons tells of one beam; name one of them."),
        (("two.toml", "--picture", "a.gif"), 2, "--picture a.gif: charts are written as .svg, .png or .pdf."),
    ):
        found, out, err = run(*tokens)
        assert (found, out) == (code, "")
        assert err.startswith(sentence)
        assert err.count("\n") == 1
