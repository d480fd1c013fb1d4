"""March a member from the permanent state to collapse and keep what every station went through."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from soffit.errors import ConvergenceError
from soffit.member.curvatures import curvatures
from soffit.member.hinge import Choice, elastic_permanent, overloaded
from soffit.member.hinge import hinge as make_hinge
from soffit.member.history import History
from soffit.member.nodes import COHESIVE_BAND, Nodes, yield_strain
from soffit.member.path import CRUSHED, Member
from soffit.member.step import CannotStand, Hinge, Statics, Step
from soffit.member.sweep import limits

UNCRACKED_STEPS = 8
FALLEN = 0.5
"""Share of the peak at which the march stops."""
MOST = 600
MOST_SETTLED = 6
"""Sections that may open under the permanent load alone."""
PLATEAU = 2e-3
"""Growth of the load in one step, as a share of it, below which it has come to a plateau."""
NEAR_RUPTURE = 0.88
"""Share of the strain at rupture from which the next two steps may pass it."""
NEAR_RUPTURE_WORDS = "within an eighth of their strain at rupture"
"""How a march that ends for that reason says so."""
SHORTENINGS = 5
"""How often one step may be halved, where something has to be iterated."""
MOST_SHORTENED = 20
"""How often in all."""
PATIENCE = 40
"""Steps through which the load of a redundant beam must go on falling, low already, before the march ends."""


def march(nodes: Nodes, statics: Statics, hinge: Hinge) -> tuple[History, Hinge]:
    """All steps from the permanent load past the peak; the last hinge to lead is the one that governed.

    Raises ``ConvergenceError`` (place and load named) when a state before the peak is not found.
    """
    walk = _Walk(Member(nodes, statics, hinge))
    walk.begin()
    while walk.goes_on():
        pass
    return _history(walk), walk.member.hinge


class _Walk:
    """The march under way: the steps so far, who led them, and what is to come."""

    def __init__(self, member: Member) -> None:
        self.member = member
        self.steps: list[Step] = []
        self.leaders: list[int] = []
        self.lost = ""
        self.targets: list[tuple[float, float]] = []
        """Curvatures of the hinge still to be reached, the next one last."""
        self.shortened = 0
        self.tried = 0
        """How many hinges were asked to lead since the last step that was found."""

    def begin(self) -> None:
        """The permanent load, and the uncracked way to the hinge's first crack."""
        try:
            first = self._settled(self._permanent())
        except ConvergenceError:
            # no state under the permanent load, and some section is asked for more than it has: it does not stand
            member = self.member
            moment = elastic_permanent(member.nodes, member.statics)
            worst = overloaded(member.nodes, moment, *member.nodes.unbonded_forces())
            if worst is None:
                raise
            raise CannotStand(float(member.nodes.x[worst])) from None
        self._keep(first)
        if self.member.fixed_force:
            self.member.set_reference(first)
        self._stands(first)
        for step in _uncracked(self.member, first):
            self._keep(step)
        self.walker = curvatures(self.member, self.steps[-1])

    def _permanent(self) -> Step:
        """The permanent state. Unbonded tendons have their force under self weight, and stretch with the dead load."""
        member, whole = self.member, self.member.statics
        jacked = [u.tendon.stress_is == "at the jack" for u in member.nodes.unbonded]
        if not jacked or not all(jacked) or np.array_equal(whole.own, whole.permanent):
            return member.solve(None, 0.0)
        member.statics = replace(whole, permanent=whole.own, permanent_shear=whole.own_shear)
        bare = member.solve(None, 0.0)
        member.set_reference(bare)
        member.statics = whole
        return member.solve(bare, 0.0)

    def _stands(self, first: Step) -> None:
        """Raise ``CannotStand`` where the permanent state asks for more than there is."""
        nodes = self.member.nodes
        exhausted = np.flatnonzero(np.abs(first.state[:, 4]) > 1.5)
        if len(exhausted):
            raise CannotStand(float(nodes.x[exhausted[np.argmax(np.abs(first.moment[exhausted]))]]))
        if not self.member.redundants:
            worst = overloaded(nodes, first.moment, first.axial, self.member.eccentric(first.unknown))
            if worst is not None:
                raise CannotStand(float(nodes.x[worst]))

    def _settled(self, first: Step) -> Step:
        """The permanent state of a redundant beam with the sections open that crack or yield in it already.

        Where such a section falls open at once, no state near the first is found, and the march begins from that.
        """
        member = self.member
        if member.redundants and abs(first.state[member.hinge.station, 4]) > 1.5:
            # the section that is to lead has yielded already: for this once it follows
            first = self._opened(member.hinge, first)
        for _ in range(MOST_SETTLED):
            other = _yielding(member, first)
            if other is None:
                break
            before = first
            first = self._opened(_further(member, other, first), first)
            if first is before:
                break
        leading = [f.hinge is member.hinge for f in member.further]
        if any(leading):
            i, known = leading.index(True), member.groups + member.redundants
            member.further.pop(i)
            first = replace(first, unknown=np.delete(first.unknown, known + i))
            member.jacobian = None
        return first

    def _opened(self, hinge: Hinge, first: Step) -> Step:
        """The permanent state with one more section led by its own curvature; as it was where none is found."""
        self.member.add_hinge(hinge, first)
        try:
            return self.member.solve(first, 0.0)
        except ConvergenceError:
            self.member.further.pop()
            self.member.jacobian = None
            return first

    def _keep(self, step: Step) -> None:
        self.member.keep(step)
        self.steps.append(step)
        self.leaders.append(self.member.hinge.station)

    def goes_on(self) -> bool:
        """Take one step; whether there is another to take."""
        if len(self.steps) >= MOST:
            if _still_rising(self.steps):
                raise ConvergenceError(f"after {MOST} steps the load still rises; please report the beam file")
            self.lost = f"it was not followed beyond {MOST} steps"
            return False
        if not self._next_target():
            return False
        last = self.steps[-1]
        curvature, guess = self.targets[-1]
        try:
            step = self.member.solve(last, None, curvature, guess)
        except ConvergenceError as error:
            if not _breaking(self.member, last) and (self._shorter(last) or self._other_leader()):
                return True
            return self._ends(error)
        self.targets.pop()
        self.tried = 0
        self._keep(step)
        other = _yielding(self.member, step)
        if other is not None:
            self.member.add_hinge(_further(self.member, other, step), step)
        return not _spent(self.steps, self.member.redundants > 0)

    def _next_target(self) -> bool:
        if self.targets:
            return True
        found = next(self.walker, None)
        if found is not None:
            self.targets.append(found)
            return True
        if _still_rising(self.steps) and self._other_leader():
            return self._next_target()
        if _still_rising(self.steps) and not self.member.snapped:
            place = self.member.nodes.x[self.member.hinge.station]
            raise ConvergenceError(
                f"the section at x = {place:.0f} mm could not be followed to its strength under "
                f"{self.steps[-1].factor / 1e3:.4g} kN; please report the beam file, for this should not happen"
            )
        self.lost = "the failing section finds no equilibrium near its last state"
        return False

    def _shorter(self, last: Step) -> bool:
        """Aim half as far, as long as that is worth it."""
        h = self.member.hinge.station
        here = last.state[h, 3], last.state[h, 2]
        open_ = self.member.redundants or self.member.groups
        if len(self.targets) > SHORTENINGS or self.shortened > MOST_SHORTENED or not open_:
            return False
        self.shortened += 1
        k, e = self.targets[-1]
        self.targets.append((0.5 * (k + here[0]), 0.5 * (e + here[1])))
        return True

    def _other_leader(self) -> bool:
        """Let another hinge lead, which may by now turn faster: each in turn."""
        if self.tried >= len(self.member.further):
            return False
        self.steps[-1] = self.member.hand_lead(_fastest(self.member, self.steps, self.tried), self.steps[-1])
        self.walker, self.targets = curvatures(self.member, self.steps[-1], known=True), []
        self.tried += 1
        return True

    def _ends(self, error: ConvergenceError) -> bool:
        """The march is lost: past the peak, or where steel breaks, that is how it ends; before, it is an error."""
        broken = _breaking(self.member, self.steps[-1])
        if _still_rising(self.steps) and not broken:
            raise error
        self.lost = f"some {broken} are then {NEAR_RUPTURE_WORDS}" if broken else str(error).split(";")[0]
        return False


