"""The pictures: every life gets a sheet that can be read, to scale, and the same bytes every time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
import synthetic_beams as beams
import synthetic_life as lives
from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text

from soffit.errors import SoffitError
from soffit.member.beam import BarGroup
from soffit.member.result import Life
from soffit.section import outline
from soffit.show import look, paper
from soffit.show.chart import ticks
from soffit.show.compare import compare_sheet
from soffit.show.comparechart import looks_of
from soffit.show.cracks import COMPUTED, SINGLE, crack_pattern
from soffit.show.failing import WORDS
from soffit.show.numbers import MINUS, THIN, column, fixed, quantity, sig
from soffit.show.sheet import life_sheet, moment_of
from soffit.show.steel_places import chords, spots
from soffit.show.view import drawing_scale, round_times, view_of

BENCH = (lives.plain, lives.bars, lives.pretensioned, lives.post)


@pytest.fixture
def figures(monkeypatch: pytest.MonkeyPatch) -> list[Figure]:
    """Figures that were drawn, kept instead of written."""
    kept: list[Figure] = []

    def keep(figure: Figure, *_: object) -> list[Path]:
        kept.append(figure)
        return []

    monkeypatch.setattr("soffit.show.sheet.save", keep)
    monkeypatch.setattr("soffit.show.compare.save", keep)
    return kept


def texts(figure: Figure) -> Iterator[tuple[str, np.ndarray]]:
    """Each text with the box of its letters in mm of the page, from the lower left. A line is higher than its
    letters: a sixth of it is taken off at the top and at the bottom."""
    with rc_context(paper.SETTINGS):
        FigureCanvasAgg(figure).draw()
        yield from _boxes(figure)


def _boxes(figure: Figure) -> Iterator[tuple[str, np.ndarray]]:
    for text in figure.findobj(Text):
        if text.get_text().strip() and text.get_visible():
            box, off = text.get_window_extent(), text.get_fontsize() / 72 * figure.dpi / 6
            across, up = (off, 0.0) if text.get_rotation() else (0.0, off)
            edges = [box.x0 + across, box.y0 + up, box.x1 - across, box.y1 - up]
            yield text.get_text(), np.array(edges) / figure.dpi * 25.4


def clashes(figure: Figure) -> list[str]:
    """Texts that lie over one another by more than a third of a millimetre, or off the page."""
    found, slack = [], 0.35
    wide, tall = figure.get_size_inches() * 25.4
    every = list(texts(figure))
    for words, box in every:
        if box[0] < 5 or box[1] < 5 or box[2] > wide - 5 or box[3] > tall - 5:
            found.append(f"{words!r} leaves the page")
    for (a, box), (b, other) in combinations(every, 2):
        low, high = np.maximum(box[:2], other[:2]), np.minimum(box[2:], other[2:])
        if np.all(high - low > slack):
            found.append(f"{a!r} lies over {b!r}")
    return found


@pytest.mark.parametrize("name", lives.ALL)
@pytest.mark.parametrize("units", ["SI", "US"])
def test_no_words_on_a_sheet_touch(name: str, units: str, figures: list[Figure], tmp_path: Path) -> None:
    life_sheet(lives.ALL[name](), tmp_path / name, units=units)
    assert clashes(figures[0]) == []


@pytest.mark.parametrize("at", [0, "first crack", "bar yield", -1])
def test_no_words_touch_at_any_moment(at: str | int, figures: list[Figure], tmp_path: Path) -> None:
    life_sheet(lives.bars(), tmp_path / "bars", at=at)
    assert clashes(figures[0]) == []


def test_no_words_of_a_comparison_touch(figures: list[Figure], tmp_path: Path) -> None:
    compare_sheet([make() for make in BENCH], tmp_path / "all")
    assert clashes(figures[0]) == []
    words = {words for words, _ in texts(figures[0])}
    assert {"Bench beam A", "A", "Bench beam D", "D", "tension-controlled flexure", "ample"} <= words


@pytest.mark.parametrize("name", ["transfer", "girder"])
def test_one_life_can_be_compared_with_nothing(name: str, figures: list[Figure], tmp_path: Path) -> None:
    compare_sheet([lives.ALL[name]()], tmp_path / "one")
    assert clashes(figures[0]) == []
    with pytest.raises(SoffitError, match="at least one"):
        compare_sheet([], tmp_path / "none")


def test_the_sheet_says_what_happens(figures: list[Figure], tmp_path: Path) -> None:
    life = lives.bars()
    life_sheet(life, tmp_path / "bars", units="US")
    words = " ".join(words for words, _ in texts(figures[0]))
    assert life.failure.sentence in words
    assert life.warning.word in words
    assert quantity(life.peak.load, "force", "US") in words
    assert all(event.event in words for event in life.events)
    assert all(caution.rstrip(".") in words for caution in life.cautions)


def test_the_same_life_gives_the_same_bytes(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        made = life_sheet(lives.post(), tmp_path / folder / "post", ("svg", "png", "pdf"))
        assert [path.name for path in made] == ["post.svg", "post.png", "post.pdf"]
        compare_sheet([lives.plain(), lives.post()], tmp_path / folder / "all")
    first, second = (sorted((tmp_path / folder).iterdir()) for folder in "ab")
    assert len(first) == 5
    assert [p.read_bytes() for p in first] == [p.read_bytes() for p in second]


def test_a_name_may_hold_anything(tmp_path: Path) -> None:
    name = "Prüfkörper <7> & $x_1$ \\frac 梁 Балка"
    life = replace(lives.plain(), name=name)
    svg, _ = life_sheet(life, tmp_path / "any")
    tree = ElementTree.parse(svg)
    assert name in [node.text for node in tree.iter() if node.tag.endswith("title")]


def test_a_picture_is_whole_or_not_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    old = tmp_path / "plain.svg"
    old.write_text("the old picture")

    def full(self: Figure, path: Path, **_: object) -> None:
        path.write_text("<svg half")
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Figure, "savefig", full)
    with pytest.raises(SoffitError, match="No space left"):
        life_sheet(lives.plain(), tmp_path / "plain")
    assert [p.name for p in tmp_path.iterdir()] == ["plain.svg"]
    assert old.read_text() == "the old picture"


def test_places_that_cannot_be_written_are_named(tmp_path: Path) -> None:
    with pytest.raises(SoffitError, match="nowhere"):
        life_sheet(lives.plain(), tmp_path / "nowhere" / "plain")
    with pytest.raises(SoffitError, match="'gif' is not a picture format"):
        life_sheet(lives.plain(), tmp_path / "plain", ("gif",))


def test_a_moment_is_an_event_or_a_step() -> None:
    life = lives.bars()
    assert moment_of(life, "peak").step == life.peak.step
    assert moment_of(life, -1).step == len(life.curve.load) - 1
    with pytest.raises(SoffitError, match="what happens: first crack, crack 0"):
        moment_of(life, "shear failure")
    with pytest.raises(SoffitError, match="no step 999"):
        moment_of(life, 999)
    cracked = next(e for e in life.events if e.event == "first crack")
    assert (moment_of(life, "first crack").load, moment_of(life, 0).load) == (cracked.load, 0.0)
    assert moment_of(lives.dies_at_transfer(), "peak").step == 0


def test_the_beam_is_drawn_to_scale() -> None:
    life = lives.girder()
    view = view_of(life, life.peak.step, 10.0, 50.0, 125.0)
    level = replace(view, sag=np.zeros_like(view.sag))
    long = float(level.across(life.beam.length) - level.across(0.0))
    deep = float(level.down(0.0, 0.0) - level.down(0.0, life.beam.outline.depth))
    assert long / deep == pytest.approx(life.beam.length / life.beam.outline.depth)
    middle = life.beam.length / 2
    sag = float(np.interp(middle, life.stations.x, life.stations.deflection[life.peak.step]))
    assert float(view.down(middle, 0.0) - level.down(middle, 0.0)) * 125.0 == pytest.approx(view.sag_times * sag)


def test_exaggeration_does_not_change_along_a_life() -> None:
    life = lives.bars()
    views = [view_of(life, step, 0.0, 0.0, 5.0) for step in range(len(life.curve.load))]
    assert len({(v.sag_times, v.crack_times) for v in views}) == 1


@pytest.mark.parametrize("wanted", np.geomspace(0.3, 4e3, 40))
def test_scales_and_factors_are_round_and_fit(wanted: float) -> None:
    scale = drawing_scale(wanted)
    assert wanted * (1 - 1e-9) <= scale <= 1.34 * wanted
    factor = round_times(wanted)
    assert factor <= max(wanted, 1.0)
    assert str(int(factor)).rstrip("0") in {"1", "2", "5"}


@pytest.mark.parametrize("make", [lives.bars, lives.girder, lives.cantilever, lives.two_span])
def test_cracks_stand_where_the_beam_is_cracked(make: object) -> None:
    life: Life = make()  # type: ignore[operator]
    step, s = life.peak.step, life.stations
    pattern = crack_pattern(life, step)
    assert pattern.cracks
    for crack in pattern.cracks:
        assert np.interp(crack.x, s.x, s.crack_width[step]) == pytest.approx(crack.width)
        assert crack.width > 0
        assert life.beam.length >= crack.x + crack.lean >= 0
        assert np.sign(crack.depth) == np.sign(np.interp(crack.x, s.x, s.moment[step]))
    assert bool(crack_pattern(life, 0).cracks) == bool(s.crack_width[0].any())


def test_cracks_keep_the_computed_spacing() -> None:
    life = lives.bars()
    pattern = crack_pattern(life, life.peak.step)
    assert pattern.note == COMPUTED
    assert np.diff([c.x for c in pattern.cracks]) == pytest.approx(life.crack_spacing)
    alone = crack_pattern(lives.plain(), lives.plain().peak.step)
    assert (len(alone.cracks), alone.note) == (1, SINGLE)
    assert alone.cracks[0].x == pytest.approx(lives.plain().critical)


SHAPES = {
    "rectangle": outline.rectangle(300, 500),
    "tee": outline.tee(600, 250, 1200, 150),
    "ell": outline.ell(600, 250, 800, 150),
    "i": outline.i_section(1600, 180, 900, 130, 650, 180, 90, 120),
    "box": outline.box(900, 1000, 150, 180, 160),
    "circle": outline.circle(500),
}


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("count", [1, 2, 5, 8])
def test_steel_is_drawn_inside_the_concrete(shape: str, count: int) -> None:
    of = SHAPES[shape]
    groups = tuple(
        BarGroup(count, 16, count * 201.0, y, beams.BAR, 0, 1250) for y in (50.0, of.depth / 2, of.depth - 50.0)
    )
    placed = spots(replace(beams.BENCH, outline=of, bars=groups), 600.0)
    assert len(placed) == 3 * count
    for spot in placed:
        assert any(a + 8 <= spot.x <= b - 8 for a, b in chords(of, spot.y)), spot


def test_every_mode_of_failure_has_its_words() -> None:
    from soffit.member.result import MODES

    assert set(WORDS) == set(MODES)


@pytest.mark.parametrize("mode", WORDS)
def test_every_mode_of_failure_is_drawn(mode: str, figures: list[Figure], tmp_path: Path) -> None:
    life = lives.post()
    life = replace(life, failure=replace(life.failure, mode=mode, x=0.0 if mode == "anchor" else 700.0))
    life_sheet(life, tmp_path / "any")
    assert clashes(figures[0]) == []
    assert WORDS[mode] in {words for words, _ in texts(figures[0])}


def test_a_life_without_load_says_so(figures: list[Figure], tmp_path: Path) -> None:
    life_sheet(lives.dies_at_transfer(), tmp_path / "any")
    words = " ".join(words for words, _ in texts(figures[0]))
    assert "fails before any load is on it" in words
    assert "times as far" not in words


def _luminance(color: str) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.2, definition)."""
    part = np.array([int(color[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    linear = np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)
    return float(linear @ np.array([0.2126, 0.7152, 0.0722]))


@pytest.mark.parametrize(
    "name", ["INK", "FAINT", "BAR", "TENDON", "COMPRESSION", "TENSION", "MEASURED", "FAILS", "FOCUS"]
)
def test_every_colour_of_words_can_be_read(name: str) -> None:
    """Contrast of at least 4.5 : 1 on paper (WCAG 2.2, criterion 1.4.3)."""
    assert (_luminance(look.PAPER) + 0.05) / (_luminance(getattr(look, name)) + 0.05) >= 4.5


def test_no_two_beams_of_a_comparison_share_a_line() -> None:
    found = looks_of([make().beam for make in (*BENCH, lives.girder)])
    assert len({mine.dashes for mine in found}) == 5


def test_numbers_are_set_like_numbers() -> None:
    assert sig(8.2) == "8.20"
    assert sig(999.7) == "1000"
    assert sig(-0.012345) == f"{MINUS}0.0123"
    assert sig(123456) == f"123{THIN}000"
    assert sig(0.0) == "0"
    assert sig(float("nan")) == "–"
    assert fixed(-0.001, 2) == "0.00"
    assert quantity(24310.0, "force") == f"24.3{THIN}kN"
    assert quantity(4448.2216152605, "force", "US") == f"1.00{THIN}kip"
    assert quantity(0.304, "crack width") == f"0.30{THIN}mm"
    assert quantity(None, "force") == "–"
    assert column([0.0, 5742.0, 51000.0, None], "force") == ["0.0", "5.7", "51.0", "–"]


@pytest.mark.parametrize(("low", "high"), [(0, 1), (0, 57.3), (-3.2, 11), (0, 0.00021), (0, 3e6)])
def test_ticks_are_round_and_inside(low: float, high: float) -> None:
    found = ticks(low, high, 6)
    assert 2 <= len(found) <= 7
    assert all(low - 1e-9 <= t <= high * (1 + 1e-9) for t in found)
    step = found[1] - found[0]
    assert np.isclose(step / 10.0 ** np.floor(np.log10(step) + 1e-9), [1, 2, 2.5, 5]).any()


def test_words_are_broken_to_their_room() -> None:
    words = "a beam that nobody would name like this " * 4 + "Donaudampfschiffahrtsgesellschaftsträger"
    lines = look.wrap(words, 30.0)
    assert "".join(lines).replace(" ", "") == words.replace(" ", "")
    assert not any(line.endswith(" 30") for line in look.wrap("a span of 30 m " * 20, 23.0))
    assert all(look.width(line) <= 30.0 for line in lines)
    assert look.clip(words, 30.0).endswith("…")
    assert paper.leading(10.0) > 10.0 / look.POINTS_A_MM
