"""The stages played through in their order: what is stressed, released, grouted and loaded after each."""

from __future__ import annotations

from collections.abc import Sequence

from soffit.beamfile.check import Part, Parts
from soffit.beamfile.faults import Spot, sentence
from soffit.beamfile.tables.making import StageTable
from soffit.materials.ageing.check import EARLIEST_LOADING
from soffit.units import near, quote


class Replay:
    """The state of the beam after the stages done so far. Faults go to the spot of their stage."""

    def __init__(self, parts: Parts, names: Sequence[str]) -> None:
        self.parts, self.names = parts, names
        self.tendons = [part.table for part in parts.tendons]
        self.cases = list(dict.fromkeys(part.table.case for part in parts.loads))
        self.done: dict[str, dict[int, str]] = {"stress": {}, "release": {}, "grout": {}}
        """For each deed the groups it was done to, and the stage that did it."""
        self.on: dict[str, float] = {}
        """Share of each case that is on the beam."""
        self.once: dict[str, str] = {}
        """Stages that there is only one of."""

    def do(self, part: Part[StageTable]) -> list[int]:
        """One stage; the indices of the groups it handles."""
        table, spot = part.table, part.spot
        if table.what in ("stress", "release", "grout"):
            return self._handle(table, spot)
        if table.what != "cast" and not _hard(table, spot):
            return []
        if table.what in ("cast", "topping"):
            self._once(table.what, spot)
        if table.what in ("load", "unload"):
            self._load(table, spot)
        return []

    def end(self) -> None:
        """What was never done."""
        for i, part in enumerate(self.parts.tendons):
            early = part.table.when == "before casting"
            if early and i not in self.done["release"]:
                _never(part.spot, "is never released", "release", "1 day")
            elif not early and i not in self.done["stress"]:
                _never(part.spot, "is never stressed", "stress", "14 days")
            elif not early and part.table.bond == "bonded" and i not in self.done["grout"]:
                part.spot.note(f"{part.spot.name}: no stage grouts its ducts, so it stays without bond while it ages.")
        if self.parts.topping and "topping" not in self.once:
            _never(self.parts.topping.spot, "is never poured", "topping", "60 days")

    def _once(self, what: str, spot: Spot) -> None:
        if what == "topping" and self.parts.topping is None:
            spot.wrong("what", "but there is no [topping]", "write the table [topping], or leave this stage out")
        elif what in self.once:
            did = "was cast" if what == "cast" else "was poured"
            spot.wrong("what", f"but it {did} in {self.once[what]} already", "leave one of them out")
        self.once.setdefault(what, spot.name)

    def _load(self, table: StageTable, spot: Spot) -> None:
        share = 1.0 if table.share is None else table.share
        key = "share" if spot.has("share") else "cases"
        for k, case in enumerate(table.cases or ()):
            if case not in self.cases:
                legal = ", ".join(quote(each) for each in self.cases)
                cure = f"write a [[loads]] of it, or one of {legal}" if legal else "write a [[loads]] of it"
                spot.faults.add((*spot.path, "cases", k), sentence(f"found {quote(case)}, which no load has", cure))
                continue
            now = self.on.get(case, 0.0)
            after = now + (share if table.what == "load" else -share)
            if after > 1.0 + 1e-9:
                problem = f"but then {100 * after:.4g} % of {case} would be on the beam"
                spot.wrong(key, problem, "put on 100 % at most in all")
            elif after < -1e-9:
                spot.wrong(key, f"but only {100 * now:.4g} % of {case} is on the beam", "take off no more than that")
            else:
                self.on[case] = after

    def _handle(self, table: StageTable, spot: Spot) -> list[int]:
        """Stress, release or grout."""
        before = len(spot.faults.found)
        chosen = self._named(table, spot) if table.tendons is not None else self._all(table)
        if len(spot.faults.found) > before:
            return []
        if not chosen:
            spot.wrong("what", f"but there are no {_LEFT[table.what]}", "leave this stage out, or name its tendons")
            return []
        if not self._in_time(chosen, table, spot):
            return []
        self.done[table.what] |= dict.fromkeys(chosen, spot.name)
        return chosen

    def _named(self, table: StageTable, spot: Spot) -> list[int]:
        chosen = []
        for k, name in enumerate(table.tendons or ()):
            if name not in self.names:
                meant = near(name, list(self.names))
                legal = ", ".join(self.names)
                cure = f'did you mean "{meant}"?' if meant else f"the tendons are {legal}" if legal else "leave it out"
                problem = f"found {quote(name)}, which is no name of [[tendons]]"
            else:
                group = self.names.index(name)
                why = self._why_not(group, table.what)
                if why is None:
                    chosen.append(group)
                    continue
                problem, cure = f"found {quote(name)}, {why[0]}", why[1]
            spot.faults.add((*spot.path, "tendons", k), sentence(problem, cure))
        return chosen

    def _why_not(self, group: int, what: str) -> tuple[str, str] | None:
        """Why a deed cannot be done to a group, and the cure; none where it can."""
        early = self.tendons[group].when == "before casting"
        did = self.done[what].get(group)
        if did:
            return f"which was {_DID[what]} in {did} already", "leave it out"
        if what == "release" and not early:
            return "which is stressed after curing and not released", "leave it out"
        if what == "grout" and early:
            return "which is stressed before casting and has no duct", "leave it out"
        if what == "grout" and self.tendons[group].bond == "unbonded":
            return "which is unbonded", 'leave it out, or write bond = "bonded" in its [[tendons]]'
        if what == "grout" and group not in self.done["stress"]:
            return "which is not stressed yet", "write the stage that stresses it before this one"
        return None

    def _all(self, table: StageTable) -> list[int]:
        """The groups that fit and were not handled yet."""
        fit = [i for i in range(len(self.tendons)) if self._why_not(i, table.what) is None]
        if table.what != "stress":
            return fit
        early = [i for i in fit if self.tendons[i].when == "before casting"]
        late = [i for i in fit if i not in early]
        return (early or late) if (table.at or 0.0) <= 0.0 else (late or early)

    def _in_time(self, chosen: list[int], table: StageTable, spot: Spot) -> bool:
        early = [self.names[i] for i in chosen if self.tendons[i].when == "before casting"]
        late = [self.names[i] for i in chosen if self.tendons[i].when != "before casting"]
        if table.what == "stress" and early:
            if late:
                problem = f"but {early[0]} is stressed before casting and {late[0]} after curing"
                spot.wrong("tendons", problem, "write a stage for each")
                return False
            if (table.at or 0.0) > 0.0:
                problem = f"but {early[0]} is stressed before casting"
                spot.wrong("at", problem, 'write a time before it, such as at = "-1 day"')
                return False
            return True
        return _hard(table, spot)


_DID = {"stress": "stressed", "release": "released", "grout": "grouted"}
_LEFT = {
    "stress": "tendons left to stress",
    "release": "pretensioned tendons left to release",
    "grout": "stressed tendons in ducts left to grout",
}


def _hard(table: StageTable, spot: Spot) -> bool:
    if (table.at or 0.0) >= EARLIEST_LOADING:
        return True
    cure = f'give a time from "{24 * EARLIEST_LOADING:.2g} h" on'
    spot.wrong("at", "which is before the concrete is hard", cure)
    return False


def _never(spot: Spot, problem: str, what: str, at: str) -> None:
    told = sentence(problem, f'write a [[stages]] with what = "{what}" and at = "{at}"')
    spot.faults.add(spot.path, told)
