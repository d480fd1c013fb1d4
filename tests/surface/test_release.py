"""``soffit release`` as a user meets it: the physics' own numbers, logs of every make, and sentences for wrong ones."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

import soffit
from soffit import cli
from soffit.materials.ageing import maturity as m
from soffit.materials.ageing.heat import relaxation_age
from soffit.materials.ageing.models import model
from soffit.materials.ageing.relaxation import en1992
from soffit.materials.ageing.release import Calibration, by_age, release
from soffit.show.releaselog import read_log

ROOT = Path(__file__).resolve().parents[2]
BEAM = str(ROOT / "examples/alder-weir-deck-unit.toml")
LOG = str(ROOT / "examples/alder-weir-curing-log.csv")
SHORT = "time (h),temperature (°C)\n0,20\n1,30\n2,50\n3,60\n"
Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)

    def command(*tokens: str) -> tuple[int, str, str]:
        code = cli.main(["release", *tokens])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out.replace("\N{NARROW NO-BREAK SPACE}", " "), err

    return command


def write(name: str, text: str) -> str:
    Path(name).write_text(text, encoding="utf-8")
    return name


def read(text: str):
    """The log of a text, which must have no fault."""
    found, faults = read_log(write("log.csv", text))
    assert faults == []
    return found


def strength(**changed: object):
    making = soffit.read(BEAM).making
    return model(making.model, replace(making.casting, **changed)).strength


def test_example_tells_what_the_physics_says(run):
    log = read_log(LOG)[0].log
    answer = release(log, 32.0, by_age(strength()), m.en1992_age())
    code, out, err = run(BEAM, LOG)
    assert (code, err) == (0, "")
    assert answer.reached
    first = out.splitlines()[0]
    assert first.startswith("Yes, as far as temperature tells: ")
    assert f"32.0 MPa wanted were there {24 * answer.time:.1f} h after casting" in first
    assert f"there are {answer.strength:.1f} MPa." in first
    assert "the mean of a standard and not of this mix" in out.splitlines()[1]
    assert re.search(rf"18\.0 +37\.0 +{24 * answer.maturity:.1f} +{answer.strength:.1f} +end of the log", out)
    assert f"counts as {relaxation_age(log, -1.0):.1f} days under stress besides the 42.0 h" in out
    hot = en1992(log.end + 1.0 + relaxation_age(log, -1.0), 1250 / 1860, "low relaxation")
    assert f"{100 * hot:.1f} % of its stress at the jack" in out
    assert all(note in out for note in answer.notes)
    assert "then no reading for 2.5 h" in out
    assert out.splitlines()[-1].startswith("Alder Weir deck unit: by a standard's mean it has ")
    assert "invented" in Path(LOG).read_text(encoding="utf-8").splitlines()[0].lower()


def test_no_is_an_answer_too(run):
    log = read_log(LOG)[0].log
    answer = release(log, 40.0, by_age(strength()), m.en1992_age())
    code, out, err = run(BEAM, LOG, "--wanted", "40 MPa")
    assert (code, err, answer.reached) == (0, "", False)
    assert f"if it stays at 37 °C it gets there in about {24 * answer.forecast:.1f} h." in out.splitlines()[0]
    assert "do not release yet" in out.splitlines()[-1]


def test_a_gap_is_also_counted_at_its_cooler_end(run):
    _, out, _ = run(BEAM, write("gap.csv", "time (h),temperature (°C)\n0,20\n10,60\n"), "--wanted", "10 MPa")
    # ten hours at 20 °C by (3.2) of EN 1992-1-1
    cold = float(strength()(10 / 24 * float(m.en1992_age().rate(20.0))))
    assert f"there would be {cold:.1f} MPa in the end, and the 10.0 MPa would be reached" in out


@pytest.mark.parametrize(
    ("by", "function"),
    [("Nurse-Saul", m.nurse_saul_age(reference=20.0)), ("Arrhenius", m.arrhenius(reference=20.0))],
)
def test_other_functions_count_to_20_degrees(run, by, function):
    answer = release(read_log(LOG)[0].log, 32.0, by_age(strength()), function)
    _, out, _ = run(BEAM, LOG, "--by", by)
    assert f"{answer.strength:.1f} MPa" in out.splitlines()[0]
    assert re.search(rf"18\.0 +37\.0 +{24 * answer.maturity:.1f} +{answer.strength:.1f} +end of the log", out)


def test_cylinders_make_the_law(run):
    tested = write("tested.csv", "maturity (°C·h);strength (MPa)\n300;14,9\n300;15,1\n600;26\n1200;38\n")
    law = Calibration((12.5, 25.0, 50.0), (15.0, 26.0, 38.0))
    answer = release(read_log(LOG)[0].log, 30.0, law, m.nurse_saul())
    code, out, _ = run(BEAM, LOG, "--cylinders", tested, "--wanted", "30 MPa")
    assert code == 0
    assert f"30.0 MPa wanted were there {24 * answer.time:.1f} h after casting" in out
    assert "not of this mix" not in out
    assert "3 points, 4 cylinders in all" in out
    # the same cylinders, told by age and temperature
    aged = write("aged.csv", "age (h),temperature (°F),strength (MPa)\n15,68,15\n30,68,26\n60,68,38\n")
    assert run(BEAM, LOG, "--cylinders", aged, "--by", "Nurse-Saul", "--wanted", "30 MPa")[1].splitlines()[0] == (
        out.splitlines()[0].replace(tested, aged)
    )


def test_neither_heat_nor_the_wanted_strength_shapes_the_law(run):
    """Steam constants over an equivalent age would count heat twice, and a curve fitted to the wanted strength at
    release would answer yes to itself."""
    text = Path(BEAM).read_text(encoding="utf-8")
    for name, said in (("ACI 209R-92", "half of such concretes have less"), ("AASHTO LRFD", "that was ordered")):
        beam = write("beam.toml", text.replace("EN 1992-1-1", name))
        making = soffit.read(beam).making
        law = by_age(
            model(
                making.model, replace(making.casting, heat_days=0.0, transfer_strength=None, transfer_age=None)
            ).strength
        )
        answer = release(read_log(LOG)[0].log, 32.0, law, m.en1992_age())
        _, out, _ = run(beam, LOG)
        assert f"{answer.strength:.1f} MPa" in out.splitlines()[0]
        assert said in out.splitlines()[1]
        assert "is taken without heat, which the equivalent age counts already" in out


@pytest.mark.parametrize(
    "text",
    [
        "time (h);temperature (°C)\n0;20\n0,5;31,25\n2;50\n",
        "time (min)\ttemperature (°C)\n0\t20\n30\t31.25\n120\t50\n",
        "temperature (°F),time (days)\n68,0\n88.25,0.020833333333333332\n122,0.08333333333333333\n",
        "timestamp,concrete (°C)\n2031-03-04T22:00,20\n2031-03-04T22:30,31.25\n2031-03-05T00:00,50\n",
        "date;time;temperature (°C)\n2031-03-04;22:00;20\n2031-03-04;22:30;31,250\n2031-03-05;00:00;50\n",
        "timestamp,since casting (h),temp (°C),air (°C)\n2031-03-05 09:00,0,20,5\n2031-03-05 09:30,0.5,31.25,5\n"
        "2031-03-05 11:00,2,50,5\n",
        "# of the bed\n\nsep=;\ntime, h;temperature, °C;\n0;20;\n0.5;31.25;\n2;50;\n",
    ],
)
def test_logs_of_every_make_are_one(run, text):
    log = read(text).log
    assert log.times == pytest.approx([0.0, 0.5 / 24, 2 / 24], abs=1e-12)
    assert log.temperatures == pytest.approx([20.0, 31.25, 50.0])


def test_dates_count_from_the_first_and_the_clock_is_told(run):
    rows = "".join(f"2031-03-0{4 + h // 24} {h % 24:02d}:00,60\n" for h in range(6, 31))
    code, out, _ = run(BEAM, write("dated.csv", "time,temperature (°C)\n" + rows))
    assert code == 0
    # 60 °C: 32 MPa by EN 1992-1-1 (3.2), (B.10)
    need = re.search(r"were there (\d+\.\d) h after casting \(2031-03-04 (\d\d):(\d\d)\)", out)
    hours, clock = float(need[1]), int(need[2]) + int(need[3]) / 60
    assert clock == pytest.approx(6 + hours, abs=0.07)
    grown = hours / 24 * float(m.en1992_age().rate(60.0))
    assert float(strength()(grown)) == pytest.approx(32.0, abs=0.15)
    assert "from the first reading, 2031-03-04 06:00, which is taken as casting" in out


WRONG = [
    ("", "log.csv: is empty; a head and a row for every reading are wanted."),
    ("time (h),temperature (°C)\n", "log.csv: has no row under the head; a row for every reading is wanted."),
    (
        "hour,warmth\n0,20\n",
        "log.csv, line 1: found “hour”, “warmth”, but no column of time and temperature; write heads such as “time "
        "(h)” and “temperature (°C)”.",
    ),
    (
        "time (h),temperature\n0,20\n",
        "log.csv, line 1: column “temperature”: its unit is missing; write °C or °F in brackets behind it.",
    ),
    (
        "time (weeks),temperature (°C)\n0,20\n",
        "log.csv, line 1: column “time”: found “weeks”; write h, min or days in brackets behind it.",
    ),
    (
        "time (h),temperature (°C)\n0,20\n1,warm\n2,30\n",
        "log.csv, line 3: “temperature” is “warm”, which is no number; write a number, and the unit in the head alone.",
    ),
    (
        "time (h),temperature (°C)\n0,20\n,21\n2,30\n",
        "log.csv, line 3: “time” is empty; write a number, and the unit in the head alone.",
    ),
    (
        "time (h),temperature (°C)\n0,20\n0,5,21\n",
        "log.csv, line 3: has 3 cells and the head has 2; a decimal comma between cells that commas cut must stand in "
        "quotes.",
    ),
    (
        "time (h);temperature (°C)\n0;20,5\n1;21.5\n",
        "log.csv: line 3 has a point and line 2 a comma before decimals; write all of them alike.",
    ),
    (
        "time (min);temperature (°C)\n0;20\n1,080;30\n",
        "log.csv, line 3: “time” is “1,080”, which may be thousands or decimals; leave the comma out.",
    ),
    (
        "time (h),temperature (°C)\n-1,20\n1,30\n",
        "log.csv, line 2: “time” is “-1”, which is before casting; leave the row out.",
    ),
    (
        "time (h),temperature (°C)\n0,20\n1,140\n",
        "log.csv, line 3: 140 °C is no temperature of curing concrete (-40 to 100 °C); mend the value or the unit, or "
        "leave the cell empty.",
    ),
    (
        "time (h),temperature (°C)\n0,20\n1,30\n1,40\n",
        "log.csv, line 4: this time stands on line 3 already with another temperature; keep one.",
    ),
    (
        "time,temperature (°C)\n2031-03-04 06:00,20\n2031-13-04 07:00,30\n",
        "log.csv, line 3: “time” is “2031-13-04 07:00”; write a date and time such as 2031-03-04 15:30.",
    ),
    (
        "time,temperature (°C)\n2031-03-04 06:00,20\n2031-03-04 07:00+01:00,30\n",
        "log.csv: some times have a time zone and some have none; write all alike.",
    ),
    ("time (h),temperature (°C)\n0,20\n1,\n", "log.csv: a temperature log needs two readings at least."),
    (
        "time (h),concrete (°C),temp (°C)\n0,20,20\n",
        "log.csv, line 1: “concrete” and “temp” are both columns of one thing; keep one.",
    ),
]


@pytest.mark.parametrize(("text", "sentence"), WRONG)
def test_a_wrong_log_is_one_sentence_and_no_answer(run, text, sentence):
    code, out, err = run(BEAM, write("log.csv", text))
    assert (code, out) == (1, "")
    assert err == sentence + "\n"


def test_every_wrong_row_is_told_until_nobody_reads_on(run):
    rows = "".join(f"{h},?\n" for h in range(40))
    _, _, err = run(BEAM, write("log.csv", "time (h),temperature (°C)\n" + rows))
    assert err.count("which is no number") == 12
    assert err.splitlines()[-1] == "log.csv: 28 more rows cannot be read; mend these first."


@pytest.mark.parametrize(
    ("text", "by", "sentence"),
    [
        (
            "maturity (°C·h),strength (MPa)\n300,15\n600,26\n",
            ("--by", "EN"),
            "mix.csv, line 1: “maturity” in °C·h is of Nurse–Saul and not of EN; leave --by out.",
        ),
        (
            "maturity (h at 20 °C),strength (MPa)\n30,15\n60,26\n",
            (),
            "mix.csv, line 1: “maturity” in h at 20 °C may be of several functions; say which with --by.",
        ),
        (
            "age (h),temperature (°C),strength (MPa)\n24,20,26\n12,20,15\n48,20,20\n",
            (),
            "mix.csv: the strengths of a calibration must be above zero and may not fall from point to point.",
        ),
        (
            "age (h),temperature (°C),strength (MPa)\n24,20,26\n0,20,15\n",
            (),
            "mix.csv, line 3: a cylinder needs a maturity and a strength above zero; leave the row out.",
        ),
        (
            "age (h),temperature (°C),strength (kg)\n24,20,26\n",
            (),
            "mix.csv, line 1: column “strength”: found “kg”; write MPa or psi in brackets behind it.",
        ),
    ],
)
def test_wrong_cylinders_are_one_sentence(run, text, by, sentence):
    code, out, err = run(BEAM, LOG, "--cylinders", write("mix.csv", text), *by)
    assert (code, out, err) == (1, "", sentence + "\n")


def test_no_strength_is_claimed_below_the_cylinders(run):
    mix = write("mix.csv", "age (h),temperature (°C),strength (MPa)\n24,20,20\n48,20,30\n")
    _, out, _ = run(BEAM, write("log.csv", SHORT), "--cylinders", mix)
    assert "no strength is claimed 3.0 h after casting" in out.splitlines()[0]
    assert "0.0 MPa" not in out


def test_beams_of_which_it_cannot_be_asked(run):
    text = Path(BEAM).read_text(encoding="utf-8")
    silent = write("silent.toml", re.sub(r"strength_at_transfer.*\n", "", text))
    post = str(ROOT / "examples/bench-post-tensioned.toml")
    for beam, words in (
        (silent, "what strength is wanted at release is not said; write strength_at_transfer in [concrete], or give "),
        (post, "this beam has no tendons that are stressed before casting, so there is nothing to release."),
        (str(ROOT / "examples/bench-pretensioned.toml"), "how this beam ages is not known, for the humidity"),
    ):
        code, out, err = run(beam, LOG)
        assert (code, out, err.count("\n")) == (1, "", 1)
        assert words in err
    assert run(silent, LOG, "--wanted", "30 MPa")[0] == 0
    for tokens, sentence in (
        (("--wanted", "300 MPa"), "--wanted “300 MPa”: a strength of concrete lies between 0 and 200 MPa.\n"),
        (("--picture", "a.gif"), "--picture a.gif: charts are written as .svg, .png or .pdf.\n"),
    ):
        assert run(BEAM, LOG, *tokens) == (2, "", sentence)


def test_us_units_and_the_picture(run):
    code, out, _ = run(BEAM, LOG, "--units", "US", "--picture", "one/")
    assert code == 0
    assert "the 4.64 ksi wanted were there" in out.splitlines()[0]
    assert "temperature, °F  age at 68 °F, h  strength, ksi" in out
    run(BEAM, LOG, "--units", "US", "--picture", "other/")
    one, other = (Path(folder, "release.svg").read_bytes() for folder in ("one", "other"))
    assert one == other
    assert Path("one/release.png").stat().st_size > 20000
