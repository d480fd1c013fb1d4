"""The pictures of the documentation, and the numbers that they show, by which a stale picture is found."""

from __future__ import annotations

import json
import shutil
import tempfile
from pathlib import Path
from typing import Any

import quoted

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures"
NUMBERS = PICTURES / "numbers.json"
BENCH = ("bench-plain", "bench-bars", "bench-pretensioned", "bench-post-tensioned")
SHEET = "bench-bars"
AGEING, STRESSED = "alder-weir-deck-unit", "alder-weir-two-span"
YEARS = PICTURES / "numbers-years.json"


def lives() -> list[Any]:
    import soffit

    return [soffit.life(soffit.read(ROOT / "examples" / f"{stem}.toml")) for stem in BENCH]


def numbers(found: list[Any]) -> dict[str, dict[str, Any]]:
    """What the pictures show of each life: its mode, and the load and deflection of each event."""
    return {
        life.name: {
            "mode": life.failure.mode,
            "events": [[e.event, float(f"{e.load / 1e3:.4g}"), float(f"{e.deflection:.4g}")] for e in life.events],
        }
        for life in found
    }


def years() -> dict[str, dict[str, Any]]:
    """What the sheet over time and the sheet of tendons show: bends and prestress after every stage, moments."""
    import soffit
    from soffit.show.tendonsfacts import facts

    past = soffit.past(soffit.read(_example(AGEING)))
    m = past.middle
    stages = [
        [i.label, float(past.deflection[i.step, m]), float(sum(t.force()[i.step, m] for t in past.tendons)) / 1e3]
        for i in past.instants
    ]
    found = facts(soffit.read(_example(STRESSED))).moments
    moments = {"secondary": float(found.secondary.max()) / 1e6, "total": float(found.total.max()) / 1e6}
    return {AGEING: {"stages": stages}, STRESSED: moments}


def _example(stem: str) -> Path:
    return ROOT / "examples" / f"{stem}.toml"


def draw() -> None:
    """Draw all pictures anew."""
    from soffit.show.compare import compare_sheet
    from soffit.show.sheet import life_sheet

    found = lives()
    compare_sheet(found, PICTURES / "compare", ("svg",))
    life_sheet(found[BENCH.index(SHEET)], PICTURES / SHEET, ("svg",))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        quoted.run(f"soffit age {_example(AGEING)} --quiet --picture {folder}", folder)
        quoted.run(f"soffit tendons {_example(STRESSED)} --picture {folder / f'{STRESSED}.tendons.svg'}", folder)
        for sheet in folder.glob("*.svg"):
            shutil.copyfile(sheet, PICTURES / sheet.name)
    YEARS.write_text(json.dumps(years(), indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    NUMBERS.write_text(json.dumps(numbers(found), indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