def _uncracked(member: Member, start: Step) -> Iterator[Step]:
    """Steps of equal load up to the hinge's first crack, when there is any way to go."""
    nodes, h, sign = member.nodes, member.hinge.station, member.hinge.sign
    _, cracking = limits(nodes.elastic[h], nodes.axis, nodes.depth, start.axial[h], member.strain, sign > 0)
    missing = (cracking - start.hinge_moment) * sign
    rate = member.statics.rising[h] * sign
    if missing <= 0:
        return
    step = start
    if member.redundants:
        # what the hinge takes of a load depends on the rest: find the share with a small trial
        small = 1e-3 * nodes.tensile * nodes.depth**2
        rate = (member.solve(start, small).hinge_moment - start.hinge_moment) * sign / small
    if rate <= 0.0:
        return
    for i in range(1, UNCRACKED_STEPS + 1):
        step = member.solve(step, i / UNCRACKED_STEPS * missing / rate * (1.0 - 1e-9))
        yield step


def _fastest(member: Member, steps: list[Step], rank: int) -> int:
    """Index of the further hinge that turned fastest in the last step, or of the one ``rank`` places behind it."""
    count = len(member.further)
    if len(steps) < 2:
        return rank
    now = steps[-1].unknown[-count:]
    before = steps[-2].unknown[-count:] if len(steps[-2].unknown) == len(steps[-1].unknown) else now
    speed = np.abs(now - before) / np.maximum(np.abs(now), 1e-12)
    return int(np.argsort(-speed, kind="stable")[rank])


