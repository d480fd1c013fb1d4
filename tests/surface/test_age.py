"""`soffit age` as a user meets it: sentences, tables, files, wrong input."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import synthetic_past
from hypothesis import given
from hypothesis import strategies as st

from soffit import cli
from soffit.beamfile import read
from soffit.codes import beside
from soffit.codes.stages import at_stages
from soffit.member import time
from soffit.member.time.result import Past
from soffit.show import agechart, agejson, agemeasured, agestory, agetable, agewords
from soffit.show.agewords import Told
from soffit.show.numbers import THIN

Run = Callable[..., tuple[int, str, str]]

PRETENSIONED = """
name = "Alder Weir trial unit"
[concrete]
strength = "45 MPa"
strength_is = "specified"
relative_humidity = "70 %"
[section]
shape = "rectangle"
width = "600 mm"
depth = "250 mm"
[[tendons]]
when = "before casting"
bond = "bonded"
count = 6
size = "12.5 strand"
grade = "Y1860S7"
profile = "60 mm from bottom"
stress = "1200 MPa"
[supports]
span = "9 m"
[[loads]]
case = "dead"
uniform = "3 kN/m"
[[loads]]
case = "live"
uniform = "3 kN/m"
"""
REINFORCED = """
name = "Alder Weir trial beam"
[concrete]
strength = "35 MPa"
strength_is = "mean"
relative_humidity = "60 %"
[section]
shape = "rectangle"
width = "300 mm"
depth = "450 mm"
[[bars]]
count = 3
size = "20"
grade = "B500B"
at = "45 mm from bottom"
[supports]
span = "6 m"
[[loads]]
case = "dead"
uniform = "15 kN/m"
[[loads]]
case = "live"
uniform = "10 kN/m"
"""


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Run:
    """Run a command in this process, in a folder with two beam files, on the real engine."""
    monkeypatch.chdir(tmp_path)
    Path("unit.toml").write_text(PRETENSIONED, encoding="utf-8")
    Path("beam.toml").write_text(REINFORCED, encoding="utf-8")
    Path("dry.toml").write_text(REINFORCED.replace('relative_humidity = "60 %"\n', ""), encoding="utf-8")

    def command(*tokens: str) -> tuple[int, str, str]:
        code = cli.main(tokens)
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return command


def row(out: str, number: int) -> list[str]:
    """Figures of a row of the first table, thin spaces and words apart."""
    return next(line.split() for line in out.splitlines() if line.startswith(f"{number}  "))


class TestStory:
    def test_the_table_says_what_the_past_says(self, run: Run) -> None:
        code, out, err = run("age", "unit.toml", "--no-band")
        past = time.past(read(Path("unit.toml")))
        at = past.middle
        assert (code, err) == (0, "")
        assert out.splitlines()[0] == "Alder Weir trial unit"
        for number, instant in enumerate(past.instants, start=1):
            cells = row(out, number)
            stress, force = past.tendons[0].stress[instant.step, at], past.tendons[0].force()[instant.step, at]
            bend = past.deflection[instant.step, at]
            tail = [
                f"{stress:.0f}", f"{force / 1e3:.1f}", f"{100 * stress / past.tendons[0].jack:.1f}",
                f"{past.bottom[instant.step, at]:.2f}", f"{past.top[instant.step, at]:.2f}",
                f"{abs(bend):.1f}", "up" if bend < 0 else "down",
            ]  # fmt: skip
            text = " ".join(cells).replace("−", "-")
            assert " ".join(tail) in text
            assert instant.label in text
        for text in (*past.notes, *past.cautions, agestory.REVIEW):
            assert text in out

    def test_losses_add_up_to_what_is_missing_at_the_jack(self, tmp_path: Path) -> None:
        past = past_of(PRETENSIONED, tmp_path)
        tendon = past.tendons[0]
        told = Told(past, past.middle)
        for step in range(past.instants[0].step, len(past.t), 7):
            for station in agetable.places(told, tendon).values():
                parts = agetable.parts(tendon, step, station)
                assert sum(v for k, v in parts.items() if k not in ("total", "rest")) == pytest.approx(
                    tendon.jack - tendon.stress[step, station], abs=agetable.SPARE
                )

    def test_where_bond_has_not_built_up_the_table_says_so(self, run: Run) -> None:
        _, out, _ = run("age", "unit.toml", "--no-band", "--place", "225 mm")
        head = next(i for i, line in enumerate(out.splitlines()) if line.startswith("losses until"))
        assert "bond" in out.splitlines()[head + 1].split()

    def test_ordinary_beams_crack_and_go_on_sagging(self, run: Run) -> None:
        code, out, _ = run("age", "beam.toml", "--no-band")
        past = time.past(read(Path("beam.toml")))
        step = int(np.argmax(past.cracked.max(axis=1) > agewords.SETTLED))
        assert code == 0
        assert f"It cracks at {agewords.age(float(past.t[step]))} (dead load put on), first at the soffit" in out
        assert out.splitlines()[-1] == (
            f"Alder Weir trial beam: at 50 years it sags {past.deflection[-1].max():.1f} mm, and is cracked."
        )
        assert "jack" not in out

    def test_stresses_of_a_cantilever_are_told_at_its_support_unless_a_place_is_asked_for(self, run: Run) -> None:
        text = REINFORCED.replace("45 mm from bottom", "45 mm from top").replace("6 m", "2 m")
        arm = text.replace('span = "2 m"', 'span = "2 m"\nends = ["fixed", "free"]')
        Path("arm.toml").write_text(arm, encoding="utf-8")
        past = time.past(read(Path("arm.toml")))
        _, out, _ = run("age", "arm.toml", "--no-band")
        assert "stresses at x = 0 mm, all else at x = 2000 mm from the left end" in out
        assert f"{past.top[-1, 0]:.2f}" in row(out, len(past.instants))
        _, out, _ = run("age", "arm.toml", "--no-band", "--place", "2 m")
        assert "all at x = 2000 mm from the left end" in out

    def test_over_a_support_the_deflection_of_the_span_is_told(self, run: Run) -> None:
        past = time.past(read(Path("beam.toml")))
        _, out, _ = run("age", "beam.toml", "--no-band", "--place", "0 m")
        assert "bends at x = 3 m, all else at x = 0 m from the left end" in out
        assert out.splitlines()[-1].startswith(
            f"Alder Weir trial beam: at 50 years it sags {past.deflection[-1].max():.1f} mm"
        )

    @pytest.mark.parametrize("place", ["0 m", "100 mm", "400 mm", "6.6 m"])
    def test_any_place_is_told_up_to_the_tip_of_an_overhang(self, run: Run, place: str) -> None:
        long = REINFORCED.replace('span = "6 m"', 'span = "6 m"\noverhangs = "300 mm"')
        Path("long.toml").write_text(long, encoding="utf-8")
        code, out, err = run("age", "long.toml", "--no-band", "--place", place, "--json", "out")
        assert (code, err) == (0, "")
        assert "by the steps and by formulas" in out

    def test_an_age_that_is_asked_for_is_told_at_that_age(self, run: Run) -> None:
        _, out, _ = run("age", "unit.toml", "--no-band", "--at", "30 years")
        assert "age of 30 years" in out
        assert "losses until 30 years" in out
        assert out.splitlines()[-1].startswith("Alder Weir trial unit: at 50 years it")

    def test_quiet_is_one_sentence_and_us_units_are_used(self, run: Run) -> None:
        _, out, _ = run("age", "beam.toml", "--no-band", "--quiet", "--units", "US")
        assert len(out.splitlines()) == 1
        assert " in, and is cracked." in out


class TestBesideTheStandards:
    def test_limits_of_every_stage_are_those_of_the_codes(self, run: Run) -> None:
        _, short, _ = run("age", "unit.toml", "--no-band")
        _, full, _ = run("age", "unit.toml", "--no-band", "--limits")
        checks = at_stages(time.past(read(Path("unit.toml"))))
        rows = [line for line in full.splitlines() if line.endswith(("  kept", "  not kept", "  beyond it"))]
        assert len(rows) == len(checks)
        for line, check in zip(rows, checks, strict=True):
            assert check.clause in line
            assert f"{check.stress:.2f}".replace("-", "−") in line
        few = [line for line in short.splitlines() if line.endswith(("  kept", "  not kept", "  beyond it"))]
        assert set(few) < set(rows) or len(few) < len(rows)
        assert len(few) == len({(id(c.instant), c.standard) for c in checks})

    def test_a_limit_that_is_not_kept_is_said_at_once(self, run: Run) -> None:
        hard = Path("unit.toml").read_text(encoding="utf-8").replace("count = 6", "count = 11")
        Path("hard.toml").write_text(hard, encoding="utf-8")
        _, out, _ = run("age", "hard.toml", "--no-band")
        checks = [c for c in at_stages(time.past(read(Path("hard.toml")))) if c.binding and not c.kept]
        assert checks
        lead = " ".join(out.split("\n\n")[1].split())
        assert "Limits of stress are not kept: " in lead
        assert all(f"{c.standard} {c.clause}" in out for c in checks)
        assert "not kept" in out

    def test_losses_by_the_standards_are_told_with_their_reasons(self, run: Run) -> None:
        _, out, _ = run("age", "unit.toml", "--no-band", "--json", "out")
        past = time.past(read(Path("unit.toml")))
        rows = beside.losses(past, past.middle).rows
        found = json.loads(Path("out/unit.age.json").read_text(encoding="utf-8"))["losses_by_standards"]
        assert [(r["by"], r["total_MPa"]) for r in found] == [
            (r.by, pytest.approx(r.parts.total, rel=1e-5)) for r in rows
        ]
        for row in rows:
            assert f"{row.parts.total:.1f}" in out
            assert row.sentence in out

    def test_long_term_sag_of_ordinary_beams_stands_beside_the_codes(self, run: Run) -> None:
        _, out, _ = run("age", "beam.toml", "--no-band")
        past = time.past(read(Path("beam.toml")))
        for bent in beside.deflections(past, past.middle):
            assert f"{abs(bent.total):.1f} {'up' if bent.total < 0 else 'down'}" in out
            assert bent.sentence in out


class TestWords:
    def test_camber_that_turns_into_sag(self) -> None:
        past = synthetic_past.named("plank")[0]
        past.deflection[past.instants[0].step :] *= -1
        past.deflection[past.instants[0].step] *= -1
        told = Told(past, past.middle)
        assert [text.replace(THIN, " ") for text in agewords.sentences(told, "SI")[:2]] == [
            "At 18 hours (strands released) it cambers 10.0 mm at x = 4.6 m.",
            "Loads and years turn this round: at 50 years it sags 13.0 mm.",
        ]

    def test_a_band_on_both_sides_of_straight_names_its_sides(self) -> None:
        past, band = synthetic_past.named("two-span")
        words = agewords.sentences(Told(past, band.station, band), "SI")[1].replace(THIN, " ")
        assert words.endswith("it sags 1.8 mm (nine times in ten between 3.1 mm up and 6.7 mm down).")
        assert "nine times" not in agewords.sentences(Told(past, band.station + 3, band), "SI")[1]

    def test_many_groups_are_told_in_blocks_and_as_a_sum(self) -> None:
        past, band = synthetic_past.named("composite")
        text = agestory.told_text(Told(past, band.station, band))
        force = sum(float(t.force()[-1, band.station]) for t in past.tendons) / 1e3
        assert f"{force:.0f}" in row(text, 6)
        assert "topping top" in text
        assert all(f"{t.tendon.name}  {t.tendon.label}" in text for t in past.tendons)


class TestFiles:
    def test_json_is_the_past_with_units_in_its_keys(self, run: Run) -> None:
        code, out, _ = run("age", "unit.toml", "--json", "out", "--no-band")
        found = json.loads(Path("out/unit.age.json").read_text(encoding="utf-8"))
        past = time.past(read(Path("unit.toml")))
        assert code == 0
        assert "out/unit.age.json" in out
        np.testing.assert_allclose(found["t_days"], past.t, rtol=1e-5)
        np.testing.assert_allclose(found["section"]["deflection_mm"], past.deflection, rtol=1e-5, atol=1e-9)
        np.testing.assert_allclose(found["section"]["bottom_stress_MPa"], past.bottom, rtol=1e-5, atol=1e-9)
        stress = np.array(found["tendons"][0]["stress_MPa"], dtype=float)
        np.testing.assert_allclose(stress, past.tendons[0].stress, rtol=1e-5, atol=1e-9)
        assert [s["label"] for s in found["stages"]] == [i.label for i in past.instants]
        assert found["section"]["topping_top_stress_MPa"] is None
        assert found["band"] is None

    def test_a_value_that_is_none_is_null_and_never_nan(self) -> None:
        past, band = synthetic_past.named("two-span")
        text = agejson.to_json(Told(past, band.station, band))
        found = json.loads(text, parse_constant=lambda name: pytest.fail(name))
        assert found["tendons"][0]["stress_MPa"][0] == [None] * len(past.x)
        assert found["band"]["tendon_stress_MPa"]["A"]["low"][-1] == pytest.approx(band.stress[0][0][-1], rel=1e-5)
        assert found["band"]["sources"] == list(band.sources)

    def test_csv_has_one_row_a_step_and_units_in_its_headings(self) -> None:
        past, band = synthetic_past.named("plank")
        rows = list(csv.DictReader(io.StringIO(agejson.to_csv(Told(past, band.station, band)))))
        assert len(rows) == len(past.t)
        assert float(rows[-1]["deflection (mm, down positive)"]) == pytest.approx(
            past.deflection[-1, band.station], rel=1e-5
        )
        assert float(rows[-1]["stress of A, 95 % (MPa)"]) == pytest.approx(band.stress[0][1][-1], rel=1e-5)
        assert [r["stage"] for r in rows if r["stage"]] == [i.label for i in past.instants]

    @pytest.mark.parametrize("stem", synthetic_past.BEAMS)
    def test_every_kind_of_beam_is_drawn_the_same_each_time(self, stem: str, tmp_path: Path) -> None:
        from soffit.show.agesheet import age_sheet

        past, band = synthetic_past.named(stem)
        written = [age_sheet(Told(past, band.station, band), tmp_path / name, ("svg",))[0] for name in "ab"]
        assert written[0].read_bytes() == written[1].read_bytes()


class TestMeasured:
    def test_error_at_every_age_is_computed_less_measured(self, run: Run) -> None:
        past = time.past(read(Path("beam.toml")))
        at, steps = past.middle, [past.instants[-2].step, len(past.t) - 1]
        rows = [f"{past.t[n] / 7},{past.deflection[n, at] / 10 - 0.05},by hand" for n in steps]
        Path("log.csv").write_text("age (weeks),deflection (cm),who\n" + "\n".join(rows), encoding="utf-8")
        code, out, err = run("age", "beam.toml", "--measured", "log.csv", "--no-band")
        table = out.split("measured deflections")[1].splitlines()[3:5]
        assert (code, err) == (0, "")
        for line, n in zip(table, steps, strict=True):
            value = float(past.deflection[n, at])
            assert f"{value - 0.5:.2f} down" in line
            assert line.split()[-2] == "+0.50"
            assert line.split()[-1] == f"{(value - 0.5) / value:.2f}"

    def test_between_steps_it_is_computed_on_the_line_and_at_an_instant_just_after(self) -> None:
        past = synthetic_past.named("plank")[0]
        value, step = past.deflection[:, past.middle], past.instants[2].step
        middle = (past.t[-1] + past.t[-3]) / 2
        measured = agemeasured.Measured(np.array([past.t[step], middle]), np.zeros(2))
        assert measured.computed(past, value) == pytest.approx([value[step], (value[-1] + value[-3]) / 2])

    @pytest.mark.parametrize(
        "text",
        [
            "age (days),deflection (mm)\n28,1.25\n1000,-0.5\n",
            "age (days);deflection (mm)\n28;1,25\n1000;-0,5\n",
            "age (days)\tdeflection (mm)\n1 000\t−0,5\n28\t1,25\n",
            'age (days),deflection (mm)\n28,"1,25"\n1000,"-0,5"\n',
            "who;Age, weeks;Deflection [cm]\n# cold\n;4;0,125\n\n;142,857142857142857;-0,05\n",
            "sep=;\n#;age days;deflection mm;\n1;28,0;1,250;\n2;1000;-0,500;\n",
            "age (days),deflection (mm),who\n28,1.25\n1e3,-0.5,by hand\n",
        ],
    )
    @pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
    def test_tables_of_every_make_are_one(self, tmp_path: Path, text: str, encoding: str) -> None:
        (tmp_path / "log.csv").write_text(text, encoding=encoding)
        measured = agemeasured.read_measured(str(tmp_path / "log.csv"))
        assert measured.age == pytest.approx([28.0, 1000.0])
        assert measured.deflection == pytest.approx([1.25, -0.5])

    def test_decimal_commas_are_told_as_points_are(self, run: Run) -> None:
        Path("point.csv").write_text("age (days),deflection (mm)\n365,9.5\n3650,11.25\n", encoding="utf-8")
        Path("comma.csv").write_text("age (days);deflection (mm)\n365;9,5\n3650;11,25\n", encoding="utf-8")
        told = [run("age", "beam.toml", "--measured", name, "--no-band") for name in ("point.csv", "comma.csv")]
        assert told[0] == told[1]
        assert told[0][0] == 0
        assert "11.25 down" in told[0][1]

    def test_fractions_of_an_inch_are_numbers(self, tmp_path: Path) -> None:
        (tmp_path / "log.csv").write_text("age (days),deflection (in)\n28,1 1/2\n", encoding="utf-8")
        assert agemeasured.read_measured(str(tmp_path / "log.csv")).deflection == pytest.approx([38.1])

    @pytest.mark.parametrize(
        ("raw", "end"),
        [
            (None, "cannot be read (no such file or directory)."),
            (b"\x80", "is no UTF-8 text; save it as CSV in UTF-8."),
            (b"age\0", "is no text; save it as CSV in UTF-8."),
        ],
    )
    def test_what_is_no_text(self, run: Run, raw: bytes | None, end: str) -> None:
        if raw is not None:
            Path("log.csv").write_bytes(raw)
        assert run("age", "beam.toml", "--measured", "log.csv", "--no-band") == (1, "", f"beam.toml: log.csv: {end}\n")

    @pytest.mark.parametrize(
        ("text", "sentence"),
        [
            (
                "age,deflection (mm)\n28,1",
                "log.csv, line 1: the column age has no unit; write its heading as “age (days)”.",
            ),
            (
                "age (days),sag (mm)\n28,1",
                "log.csv, line 1: found age (days), sag (mm), but no column deflection; write its heading as "
                "“deflection (mm)”.",
            ),
            ("age (days),deflection (mm)\n28,1\n30,x", "log.csv, line 3: deflection is “x”; write a number."),
            ("age (days),deflection (mm)\n28", "log.csv, line 2: deflection is “”; write a number."),
            (
                "age (days),deflection (mm)\n",
                "log.csv: there is no row under the headings; give at least one measurement.",
            ),
            (
                "age (days),deflection (kg)\n28,1",
                "log.csv, line 1: the unit of deflection cannot be used: "
                'found "1 kg", which is a mass and not a length; write a length such as "25 mm" or "1 in".',
            ),
            (
                "age (years),deflection (mm)\n60,1",
                "log.csv: a deflection was measured at 21915 days, but the computation runs from 1 to 18262.5 days; "
                "leave it out, or add a stage.",
            ),
            ("", "log.csv: is empty; write the columns “age (days)” and “deflection (mm)”."),
            (
                "age (days),deflection (mm)\n28,1\n56,1,5\n",
                "log.csv, line 3: has 3 cells and the head has 2; a decimal comma between cells that commas cut must "
                "stand in quotes.",
            ),
            (
                "age (days),deflection (mm),who\n28,1,\n56,1,5,\n",
                "log.csv, line 3: has 4 cells and the head has 3; a decimal comma between cells that commas cut must "
                "stand in quotes.",
            ),
            (
                "age (days);deflection (mm)\n28;1,5\n56;1.75\n",
                "log.csv: line 3 has a point and line 2 a comma before decimals; write all of them alike.",
            ),
            (
                "age (days);deflection (mm)\n28;1\n1,080;2\n",
                "log.csv, line 3: age is “1,080”, which may be thousands or decimals; leave the comma out.",
            ),
            (
                "age (days),deflection (mm),age (years)\n28,1,2\n",
                "log.csv, line 1: “age” and “age” are both columns of one thing; keep one.",
            ),
            (
                '# by hand\nage (days),deflection (mm),note\n28,1,"warm\nday"\n30,x,\n',
                "log.csv, line 5: deflection is “x”; write a number.",
            ),
            ('age (days),deflection (mm)\n28,"1\n', "log.csv: is no table of cells (unexpected end of data)."),
        ],
    )
    def test_one_sentence_a_fault(self, run: Run, text: str, sentence: str) -> None:
        Path("log.csv").write_text(text, encoding="utf-8")
        assert run("age", "beam.toml", "--measured", "log.csv") == (1, "", f"beam.toml: {sentence}\n")


class TestWrongInput:
    @pytest.mark.parametrize(
        ("typed", "code", "sentence"),
        [
            ("unit.toml --place 12m", 1, "unit.toml: --place 12 m lies outside the beam; it runs from 0 to 9 m."),
            (
                "unit.toml --place middle",
                2,
                '--place: found "middle", which does not begin with a number; '
                'write a length such as "25 mm" or "1 in".',
            ),
            (
                "unit.toml --at=-2days",
                2,
                "--at “-2days”: that is not after casting; ages are counted from the day of casting.",
            ),
            (
                "unit.toml --at 2h",
                1,
                "unit.toml: --at 2 hours: before 1 day nothing happens to this beam; give a later age.",
            ),
            (
                "unit.toml --at 80years",
                1,
                "unit.toml: --at 80 years: the last stage is at 50 years; give an earlier age, or add a stage.",
            ),
            ("unit.toml --at 30", 2, '--at: found "30", which has no unit; write "30 days" or "30 weeks".'),
            (
                "dry.toml",
                1,
                "dry.toml: how this beam ages is not known, for the humidity around it is not given: "
                'write relative_humidity = "60 %" in [concrete]',
            ),
            ("", 2, "Give at least one beam file; `soffit new bars -o beam.toml` writes one to start from."),
        ],
    )
    def test_one_sentence(self, run: Run, typed: str, code: int, sentence: str) -> None:
        assert run("age", *typed.split()) == (code, "", sentence + "\n")

    def test_one_fault_does_not_stop_the_others(self, run: Run) -> None:
        code, out, err = run("age", "dry.toml", "beam.toml", "--no-band", "--quiet")
        assert code == 1
        assert err.startswith("dry.toml: ")
        assert out.startswith("Alder Weir trial beam: ")


@given(st.lists(st.floats(0, 100), min_size=1, max_size=12), st.floats(0.5, 5))
def test_labels_are_moved_apart_in_order_and_no_further_than_needed(wished: list[float], pitch: float) -> None:
    places = agechart.spread(sorted(wished), pitch)
    assert all(b - a >= pitch * (1 - 1e-9) for a, b in pairwise(places))
    assert np.mean(places) == pytest.approx(np.mean(wished), abs=1e-6)
    if all(b - a >= pitch for a, b in pairwise(sorted(wished))):
        assert places == pytest.approx(sorted(wished))


def past_of(text: str, folder: Path) -> Past:
    file = folder / "beam.toml"
    file.write_text(text, encoding="utf-8")
    return time.past(read(file))
