"""``soffit stressing`` as a user meets it: the sheet, the form and back, the verdict, and every fault of a form."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soffit import cli
from soffit.beamfile import read_text, starter
from soffit.detail.stressing import sheet
from soffit.show.stressingform import Filled, form, read_form
from soffit.show.stressingtable import told

Run = Callable[..., tuple[int, str, str]]
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    Path("beam.toml").write_text(starter("post-tensioned-bonded"), encoding="utf-8")

    def command(*tokens: str) -> tuple[int, str, str]:
        code = cli.main(["stressing", *tokens])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return command


GROUTED = sheet(read_text(starter("post-tensioned-bonded")), ram=12000.0)


# -- the sheet -----------------------------------------------------------------------------------------------------


def test_the_sheet_of_a_post_tensioned_beam(run: Run) -> None:
    code, out, err = run("beam.toml", "--ram", "120 cm2")
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "Post-tensioned beam, grouted: stressing sheet"
    assert next(line for line in lines if line.startswith("caution")).startswith(
        "caution     Stressed steel stores energy: stand clear of the line of the tendon"
    )
    rows = [line.split() for line in lines]
    # 1300 MPa · 700 mm² over 120 cm²
    assert ["A", "2", "×", "both", "ends", "1300", "910", "75.8", "110", "102", "118", "10.8", "6.00", "98.1"] in rows
    assert ["1", "A1", "910", "110", "797", "779", "________"] in rows
    assert "± 7 % between force by gauge and force by elongation: ACI 318-19 26.10.2 (from memory)" in out
    assert lines[-1] == (
        "Post-tensioned beam, grouted: stress A1 and A2 to 910 kN (75.8 MPa on the gauge) and 110 mm, force and "
        "elongation ± 7 %."
    )


def test_rods_have_torque_turns_and_limits(run: Run) -> None:
    _, out, _ = run(str(EXAMPLES / "bench-post-tensioned.toml"))
    assert "A: 60.0 N·m on a nut M10 (T = K·d·F, K = 0.2, of the file) gives 21.0 kN to 39.0 kN" in out
    assert "within its scatter of ± 30 %, go so far that the rod reaches its proof load and the rod yields." in out
    assert "accept no prestress by torque alone" in out
    assert "the gauge is left blank; give it with --ram." in out


def test_a_bed_is_needed_for_the_elongation_of_wires(run: Run) -> None:
    path = str(EXAMPLES / "alder-weir-plank.toml")
    _, out, _ = run(path)
    assert (
        "A: 6.51 mm for each metre between the anchors of the bed, whose length is not known; give it with --bed" in out
    )
    _, out, _ = run(path, "--bed", "60 m")
    assert "391 mm" in out.splitlines()[-1]
    assert "± 5 %" in out.splitlines()[-1]


def test_customary_units(run: Run) -> None:
    _, out, _ = run("beam.toml", "--ram", "18.6 in2", "--units", "US")
    assert "205 kip (11 000 psi on the gauge) and 4.33 in" in out.splitlines()[-1]


def test_a_stress_above_the_limit_is_not_to_be_pulled(run: Run) -> None:
    text = starter("post-tensioned-bonded").replace('"1300 MPa"', '"1550 MPa"')
    Path("beam.toml").write_text(text, encoding="utf-8")
    _, out, _ = run("beam.toml")
    assert "A: the stress at the jack is 104 % of what ACI 318-19 20.3.2.5 allows; do not stress." in out
    assert out.splitlines()[-1].endswith("do not stress A; the stress at the jack is above what is allowed.")


def test_the_stages_of_the_file_give_the_order() -> None:
    text = starter("post-tensioned-bonded").replace('# relative_humidity  = "70 %"', 'relative_humidity = "70 %" #')
    tendons = text[text.index("[[tendons]]") : text.index("[[bars]]")]
    outer = tendons.replace("[[tendons]]", '[[tendons]]\nname = "outer"').replace("120 mm", "220 mm")
    stages = "".join(
        f'[[stages]]\nwhat = "{what}"\nat = "{day} days"\ntendons = ["{name}"]\n'
        for what, day, name in (
            ("stress", 10, "A"),
            ("stress", 28, "outer"),
            ("grout", 30, "A"),
            ("grout", 30, "outer"),
        )
    )
    found = sheet(read_text(text.replace("[[bars]]", f"{outer}\n[[bars]]", 1) + stages))
    assert [(line.name, line.day) for line in found.tendons] == [
        ("A1", 10.0), ("A2", 10.0), ("outer 1", 28.0), ("outer 2", 28.0),
    ]  # fmt: skip
    assert "Order: as the stages of the file say" in told(found)


def test_the_printed_sheet(run: Run, tmp_path: Path) -> None:
    code, out, _ = run("beam.toml", "--sheet", "out/pull")
    assert code == 0
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == ["pull.pdf", "pull.png", "pull.svg"]
    assert "out/pull.pdf" in out.replace("\\", "/")
    assert (tmp_path / "out/pull.pdf").read_bytes().startswith(b"%PDF")


def test_many_tendons_go_on_to_a_second_page(run: Run, tmp_path: Path) -> None:
    text = (EXAMPLES / "alder-weir-plank.toml").read_text(encoding="utf-8").replace("count   = 8", "count   = 26")
    Path("beam.toml").write_text(text, encoding="utf-8")
    assert run("beam.toml", "--sheet", "pull.svg")[0] == 0
    assert {p.name for p in tmp_path.glob("*.svg")} == {"pull.svg", "pull-2.svg"}


@pytest.mark.parametrize(
    ("tokens", "sentence"),
    [
        (("--ram", "0 cm2"), "--ram “0 cm2”: it must be above zero."),
        (("--ram", "50"), '--ram: found "50", which has no unit; write "50 mm2" or "50 in2".'),
        (
            ("--bed", "60 m"),
            "beam.toml: no tendon is stressed before casting, so there is no bed; leave out its length",
        ),
        (("--tolerance", "30 %"), "beam.toml: a tolerance of 30 % is none; give one above 0 and up to 20 %"),
        (("--sheet", "a.gif"), "--sheet a.gif: sheets are drawn as .svg, .png or .pdf."),
        (("--csv", ""), "--csv: the name of the file is empty."),
        (("--csv", "beam.toml"), "--csv beam.toml: exists, and the crew may have written in it; name another file."),
        (
            ("--measured", "a.csv", "--csv", "b.csv"),
            "--measured judges a form that was filled in; make the sheet and the form in a run without it.",
        ),
        (("--measured", "none.csv"), "none.csv: cannot be read (no such file or directory)."),
    ],
)
def test_what_cannot_be_meant(run: Run, tokens: tuple[str, ...], sentence: str) -> None:
    code, out, err = run("beam.toml", *tokens)
    assert code != 0
    assert (out, err.rstrip("\n")) == ("", sentence)


def test_a_beam_without_tendons(run: Run) -> None:
    code, out, err = run(str(EXAMPLES / "bench-bars.toml"))
    assert (code, out) == (1, "")
    assert "the beam has no tendons, so there is nothing to stress; describe them in [[tendons]]" in err
    assert err.count("\n") == 1


# -- the form ------------------------------------------------------------------------------------------------------


def filled_in(found: object, delimiter: str = ",", decimal: str = ".", **values: list[str]) -> str:
    """The form with columns filled in: ``measured_elongation=["99", "98"]``."""
    rows = list(csv.reader(io.StringIO(form(found, "SI"))))
    for name, cells in values.items():
        index = next(i for i, head in enumerate(rows[0]) if head.startswith(name.replace("_", " ")))
        for row, cell in zip(rows[1:], cells, strict=True):
            row[index] = cell.replace(".", decimal)
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter).writerows(rows)
    return out.getvalue()


def test_the_form_comes_back_as_it_was_filled_in(run: Run) -> None:
    assert run("beam.toml", "--ram", "120 cm2", "--csv", "form.csv")[0] == 0
    text = Path("form.csv").read_text(encoding="utf-8")
    head = text.splitlines()[0]
    assert all(unit in head for unit in ("(kN)", "(MPa)", "(mm)", "(% of force)"))
    Path("form.csv").write_text(
        filled_in(GROUTED, measured_elongation=["99.3", "85"], measured_draw=["5", "6"], gauge_read=["75.8", "76"]),
        encoding="utf-8",
    )
    code, out, err = run("beam.toml", "--ram", "120 cm2", "--measured", "form.csv")
    assert (code, err) == (0, "")
    rows = {line.split()[0]: line.split() for line in out.splitlines() if line.startswith("A")}
    assert rows["A1"][-1] == "agrees"
    assert rows["A2"][-2:] == ["too", "short"]
    assert "modulus times area" in out
    assert "Stop: find the cause and have it put right" in out
    assert (
        out.splitlines()[-1] == "Post-tensioned beam, grouted: force and elongation agree in 1 of 2 tendons, not in A2."
    )


@pytest.mark.parametrize(("delimiter", "decimal"), [(",", "."), (";", ","), ("\t", ","), (";", "."), (",", ",")])
def test_every_way_to_cut_a_form(delimiter: str, decimal: str) -> None:
    text = filled_in(GROUTED, delimiter, decimal, measured_elongation=["99.3", "98.25"], measured_draw=["5.5", "6"])
    found = read_form(text, "f.csv", GROUTED)
    assert found.faults == found.open == []
    assert [(r.tendon, r.elongation, r.mark, r.draw_in) for r in found.readings] == [
        ("A1", 99.3, 0.1, 5.5), ("A2", 98.25, 0.1, 6.0),
    ]  # fmt: skip


def test_other_units_other_order_and_other_columns() -> None:
    text = "sep=;\nGauge read [bar];note;Measured Elongation (in);TENDON\n760,5;;4,3;a2\n\n758;windy;4,25;A1\n"
    found = read_form(text, "f.csv", GROUTED)
    assert found.faults == []
    assert [(r.tendon, r.mark) for r in found.readings] == [("A2", 0.0), ("A1", 0.0)]
    assert [r.elongation for r in found.readings] == pytest.approx([109.22, 107.95])
    assert [r.gauge for r in found.readings] == pytest.approx([76.05, 75.8])


def test_remarks_in_a_form_and_tendons_whose_name_looks_like_one() -> None:
    for name in ("A", "#"):
        named = starter("post-tensioned-bonded").replace("[[tendons]]", f'[[tendons]]\nname = "{name}"', 1)
        beam = sheet(read_text(named), ram=12000.0)
        rows = [line.name for line in beam.tendons]
        form_text = "tendon;measured elongation, mm\n" + "".join(f"{row};99,5\n" for row in rows)
        found = read_form(form_text if name == "#" else f"# calm day\n\n{form_text}# end\n", "f.csv", beam)
        assert found.faults == found.open == []
        assert [r.tendon for r in found.readings] == rows


def test_one_jack_in_turn() -> None:
    text = filled_in(GROUTED, measured_elongation=["99", "99"], jacks_at_once=["1", "2"])
    assert [r.one_jack for r in read_form(text, "f.csv", GROUTED).readings] == [True, False]


HEAD = "tendon,first mark (% of force),measured elongation (mm),measured draw-in (mm),gauge read (MPa)"


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "f.csv: is empty; `soffit stressing FILE --csv form.csv` writes a form to fill in."),
        ("a,b\n1,2\n", "f.csv, line 1: there is no column “tendon”; fill in the form that --csv writes."),
        ("tendon,measured elongation\nA1,9\n", "f.csv, line 1: column “measured elongation”: its unit is missing; "
         "write one of mm, cm, m, in, ft in brackets behind it."),
        ("tendon,measured elongation (kN)\nA1,9\n", "f.csv, line 1: column “measured elongation”: found “kN”; "
         "write one of mm, cm, m, in, ft in brackets behind it."),
        ("tendon,tendon,measured elongation (mm)\nA1,A1,9\n", "f.csv, line 1: two columns are called “tendon”; "
         "keep one."),
        (f"{HEAD}\nA1,10,99,,\nA7,10,99,,\n", "f.csv, line 3: “A7” is no tendon of this beam; its tendons are A1, A2."),
        (f"{HEAD}\n,10,99,,\nA2,10,99,,\n", "f.csv, line 2: names no tendon; its tendons are A1, A2."),
        (f"{HEAD}\nA1,10,99,,\n\nA1,10,98,,\n", "f.csv, line 4: tendon A1 stands on line 2 already; keep one."),
        (f"{HEAD}\nA1,10,about 99,,\nA2,10,99,,\n", "f.csv, line 2, tendon A1: “measured elongation” is “about 99”, "
         "which is no number; the unit stands in the head alone."),
        (f"{HEAD}\nA1,10,-99,,\nA2,10,99,,\n", "f.csv, line 2, tendon A1: “measured elongation” is “-99”; it must be "
         "above zero."),
        (f"{HEAD}\nA1,10,0,,\nA2,10,99,,\n", "f.csv, line 2, tendon A1: “measured elongation” is “0”; it must be above "
         "zero."),
        (f"{HEAD}\nA1,10,nan,,\nA2,10,99,,\n", "f.csv, line 2, tendon A1: “measured elongation” is “nan”, which is no "
         "number; the unit stands in the head alone."),
        (f'{HEAD}\nA1,10,"1,099",,\nA2,10,99,,\n', "f.csv, line 2, tendon A1: “measured elongation” is “1,099”, which "
         "may be thousands or decimals; leave the comma out."),
        (f'{HEAD}\nA1,10,99.5,,\nA2,10,"98,5",,\n', "f.csv, line 3, tendon A2: “measured elongation” is “98,5”, but "
         "line 2 has a point and line 3 a comma before decimals; write all of them alike."),
        (f"{HEAD}\nA1,10,99,5,,\nA2,10,99,,\n", "f.csv, line 2: has 6 cells and the head has 5; a decimal comma "
         "between cells that commas cut must stand in quotes."),
        (f"{HEAD}\nA1,10,99\nA2,10,99,,\n", "f.csv, line 2: has 3 cells and the head has 5; a decimal comma "
         "between cells that commas cut must stand in quotes."),
        (f"{HEAD}\nA1,,99,,\nA2,10,99,,\n", "f.csv, line 2, tendon A1: “first mark” is empty; write the share of the "
         "force in %, 0 where there was none."),
        (f"{HEAD}\nA1,100,99,,\nA2,10,99,,\n", "f.csv, line 2, tendon A1: a first mark at 100 % is none; it is made "
         "below the whole force."),
        (f"{HEAD}\nA1,10,99,-1,\nA2,10,99,,\n", "f.csv, line 2, tendon A1: “measured draw-in” is “-1”; it must be zero "
         "or more."),
        (f'{HEAD}\nA1,10,"99,,\n', "f.csv: is no table of cells (unexpected end of data)."),
    ],
)  # fmt: skip
def test_a_form_with_a_fault_is_one_sentence_and_no_reading(text: str, sentence: str) -> None:
    found = read_form(text, "f.csv", GROUTED)
    assert found.faults[0] == sentence
    assert found.readings == ()


def test_every_fault_is_told_at_once() -> None:
    found = read_form(f"{HEAD}\nA1,10,x,,\nA2,10,-3,,\nB1,10,3,,\n", "f.csv", GROUTED)
    assert [fault.split(":")[0] for fault in found.faults] == [
        "f.csv, line 2, tendon A1", "f.csv, line 3, tendon A2", "f.csv, line 4",
    ]  # fmt: skip


def test_what_is_not_measured_yet_is_said_and_the_others_are_judged(run: Run) -> None:
    Path("f.csv").write_text(f"{HEAD}\nA1,10,99,,\n", encoding="utf-8")
    code, out, err = run("beam.toml", "--measured", "f.csv")
    assert code == 1
    assert err == "f.csv: there is no row for tendon A2.\n"
    assert out.splitlines()[-1].endswith("force and elongation agree in 1 of 2 tendons, 1 is not measured.")
    Path("f.csv").write_text(f"{HEAD}\nA1,10,,,\nA2,10,,,\n", encoding="utf-8")
    code, out, err = run("beam.toml", "--measured", "f.csv")
    assert (code, out) == (1, "")
    assert err.splitlines() == [
        "f.csv, line 2, tendon A1: no elongation is written in.",
        "f.csv, line 3, tendon A2: no elongation is written in.",
    ]


def test_a_gauge_reading_needs_the_ram_and_a_bed_its_length(run: Run) -> None:
    Path("f.csv").write_text(f"{HEAD}\nA1,10,99,,75\nA2,10,99,,75\n", encoding="utf-8")
    assert run("beam.toml", "--measured", "f.csv")[2].splitlines()[0] == (
        "f.csv, line 2, tendon A1: a gauge reading tells no force without the area of the ram; give --ram."
    )
    path = str(EXAMPLES / "alder-weir-plank.toml")
    code, out, err = run(path, "--measured", "f.csv")
    assert (code, out) == (1, "")
    assert "what A, B should stretch by is not known without the length of the bed; give it with --bed." in err


@pytest.mark.parametrize(
    ("raw", "end"),
    [(b"\xff\xfe\x00", "is no UTF-8 text; save it as CSV in UTF-8."),
     (b"tendon\x00", "is no text; save it as CSV in UTF-8."),
     (b"\x80\x81", "is no UTF-8 text; save it as CSV in UTF-8.")],
)  # fmt: skip
def test_what_is_no_text(run: Run, raw: bytes, end: str) -> None:
    Path("f.csv").write_bytes(raw)
    code, out, err = run("beam.toml", "--measured", "f.csv")
    assert (code, out, err) == (1, "", f"f.csv: {end}\n")


def test_a_spreadsheet_that_saves_utf_16(run: Run) -> None:
    Path("f.csv").write_bytes(f"{HEAD}\nA1,10,99,,\nA2,10,99,,\n".replace(",", "\t").encode("utf-16"))
    assert run("beam.toml", "--measured", "f.csv")[0] == 0


CELLS = st.sampled_from(["A1", "A2", "", "10", "99", "99.5", "99,5", "-1", "x", "“", "1e5", "tendon", "9" * 400, "\n"])


@given(st.lists(st.lists(CELLS, max_size=6), max_size=5), st.sampled_from(";,\t"))
@settings(max_examples=150, deadline=None)
def test_no_form_breaks_the_reader(rows: list[list[str]], delimiter: str) -> None:
    text = "\n".join([HEAD.replace(",", delimiter), *(delimiter.join(row) for row in rows)])
    found: Filled = read_form(text, "f.csv", GROUTED)
    assert not (found.faults and found.readings)
    assert all(0.0 < r.elongation < float("inf") for r in found.readings)
    named = {r.tendon for r in found.readings}
    if not found.faults:
        assert len(named) + len(found.open) == 2


@given(st.text(max_size=200))
@settings(max_examples=150, deadline=None)
def test_no_text_breaks_the_reader(text: str) -> None:
    found = read_form(text, "f.csv", GROUTED)
    assert found.faults
    assert found.readings == ()