def _still_rising(steps: list[Step]) -> bool:
    """Whether the last step is the peak and the load was still on its way up: the march then ended too soon."""
    factors = [s.factor for s in steps]
    top = max(factors)
    if factors[-1] < top or len(factors) < 2:
        return len(factors) < 2
    return factors[-1] - factors[-2] > PLATEAU * abs(top)


def _breaking(member: Member, step: Step) -> str:
    """``"bars"`` or ``"tendons"`` when some are within a few steps of breaking (only further hinges break between
    steps; the leading one breaks in a step of its own), else nothing."""
    e, k = step.state[:, 2], step.state[:, 3]
    for i, info in enumerate(member.nodes.infos):
        layers = member.nodes.layers[:, i]
        strain = np.where(layers[:, 1] > 0, e - k * layers[:, 0] + layers[:, 2], 0.0)
        if np.max(strain) >= NEAR_RUPTURE * info.law.high:
            return "tendons" if info.is_tendon else "bars"
    return ""


def _spent(steps: list[Step], redundant: bool) -> bool:
    """Whether the load has fallen so far that nothing can come after: at once, or for good in a redundant beam, where
    a support that cracks may throw the load back before the span takes it up."""
    factors = np.array([s.factor for s in steps])
    top = float(factors.max())
    low = factors < FALLEN * top if top > 0 else factors < top - 1.0
    if not redundant:
        return bool(low[-1])
    return len(low) > PATIENCE and bool(np.all(low[-PATIENCE:])) and bool(np.all(np.diff(factors[-PATIENCE:]) <= 0.0))


def _yielding(member: Member, step: Step) -> int | None:
    """A station away from all hinges whose steel yields or whose concrete nears crushing (only with redundants).

    Led by its own curvature from there on, it can turn, pass its strength and soften.
    """
    if member.redundants == 0:
        return None
    nodes = member.nodes
    e, k, sign = step.state[:, 2], step.state[:, 3], np.sign(step.state[:, 4])
    used = np.maximum(-(e - k * nodes.depth), -e) / CRUSHED
    for i, info in enumerate(nodes.infos):
        strain = e - k * nodes.layers[:, i, 0] + nodes.layers[:, i, 2]
        used = np.where(nodes.layers[:, i, 1] > 0, np.maximum(used, strain / yield_strain(info)), used)
    used = np.where(sign != 0, used, 0.0)
    # a section without bonded steel in its tension zone turns from its first crack on
    sagging = e > e - k * nodes.depth
    bare = np.where(sagging, ~nodes.bonded_below, ~nodes.bonded_above)
    used = np.where(bare, np.maximum(e, e - k * nodes.depth) / member.strain, used)
    for hinge in (member.hinge, *(f.hinge for f in member.further)):
        # beside a single crack the concrete is unloaded over about its depth on either side (Saint-Venant)
        reach = max(hinge.length, 2.0 * nodes.depth) if hinge.snaps else hinge.length
        away = np.abs(nodes.x - nodes.x[hinge.station])
        alike = np.where(sagging, 1, -1) == hinge.sign
        used[(away <= hinge.length) | ((away <= reach) & alike)] = 0.0
    worst = int(np.argmax(used))
    return worst if used[worst] >= 1.0 else None


def _further(member: Member, station: int, step: Step) -> Hinge:
    """A hinge like the leading one at another station."""
    nodes = member.nodes
    sign = 1 if step.state[station, 1] >= 0 else -1
    bare = not (nodes.bonded_below[station] if sign > 0 else nodes.bonded_above[station])
    choice = Choice(station, sign, 0.0, bare)
    long = COHESIVE_BAND * nodes.depth if bare else max(member.hinge.length, nodes.depth)
    return make_hinge(nodes, choice, long, np.sign(step.moment))


def _history(walk: _Walk) -> History:
    member, steps = walk.member, walk.steps
    state = np.array([s.state for s in steps])
    known = member.groups + member.redundants
    return History(
        factor=np.array([s.factor for s in steps]),
        unknown=np.array([s.unknown[:known] for s in steps]),
        moment=np.array([s.moment for s in steps]),
        shear=np.array([s.shear for s in steps]),
        axial=np.array([s.axial for s in steps]),
        on_section=np.array([s.moment + member.eccentric(s.unknown) for s in steps]),
        soffit=state[:, :, 0],
        curvature=state[:, :, 1],
        cracked_soffit=state[:, :, 2],
        cracked_curvature=state[:, :, 3],
        sign=np.sign(state[:, :, 4]),
        station=np.array(walk.leaders),
        lost=walk.lost,
    )
