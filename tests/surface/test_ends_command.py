"""``soffit ends`` as a user meets it: table, working, what was not checked, the drawing, and wrong input."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest

from soffit import cli
from soffit.beamfile import starter

Run = Callable[..., tuple[int, str, str]]
PLATE = 'efficiency = 0.95, plate = ["160 mm", "250 mm"] }'


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> Run:
    monkeypatch.chdir(tmp_path)
    post = starter("post-tensioned-bonded")
    Path("plain.toml").write_text(starter("plain"), encoding="utf-8")
    Path("bed.toml").write_text(starter("pretensioned"), encoding="utf-8")
    Path("bare.toml").write_text(post, encoding="utf-8")
    Path("plate.toml").write_text(post.replace("efficiency = 0.95 }", PLATE), encoding="utf-8")
    assert PLATE in Path("plate.toml").read_text(encoding="utf-8")

    def command(*tokens: str) -> tuple[int, str, str]:
        code = cli.main(tokens)
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        return code, out, err

    return command


def test_table_working_and_closing_sentence(run: Run) -> None:
    code, out, err = run("ends", "plate.toml")
    assert (code, err) == (0, "")
    table = out.split("Working")[0]
    for title in ("bursting", "spalling", "bursting across", "each plate of A", "bearing at the support"):
        assert f"   {title}" in table
    # 1.2 · 1820 kN, and the prism of 2 · (900 − 580) mm
    assert "Fd = 1.2·ΣPmax = 1.2·1820 kN = 2180 kN" in out
    assert "T = 0.25·(b − a)/b·Fd = 0.25·(640 mm − 250 mm)/640 mm·2180 kN = 333 kN" in out
    assert "For a licensed engineer to review" in out
    last = out.strip().splitlines()[-1]
    assert last.startswith("Post-tensioned beam, grouted: ")
    assert "first of all each plate of A, by " in last


def test_us_units_change_what_is_shown_and_not_what_holds(run: Run) -> None:
    _, si, _ = run("ends", "plate.toml", "--to", "aashto")
    _, us, _ = run("ends", "plate.toml", "--to", "aashto", "--units", "US")
    assert "1.2·409 kip = 491 kip" in us
    assert "in²" in us
    assert " mm" not in us.split("Assumed")[0]
    verdicts = [[word for word in text.split() if word in ("holds", "fails")] for text in (si, us)]
    assert verdicts[0] == verdicts[1]
    assert set(verdicts[0]) == {"holds", "fails"}


def test_without_a_plate_the_cure_is_named(run: Run) -> None:
    code, out, _ = run("ends", "bare.toml")
    assert code == 0
    assert "Bearing under the plate of A: give its width and height, plate = " in out.split("Not checked")[1]
    assert "0.25·(640 mm − 0 mm)/640 mm·2180 kN" in out


@pytest.mark.parametrize(
    ("to", "words"),
    [
        ("en1992", "EN 1992-1-1 8.10.2 has no formula for it"),
        ("aci318", "ACI 318-19 has no formula for it"),
        ("aashto", "Psplit = 0.04·ΣP = 0.04·670 kN = 26.8 kN"),
    ],
)
def test_pretensioned_ends(run: Run, to: str, words: str) -> None:
    code, out, _ = run("ends", "bed.toml", "--to", to)
    assert code == 0
    assert words in out


def test_the_drawing_is_named_and_says_what_it_shows(run: Run) -> None:
    code, out, _ = run("ends", "plate.toml", "--picture", "drawn/")
    assert code == 0
    assert sorted(p.name for p in Path("drawn").iterdir()) == ["ends.png", "ends.svg"]
    assert "Written      drawn/ends.png" in out
    text = "".join(ElementTree.parse("drawn/ends.svg").getroot().itertext())
    assert "End zones of Post-tensioned beam, grouted" in text
    run("ends", "bed.toml", "--to", "aashto", "--picture", "one.svg")
    assert Path("one.svg").exists()


@pytest.mark.parametrize(
    ("tokens", "code", "sentence"),
    [
        (
            ("ends", "plain.toml"),
            1,
            "plain.toml: the beam has no tendons, so its ends hold no prestress to check; describe them in [[tendons]]",
        ),
        (("ends", "none.toml"), 1, "none.toml: there is no such file; check its name."),
        (("ends", "plate.toml", "--picture", "a.jpg"), 2, "--picture a.jpg: charts are written as .svg, .png or .pdf."),
    ],
)
def test_wrong_input_is_one_sentence(run: Run, tokens: tuple[str, ...], code: int, sentence: str) -> None:
    found, out, err = run(*tokens)
    assert (found, out) == (code, "")
    assert err.startswith(sentence)
    assert len(err.strip().splitlines()) == 1


def test_another_standard_is_refused(run: Run) -> None:
    code, out, err = run("ends", "plate.toml", "--to", "bs")
    assert (code, out) == (2, "")
    assert 'Choose from: "en1992", "aci318", "aashto"' in err
