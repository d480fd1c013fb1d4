"""The sheet of ageing: no words touch or leave the page, and what it draws is the past."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import synthetic_past
from matplotlib.figure import Figure
from test_pictures import clashes, texts

from soffit.beamfile import read
from soffit.member import time
from soffit.show import agelines, look
from soffit.show.agechart import Frame
from soffit.show.agemeasured import Measured
from soffit.show.agesheet import age_sheet
from soffit.show.agewords import Told

EXAMPLES = ("alder-weir-deck-unit", "alder-weir-girder", "alder-weir-two-span", "bench-sustained")


@pytest.fixture
def figures(monkeypatch: pytest.MonkeyPatch) -> list[Figure]:
    """Figures that were drawn, kept instead of written."""
    kept: list[Figure] = []

    def keep(figure: Figure, *_: object) -> list[Path]:
        kept.append(figure)
        return []

    monkeypatch.setattr("soffit.show.agesheet.save", keep)
    return kept


@pytest.mark.parametrize("stem", synthetic_past.BEAMS)
@pytest.mark.parametrize("units", ["SI", "US"])
def test_no_words_of_an_invented_past_touch(stem: str, units: str, figures: list[Figure], tmp_path: Path) -> None:
    past, band = synthetic_past.named(stem)
    age_sheet(Told(past, band.station, band), tmp_path / stem, units=units)  # type: ignore[arg-type]
    assert clashes(figures[0]) == []


@pytest.mark.parametrize("stem", EXAMPLES)
def test_no_words_of_an_example_touch(stem: str, figures: list[Figure], tmp_path: Path) -> None:
    beam = read(Path(__file__).parents[2] / "examples" / f"{stem}.toml")
    past = time.past(beam)
    age_sheet(Told(past, past.middle, time.band(beam, mean=past)), tmp_path / stem)
    assert clashes(figures[0]) == []
    words = " ".join(text for text, _ in texts(figures[0]))
    assert all(instant.label[:12] in words for instant in past.instants)


def test_lines_go_through_the_numbers_of_the_past(tmp_path: Path, figures: list[Figure]) -> None:
    past, band = synthetic_past.named("plank")
    measured = Measured(np.array([30.0, 400.0]), np.array([-9.0, -8.0]))
    told = Told(past, band.station, band, measured)
    age_sheet(told, tmp_path / "plank")
    axes = figures[0].axes[0]
    heavy = [line for line in axes.lines if line.get_linewidth() == look.HEAVY and line.get_color() == look.INK]
    frame = _frame_of(told)
    drawn = next(line for line in heavy if len(line.get_xdata()) == len(past.t))
    np.testing.assert_allclose(drawn.get_xdata(), frame.across(past.t))
    rise = np.diff(np.asarray(drawn.get_ydata(), dtype=float))
    np.testing.assert_allclose(
        rise, rise[0] / past.deflection[1, band.station] * np.diff(past.deflection[:, band.station])
    )
    points = next(
        line for line in axes.lines if line.get_marker() == "o" and line.get_markerfacecolor() == look.MEASURED
    )
    np.testing.assert_allclose(points.get_xdata(), frame.across(measured.age))


def test_a_tendon_that_does_not_run_here_is_said(tmp_path: Path, figures: list[Figure]) -> None:
    past, _ = synthetic_past.named("two-span")
    past.tendons[0].full[:, :5] = np.nan
    age_sheet(Told(past, 2), tmp_path / "two-span")
    assert clashes(figures[0]) == []
    assert "No tendon runs here." in {text for text, _ in texts(figures[0])}


def test_the_picture_of_a_file_is_a_pdf_too(tmp_path: Path) -> None:
    past, band = synthetic_past.named("reinforced")
    written = age_sheet(Told(past, band.station, band), tmp_path / "beam.age", ("svg", "png", "pdf"))
    assert [path.name for path in written] == ["beam.age.svg", "beam.age.png", "beam.age.pdf"]
    assert all(path.stat().st_size > 5000 for path in written)


def _frame_of(told: Told) -> Frame:
    from soffit.show.agesheet import CHARTS_LEFT, CHARTS_WIDTH

    box = (CHARTS_LEFT, 0.0, CHARTS_WIDTH, 1.0)
    return Frame.of(box, agelines.days(told), 0.0, 1.0)
