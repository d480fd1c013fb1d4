"""The pictures of the documentation, and the numbers that they show, by which a stale picture is found."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures"
NUMBERS = PICTURES / "numbers.json"
BENCH = ("bench-plain", "bench-bars", "bench-pretensioned", "bench-post-tensioned")
SHEET = "bench-bars"


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


def draw() -> None:
    """Draw all pictures anew."""
    from soffit.show.compare import compare_sheet
    from soffit.show.sheet import life_sheet

    found = lives()
    compare_sheet(found, PICTURES / "compare", ("svg",))
    life_sheet(found[BENCH.index(SHEET)], PICTURES / SHEET, ("svg",))
    NUMBERS.write_text(json.dumps(numbers(found), indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
