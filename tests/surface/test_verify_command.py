"""`soffit verify` as a first-time user types it, with wrong input too."""

from __future__ import annotations

import csv
import json
import zipfile
from pathlib import Path

import pytest

from soffit.cli import main

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
EDGE = EXAMPLES / "alder-weir-edge-beam.toml"


def run(capsys, *arguments: object) -> tuple[int, str, str]:
    code = main([str(a) for a in arguments])
    out, err = capsys.readouterr()
    return code, out, err


def beam(tmp_path: Path, name: str = "beam", **change: str) -> Path:
    text = EDGE.read_text(encoding="utf-8")
    for old, new in change.items():
        old, new = new.split("→")
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / f"{name}.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("standard", ["en1992", "aci318-19", "aashto-lrfd", "mc2010"])
def test_the_table_is_sorted_and_ends_with_a_sentence(capsys, standard):
    code, out, _ = run(capsys, "verify", EDGE, "--to", standard)
    lines = [line for line in out.splitlines() if line.startswith("   ") and ("  holds" in line or "  fails" in line)]
    ratios = [float(line.split("  holds")[0].split("  fails")[0].split()[-1].replace("∞", "inf")) for line in lines]
    assert ratios
    assert ratios == sorted(ratios, reverse=True)
    assert out.rstrip().endswith(".")
    assert "Alder Weir edge beam" in out.splitlines()[-1]
    assert code == int(any("  fails" in line for line in lines))
    for word in ("Governs", "Not checked", "Assumed", "Caution", "licensed engineer"):
        assert word in out


def test_the_json_holds_the_same_numbers_as_the_text(capsys):
    _, out, _ = run(capsys, "verify", EDGE, "--to", "en1992", "--json")
    data = json.loads(out)
    assert data["standard"].startswith("EN 1992-1-1")
    first = data["checks"][0]
    assert first["key"] == data["governing"]
    assert first["ratio"] == pytest.approx(first["demand"]["value"] / first["resistance"]["value"])
    assert {"symbol", "formula", "numbers", "unit", "clause", "mark"} <= set(first["working"][0])
    assert all(u["why"] for u in data["not_checked"])


def test_the_working_of_one_check(capsys):
    _, out, _ = run(capsys, "verify", EDGE, "--to", "aci318-19", "--working", "flexure-sagging")
    assert "Mn = Ts1·ds1" in out
    assert "[flexure-sagging]" in out


def test_a_check_that_there_is_not_names_those_there_are(capsys):
    code, _, err = run(capsys, "verify", EDGE, "--to", "aci318-19", "--working", "wind")
    assert code == 1
    assert "--working wind: there is no such check; there are: " in err
    assert "flexure-sagging" in err


def test_an_overloaded_beam_fails_and_is_told_what_would_cure_it(capsys, tmp_path):
    code, out, _ = run(capsys, "verify", beam(tmp_path, a='uniform = "7.5 kN/m"→uniform = "20 kN/m"'), "--to", "en1992")
    assert code == 1
    assert "  fails" in out
    assert " would hold with " in out
    assert " fails " in out.splitlines()[-1]


def test_a_folder_gives_one_table(capsys, tmp_path):
    many = tmp_path / "beams"
    many.mkdir()
    for i in range(3):
        (many / f"b{i}.toml").write_text(EDGE.read_text(encoding="utf-8"), encoding="utf-8")
    (many / "bad.toml").write_text('name = "x"\n', encoding="utf-8")
    code, out, err = run(capsys, "verify", many, "--quiet", "--table", tmp_path / "t.csv", "--jobs", "1")
    assert code == 1
    assert len(out.splitlines()) == 3
    rows = list(csv.DictReader((tmp_path / "t.csv").read_text(encoding="utf-8-sig").splitlines()))
    assert [row["verdict"] == "fault" for row in rows] == [False, False, False, True]
    assert rows[3]["fault"]
    assert rows[3]["fault"] in err.replace("\n", " ")
    run(capsys, "verify", many, "--quiet", "--table", tmp_path / "t.xlsx", "--jobs", "1")
    once = (tmp_path / "t.xlsx").read_bytes()
    with zipfile.ZipFile(tmp_path / "t.xlsx") as book:
        assert "xl/worksheets/sheet1.xml" in book.namelist()
    run(capsys, "verify", many, "--quiet", "--table", tmp_path / "t.xlsx", "--jobs", "1")
    assert (tmp_path / "t.xlsx").read_bytes() == once


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("--table", "t.txt"), "--table t.txt: tables are written as .csv or .xlsx."),
        (("--to", "bs8110"), "--to"),
        (("--jobs", "0"), "--jobs 0: give the number of processes, 1 or more."),
    ],
)
def test_what_cannot_be_meant(capsys, arguments, sentence):
    code, _, err = run(capsys, "verify", EDGE, *arguments)
    assert code == 2
    assert sentence in err


def test_an_empty_folder(capsys, tmp_path):
    code, _, err = run(capsys, "verify", tmp_path)
    assert code == 2
    assert "there is no beam file (.toml) in this folder" in err


@pytest.mark.parametrize(
    ("standard", "clause"), [("en1992", "EN 1992-1-1:2004 5.3.1 (3)"), ("aci318-19", "ACI 318M-19 9.9.1.1")]
)
def test_a_deep_beam_gets_its_clause_and_no_number(capsys, tmp_path, standard, clause):
    deep = beam(tmp_path, a='depth        = "600 mm"→depth        = "3000 mm"', b='from  = "0.5 m"→from  = "0.4 m"')
    code, out, _ = run(capsys, "verify", deep, "--to", standard)
    assert code == 1
    assert "nothing was checked" in out
    assert f"wants a strut-and-tie model ({clause})" in out
    assert "holds" not in out


@pytest.mark.parametrize(
    ("standard", "strength", "sentence"),
    [
        ("en1992", "95 MPa", "fck of 95.0 MPa lies above C90/105, the last class of Table 3.1"),
        ("en1992", "10 MPa", "fck of 10.0 MPa lies below C12/15, the first class of Table 3.1"),
        ("aci318-19", "15 MPa", "concrete of 15.0 MPa lies below the 2500 psi (17 MPa) of structural concrete"),
    ],
)
def test_a_strength_outside_the_standard(capsys, tmp_path, standard, strength, sentence):
    outside = beam(tmp_path, a=f'strength      = "30 MPa"→strength      = "{strength}"')
    code, out, _ = run(capsys, "verify", outside, "--to", standard)
    assert code == 1
    assert sentence in out
    assert "nothing was checked" in out
