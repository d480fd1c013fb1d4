"""``soffit report``: the PDF as a user gets it, the same every time, whatever is written in the file."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import zlib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from shutil import which
from typing import Any

import pytest

from soffit import cli
from soffit.beamfile import read
from soffit.codes.verification import Verification
from soffit.codes.working import Check, Pen, Symbol, Unchecked
from soffit.errors import SoffitError
from soffit.member.verifying import Project, Verifying
from soffit.show import report
from soffit.show.reportaside import Aside
from soffit.show.reportblocks import Calculation
from soffit.show.reportmath import equation
from soffit.show.reportpages import document
from soffit.show.reportset import typeset

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
EDGE = EXAMPLES / "alder-weir-edge-beam.toml"
HOSTILE = '#panic("x") $a_b$ *bold* _it_ \\ ] [ ` <b> @c // /* & \' -- ~ {z} #{1/0}'
Run = Callable[..., tuple[int, str, str]]
needs_pdftotext = pytest.mark.skipif(which("pdftotext") is None, reason="pdftotext is not there")


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    Path("beam.toml").write_bytes(EDGE.read_bytes())

    def command(*tokens: str) -> tuple[int, str, str]:
        code = cli.main(["report", *tokens])
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out, err.removeprefix("compiling the kernels (once, a few seconds) …\n")

    return command


def told(pdf: bytes, tmp_path: Path) -> str:
    """The text of all pages, spaces as they come."""
    target = tmp_path / "told.pdf"
    target.write_bytes(pdf)
    found = subprocess.run(["pdftotext", "-layout", str(target), "-"], capture_output=True, check=True)
    return found.stdout.decode("utf-8")


def texts(data: Any) -> list[str]:
    if isinstance(data, dict):
        return [t for value in data.values() for t in texts(value)]
    if isinstance(data, list):
        return [t for value in data for t in texts(value)]
    return [data] if isinstance(data, str) else []


@pytest.fixture(scope="module")
def calculation() -> Calculation:
    return report.calculated(read(EDGE), "aci318-19")


# -- what is in it ---------------------------------------------------------------------------------------------------


@needs_pdftotext
def test_a_user_gets_a_calculation(run: Run, tmp_path: Path) -> None:
    code, out, err = run("beam.toml", "--to", "aci318-19", "-o", "calc.pdf")
    assert (code, err) == (0, "")
    assert out.splitlines()[0].startswith("Alder Weir edge beam ")
    assert out.splitlines()[1] == "Wrote calc.pdf."
    assert sorted(os.listdir()) == ["beam.toml", "calc.pdf"]
    pages = told(Path("calc.pdf").read_bytes(), tmp_path).split("\f")[:-1]
    assert out.splitlines()[0].split(" that were made")[0] in " ".join(pages[0].split())
    for i, page in enumerate(pages, start=1):
        assert f"page {i} of {len(pages)}" in page
    for page in pages[1:]:
        head = page.strip().splitlines()[0]
        assert head.split("  ")[0] == "Alder Weir edge beam"
        assert head.endswith("ACI 318M-19 · revision A")
    whole = "\n".join(pages)
    for title in (
        "Result", "Beam", "Basis", "Actions", "Checks", "Predicted behaviour", "Not checked", "Cautions and review",
        "Made by", "Checked by", "Combinations", "Envelopes", "Assumptions",
    ):  # fmt: skip
        assert re.search(rf"^\s*(\d\s+)?{title}", whole, re.M), title


def test_without_a_name_it_is_called_like_the_beam_file(run: Run) -> None:
    code, out, _ = run("beam.toml")
    assert code == 0
    assert out.endswith("Wrote beam.pdf.\n")
    assert Path("beam.pdf").read_bytes().startswith(b"%PDF-")


def test_every_working_is_shown_once_in_full_and_then_pointed_to(calculation: Calculation) -> None:
    blocks = document(calculation, "a4")["blocks"]
    checks = [b for b in blocks if b["kind"] == "check"]
    found = calculation.found
    assert [b["number"] for b in checks] == list(range(1, len(found.checks) + 1))
    pointed = 0
    for block, check in zip(checks, found.checks, strict=True):
        rows = [row for row in block["rows"] for _ in row.get("together", [None])]
        assert len(rows) == len(check.workings)
        for row, working in zip(rows, check.workings, strict=True):
            if "as" in row:
                pointed += 1
                assert row["as"] < block["number"]
                assert working in found.checks[row["as"] - 1].workings
            else:
                assert (row["clause"], row["mark"]) == (working.clause, working.mark)
                assert row["parts"] == equation(working, "SI")
    assert pointed > 0
    summary = next(b for b in blocks if b["kind"] == "summary")
    assert [row["title"].lower() for row in summary["rows"]] == [c.title.lower() for c in found.checks]


def test_the_peaks_are_those_of_the_envelopes_with_the_combination_that_makes_them(calculation: Calculation) -> None:
    blocks = document(calculation, "a4")["blocks"]
    peaks = next(b for b in blocks if b["kind"] == "table" and b["head"][-1] == "governing combination")
    design = calculation.found.design
    assert design is not None
    row = next(r for r in peaks["rows"] if r[1] == "sagging moment")
    most = float(design.actions.envelope("ultimate").sagging.max()) / 1e6
    assert float(row[2].split("\N{NARROW NO-BREAK SPACE}")[0]) == pytest.approx(most, rel=5e-3)
    assert row[4].startswith("1.2 self weight + 1.2 dead + 1.6 crowd")


@pytest.mark.parametrize("units", ["SI", "US"])
@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_both_papers_and_both_units(calculation: Calculation, paper: Any, units: Any) -> None:
    made = replace(calculation, units=units)
    pdf = report.pdf(made, paper)
    size = re.search(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)", b"".join(streams(pdf)))
    assert size is not None
    wide, tall = float(size[1]), float(size[2])
    mm = 25.4 / 72
    assert (wide * mm, tall * mm) == pytest.approx((210, 297) if paper == "a4" else (215.9, 279.4), abs=0.1)


def test_the_paper_follows_the_units_of_the_file_unless_one_is_named(run: Run) -> None:
    Path("us.toml").write_text('units = "US"\n' + EDGE.read_text(encoding="utf-8"), encoding="utf-8")
    for name, more, width in (("us.toml", (), 612), ("beam.toml", ("--paper", "letter"), 612), ("beam.toml", (), 595)):
        assert run(name, *more, "-o", "x.pdf")[0] == 0
        size = re.search(rb"/MediaBox\s*\[\s*0 0 ([\d.]+)", b"".join(streams(Path("x.pdf").read_bytes())))
        assert size is not None
        assert int(float(size[1])) == width


def streams(pdf: bytes) -> list[bytes]:
    """The file and every compressed part of it, unpacked."""
    found = [pdf]
    for match in re.finditer(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S):
        try:
            found.append(zlib.decompress(match[1]))
        except zlib.error:
            found.append(match[1])
    return found


# -- the same every time ---------------------------------------------------------------------------------------------


def test_two_processes_give_the_same_bytes_and_no_place_of_the_machine(tmp_path: Path) -> None:
    made = []
    for i, seed in enumerate(("1", "2")):
        folder = tmp_path / f"secret-folder-{i}"
        folder.mkdir()
        (folder / "beam.toml").write_bytes(EDGE.read_bytes())
        command = [sys.executable, "-m", "soffit", "report", "beam.toml", "--to", "aci318-19", "-o", "calc.pdf"]
        env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": f"UTC+{i}"}
        subprocess.run(command, cwd=folder, check=True, capture_output=True, env=env)
        made.append((folder / "calc.pdf").read_bytes())
    assert made[0] == made[1]
    whole = b"\n".join(streams(made[0]))
    for place in (b"secret-folder", str(Path.home()).encode(), b"site-packages", b"file:", b"CreationDate"):
        assert place not in whole, place


# -- text stays text -------------------------------------------------------------------------------------------------


@needs_pdftotext
def test_names_never_become_code(calculation: Calculation, tmp_path: Path) -> None:
    project = Project(*[HOSTILE] * 7)
    old = calculation.found
    beam = replace(old.beam, name=HOSTILE, about=HOSTILE, verifying=Verifying(project=project))
    beam = replace(beam, bars=tuple(replace(b, label=HOSTILE) for b in beam.bars))
    checks = tuple(replace(c, title=HOSTILE, combination=HOSTILE, assumptions=(HOSTILE,)) for c in old.checks)
    left = (Unchecked(HOSTILE, HOSTILE, HOSTILE),)
    found = replace(old, beam=beam, checks=checks, unchecked=left, assumptions=(HOSTILE, "\x00\x07 \ufffe \u2028 x"))
    pdf = report.pdf(replace(calculation, found=found))
    lines = " ".join(told(pdf, tmp_path).split())
    assert lines.count('#panic("x") $a_b$ *bold* _it_') > 8
    assert lines.count("#{1/0}") > 8


def test_symbols_never_become_code(calculation: Calculation) -> None:
    odd = Symbol('x,#panic("y")$', 2.0, "ratio", "")
    pen = Pen('#panic("z")')
    worked = pen("R,]#panic()", HOSTILE, "1 + 1", (), "ratio", "$")
    check = Check(HOSTILE, "", worked, pen("Q", "", "1 + 2", (odd,), "ratio"), (worked,), state="strength")
    assert report.pdf(replace(calculation, found=replace(calculation.found, checks=(check,)))).startswith(b"%PDF-")


@needs_pdftotext
def test_tables_of_many_rows_go_on_over_the_page_with_their_head(calculation: Calculation, tmp_path: Path) -> None:
    checks = tuple(replace(calculation.found.checks[0], title=f"check number {i}") for i in range(90))
    pdf = report.pdf(replace(calculation, found=replace(calculation.found, checks=checks)))
    pages = told(pdf, tmp_path).split("\f")
    for page in pages[1:3]:
        assert re.search(r"check\s+at\s+demand\s+resistance\s+ratio\s+page", page)
    whole = "\n".join(pages)
    assert all(f"Check number {i}" in whole for i in range(90))


# -- whatever the beam -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["bench-plain", "bench-post-tensioned", "alder-weir-two-span", "alder-weir-girder"])
def test_every_example_has_a_calculation_even_where_nothing_could_be_checked(name: str) -> None:
    made = report.calculated(read(EXAMPLES / f"{name}.toml"), "en1992")
    assert report.pdf(made).startswith(b"%PDF-")


def test_a_beam_outside_the_scope_is_told_as_not_verified(calculation: Calculation) -> None:
    beam = calculation.found.beam
    why = Unchecked("the whole beam", "it is made of cheese", "9.9", scope=True)
    found = Verification(beam, "aci318-19", "ACI 318M-19", None, (), (why,), ())
    data = document(replace(calculation, found=found), "a4")
    assert "it is made of cheese (9.9)" in data["cover"]["sentence"]
    assert not data["cover"]["kept"]
    assert "Nothing was checked." in texts(data["blocks"])
    assert typeset(data).startswith(b"%PDF-")


def test_a_life_that_cannot_be_computed_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(beam: object) -> None:
        raise SoffitError("the beam is too shy.")

    monkeypatch.setattr("soffit.member.time.lived.lived", fail)
    made = report.calculated(read(EDGE), "en1992")
    assert made.life is None
    said = texts(document(made, "a4")["blocks"])
    assert "No life could be computed for this beam: the beam is too shy." in said


def test_the_life_beside_is_that_of_the_command_life(calculation: Calculation) -> None:
    from soffit.member.time.lived import lived

    life = lived(read(EDGE))
    assert calculation.life is not None
    assert calculation.life.peak == life.peak


# -- what goes wrong -------------------------------------------------------------------------------------------------


def refused(run: Run, *tokens: str) -> str:
    code, out, err = run(*tokens)
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    assert not list(Path().glob("*.pdf"))
    return err.strip()


def test_what_cannot_be_meant(run: Run) -> None:
    Path("folder").mkdir()
    assert "a4" in refused(run, "beam.toml", "--paper", "a3")
    assert refused(run, "beam.toml", "-o", "none/calc.pdf") == "--output none/calc.pdf: there is no folder none."
    assert refused(run, "beam.toml", "-o", "folder") == "--output folder: that is a folder; name a file."
    assert refused(run, "beam.toml", "-o", "calc.doc") == "--output calc.doc: a calculation is written as .pdf."
    assert refused(run, "beam.toml", "-o", "") == "--output: the name of the file is empty."
    assert "aci318-19" in refused(run, "beam.toml", "--to", "bs8110")


def test_a_file_with_faults_gives_its_sentences(run: Run) -> None:
    text = EDGE.read_text(encoding="utf-8")
    Path("bad.toml").write_text(text.replace('strength             =', 'strengt =') if "strength             =" in text
                                else text.replace("[concrete]", "[concret]"), encoding="utf-8")  # fmt: skip
    code, out, err = run("bad.toml", "-o", "calc.pdf")
    assert (code, out) == (1, "")
    assert err.startswith(("bad.toml, line ", "bad.toml:"))
    assert not Path("calc.pdf").exists()


def test_a_typesetter_that_fails_leaves_no_file_behind(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    import typst

    def fail(*args: object, **more: object) -> bytes:
        raise RuntimeError("no ink\nat all")

    monkeypatch.setattr(typst, "compile", fail)
    Path("calc.pdf").write_bytes(b"old")
    code, out, err = run("beam.toml", "-o", "calc.pdf")
    assert (code, out) == (1, "")
    assert err == "beam.toml: the calculation could not be set as PDF (no ink).\n"
    assert Path("calc.pdf").read_bytes() == b"old"
    assert sorted(os.listdir()) == ["beam.toml", "calc.pdf"]


def test_work_whose_process_dies_is_done_here() -> None:
    here = os.getpid()

    def work() -> int:
        if os.getpid() != here:
            os._exit(3)
        return 7

    assert Aside(work)() == 7


def test_what_fails_beside_fails_here_as_usual() -> None:
    def work() -> int:
        raise SoffitError("so it is")

    with pytest.raises(SoffitError, match="so it is"):
        Aside(work)()


def test_a_verification_that_fails_at_once_ends_the_life_beside_without_a_word(run: Run) -> None:
    Path("bad.py").write_text(
        "import sys\nfrom soffit import cli\nimport soffit.codes.verification as v\n"
        "def verify(*a, **k):\n    raise ValueError('too early')\n"
        "v.verify = verify\nsys.argv = ['soffit', 'report', 'beam.toml']\nsys.exit(cli.main())\n",
        encoding="utf-8",
    )
    for _ in range(3):
        done = subprocess.run([sys.executable, "bad.py"], capture_output=True, text=True)
        assert done.returncode == 1
        (line,) = [text for text in done.stderr.splitlines() if not text.startswith("compiling")]
        assert line.startswith("beam.toml: Soffit itself failed (ValueError: too early)")
