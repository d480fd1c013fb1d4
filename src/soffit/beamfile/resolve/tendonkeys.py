"""Whether the keys of one ``[[tendons]]`` go together, and what each group is called."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from soffit.beamfile.check import Part
from soffit.beamfile.faults import Spot, key_of
from soffit.beamfile.resolve.piece import Piece
from soffit.beamfile.tables.tendons import TendonTable

Keys = tuple[Literal["duct", "friction", "wobble", "wobble_angle", "jacked_from", "minimum_radius"], ...]
_POST_ONLY: Keys = ("duct", "friction", "wobble", "wobble_angle", "jacked_from", "minimum_radius")


def keys_agree(table: TendonTable, spot: Spot, piece: Piece | None, staged: bool) -> bool:
    """Whether the keys go together; tells those that do not. ``staged``: whether the file has stages."""
    before = len(spot.faults.found)
    if table.when == "before casting":
        _pretensioned(table, spot)
    else:
        _post_tensioned(table, spot)
    if piece and table.duct is not None and table.duct < piece.diameter:
        problem = f"which is narrower than the tendon's {spot.show(piece.diameter)}"
        spot.wrong("duct", problem, "give the outer diameter of the duct")
    if table.stress_is == "effective":
        for key in ("long_term_loss", "friction", "wobble", "wobble_angle"):
            if spot.has(key):
                spot.wrong(key, "but the stress is effective, after all losses", "leave one of them out")
        if staged:
            cure = 'write stress_is = "at the jack", or leave out [[stages]]'
            spot.wrong("stress_is", "but the stages compute the losses", cure)
    if table.inflection is not None and table.shape != "reversed":
        spot.wrong("inflection", f'but shape is "{table.shape}"', 'leave it out, or write shape = "reversed"')
    if table.relaxation_1000h is not None and table.relaxation == "none":
        spot.wrong("relaxation_1000h", 'but relaxation is "none"', "leave one of them out")
    return len(spot.faults.found) == before


def _pretensioned(table: TendonTable, spot: Spot) -> None:
    if table.bond == "unbonded":
        cure = 'write bond = "bonded", or when = "after curing"'
        spot.wrong("bond", "but a tendon stressed before casting is held by its bond alone", cure)
    if table.shape != "straight":
        cure = 'write shape = "straight" with a point at each deviator'
        spot.wrong("shape", "but a tendon stressed before casting runs straight", cure)
    for key in _POST_ONLY:
        if spot.has(key):
            cure = 'leave it out, or write when = "after curing"'
            spot.wrong(key, "but a tendon stressed before casting has no duct", cure)
    if table.anchor is not None:
        spot.note(f"{spot.name}: the anchor is left out of account, for after release the bond holds the tendon.")
    if table.bed is not None and table.bed.slip and table.bed.length is None:
        cure = 'write length = "60 m", over which the slip is spread'
        spot.inner("bed").wrong("slip", "but length is not given", cure)


def _post_tensioned(table: TendonTable, spot: Spot) -> None:
    why = {
        "transfer_length": "is held by its anchors",
        "debonded": "is held by its anchors",
        "bed": "is stressed against the concrete itself",
    }
    for key, reason in why.items():
        if spot.has(key):
            cure = 'leave it out, or write when = "before casting"'
            spot.wrong(key, f"but a post-tensioned tendon {reason}", cure)
    if table.wobble_angle is None:
        return
    if table.wobble is not None:
        cure = "give one of them: wobble stands beside friction · angle, wobble_angle inside it (EN 1992-1-1)"
        spot.wrong("wobble_angle", "but wobble is given too", cure)
    elif table.friction is None and not spot.mended:
        cure = "write friction = 0.19 beside it, for EN 1992-1-1 (5.45) multiplies both angles by it"
        spot.wrong("wobble_angle", "but friction is not given", cure)


def tendon_names(parts: Sequence[Part[TendonTable]]) -> list[str]:
    """The name of each group; tells two groups of one name."""
    names = [part.table.name or _letters(place(part)) for part in parts]
    for i, part in enumerate(parts):
        for j, other in enumerate(parts):
            # the default letter of one may be the given name of another, before or after it
            clash = i != j and names[i] == names[j] and part.spot.has("name")
            if clash and (j < i or not other.spot.has("name")):
                problem = f"which is the name of {key_of(other.spot.path)} too"
                part.spot.wrong("name", problem, "give each group of tendons its own")
                break
    return names


def place(part: Part[TendonTable]) -> int:
    """Which table of the file it is, from 0."""
    return int(part.spot.path[-1])


def _letters(index: int) -> str:
    """A to Z, AA, AB, …"""
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("A") + rest) + text
    return text
