"""The documentation cannot go stale: what it quotes is run again, and what it names exists.

Where a test here fails after a change that was meant: ``.venv/bin/python docs/refresh.py``, and read the page again.
"""

from __future__ import annotations

import importlib
import json
import re
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "docs"))

import drawn  # noqa: E402
import quoted  # noqa: E402

REFRESH = "stale; run .venv/bin/python docs/refresh.py and read the page again"
PAGES = [pytest.param(page, id=str(page.relative_to(ROOT))) for page in quoted.pages()]
QUOTING = [
    p
    for p in PAGES
    if any(b.kind in ("console", "python", "pycon") for b in quoted.blocks(p.values[0].read_text(encoding="utf-8")))
]


@pytest.mark.parametrize("page", QUOTING)
def test_what_a_page_quotes_is_what_it_prints(page: Path, tmp_path: Path) -> None:
    played = quoted.play(page, tmp_path)
    assert not played.faults, f"{REFRESH}\n" + "\n".join(played.faults)


def test_the_pages_that_must_quote_something_do() -> None:
    """Nothing above passes because no block was found."""
    names = {p.values[0].name for p in QUOTING}
    assert {"README.md", "tutorial.md", "command-line.md", "python.md", "json.md"} <= names


def test_a_wrong_quotation_is_found() -> None:
    printed = "first crack   8.2 kN\npeak          13.3 kN\nassumed   one\n          two\n"
    assert quoted.same("first crack 8.2 kN\npeak 13.3 kN\nassumed …\n…\n", printed)
    assert quoted.same("first crack 8.3 kN\n…\n", printed)  # another rounding
    assert not quoted.same("first crack 9.2 kN\n…\n", printed)
    assert not quoted.same("first yield 8.2 kN\n…\n", printed)
    assert not quoted.same("first crack 8.2 kN\npeak 13.3 kN\n", printed)


def test_the_reference_of_the_beam_file_is_current() -> None:
    from soffit.beamfile import reference

    assert (ROOT / "docs/beam-file.md").read_text(encoding="utf-8") == reference().rstrip("\n") + "\n", REFRESH


def test_the_reference_of_checks_is_current() -> None:
    import checked

    assert checked.PAGE.read_text(encoding="utf-8") == checked.page().rstrip("\n") + "\n", REFRESH


def test_the_pictures_show_the_lives_of_today() -> None:
    """They are not drawn again; the numbers written beside them when they were drawn are computed again."""
    known = json.loads(drawn.NUMBERS.read_text(encoding="utf-8"))
    now = json.loads(json.dumps(drawn.numbers(drawn.lives())))
    assert known.keys() == now.keys(), REFRESH
    for name, life in known.items():
        assert life["mode"] == now[name]["mode"], REFRESH
        assert [e[0] for e in life["events"]] == [e[0] for e in now[name]["events"]], REFRESH
        for old, new in zip(life["events"], now[name]["events"], strict=True):
            assert old[1:] == pytest.approx(new[1:], rel=0.01, abs=0.01), f"{name}, {old[0]}: {REFRESH}"
    for picture in ("compare.svg", "bench-bars.svg"):
        assert "<svg" in (drawn.PICTURES / picture).read_text(encoding="utf-8")


@pytest.mark.parametrize("path", sorted((ROOT / "examples").glob("*.toml")), ids=lambda p: p.stem)
def test_an_example_lives_to_its_collapse(path: Path) -> None:
    import soffit

    life = soffit.life(soffit.read(path))
    assert life.peak.load > 0
    assert life.events[-1].event == "collapse"
    assert "invented" in path.read_text(encoding="utf-8").lower()


@pytest.mark.parametrize("page", PAGES)
def test_modules_that_a_page_names_exist(page: Path) -> None:
    for name in set(re.findall(r"`(soffit(?:\.\w+)+)`", page.read_text(encoding="utf-8"))):
        found, rest = None, name.split(".")
        for cut in range(len(rest), 0, -1):
            try:
                found = importlib.import_module(".".join(rest[:cut]))
            except ModuleNotFoundError:
                continue
            break
        for part in rest[cut:]:
            found = getattr(found, part, None)
        assert found is not None, f"{page.name} names {name}, which is not there"


def test_the_json_page_lists_every_key_event_and_mode() -> None:
    import soffit
    from soffit.member.result import EVENTS, MODES
    from soffit.show.jsonout import to_dict

    said = set(re.findall(r"`([^`\n]+)`", (ROOT / "docs/json.md").read_text(encoding="utf-8")))
    result = to_dict(soffit.life(soffit.read(ROOT / "examples/bench-bars.toml")))
    keys = set(result) | set(result["events"][0])
    for part in ("peak", "failure", "warning", "curve", "press"):
        keys |= set(result[part])
    assert keys <= said
    assert set(EVENTS) | set(MODES) <= said


def test_the_python_page_lists_every_attribute_of_a_life() -> None:
    from soffit.member.result import Life

    said = set(re.findall(r"`(\w+)`", (ROOT / "docs/python.md").read_text(encoding="utf-8")))
    assert set(Life.__dataclass_fields__) - {"name"} <= said


def test_every_law_is_in_the_theory() -> None:
    from soffit.materials import compression, steel_laws

    concrete = (ROOT / "docs/theory/concrete.md").read_text(encoding="utf-8")
    steel = (ROOT / "docs/theory/steel.md").read_text(encoding="utf-8")
    assert all(f"`{key}`" in concrete for key in compression.LAWS)
    assert all(f"`{key}`" in steel for key in steel_laws.LAWS)


def test_targets_that_the_readme_names_are_in_the_makefile() -> None:
    targets = set(re.findall(r"^(\w+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE))
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    named = set(re.findall(r"(?:`|^)make (\w+)", readme, re.MULTILINE))
    assert {"demo", "test", "docs", "evidence"} <= named
    assert named <= targets


@pytest.mark.parametrize("page", PAGES)
def test_links_to_files_lead_somewhere(page: Path) -> None:
    text = re.sub(r"^```.*?^```", "", page.read_text(encoding="utf-8"), flags=re.MULTILINE | re.DOTALL)
    for target in re.findall(r"\]\(([^)#\s]+)[^)]*\)", text):
        if not target.startswith(("http:", "https:")):
            assert (page.parent / target).exists(), f"{page.name} leads to {target}"


@pytest.mark.long
def test_the_pages_build_without_a_warning(tmp_path: Path) -> None:
    import subprocess

    pytest.importorskip("myst_parser")
    done = subprocess.run(
        [sys.executable, "-m", "sphinx", "-W", "-q", str(ROOT / "docs"), str(tmp_path)], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
