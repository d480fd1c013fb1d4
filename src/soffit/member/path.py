"""The way of a beam from the state before loading, through its peak, and down: one equilibrium after another.

One section, the hinge, is led by its curvature; the load factor follows from its moment, and the state of all other
stations from theirs. What statics leaves open (support moments, forces of unbonded tendons) is found by Newton's
method on the compatibility of the whole member. Led by curvature, the peak and the falling branch need no special
treatment, and since the hinge has a stated length they do not depend on the stations.
"""

from __future__ import annotations

from dataclasses import replace
from math import isnan

import numpy as np
from numpy.typing import NDArray

from soffit.errors import ConvergenceError
from soffit.materials.curve import Array
from soffit.member import newton
from soffit.member.nodes import Nodes, yield_strain
from soffit.member.statics import product_weights
from soffit.member.step import FurtherHinge, Hinge, Statics, Step
from soffit.member.sweep import limits, remember, share_cracked, sweep, uncracked
from soffit.section import kernel

STEADY = 0.95
"""Share of its furthest turn to which a further hinge may go back on its own curve before it counts as closing."""


MOST_SWAPS = 4
"""How often a step is sought again because other stations close than it began with."""
CRUSHED = 0.003
"""Compressive strain from which a section is counted as turning although its steel does not yield."""


def _no_more_than(grown: Array, plane: tuple[float, float, float, float]) -> Array:
    """States (n, 4) whose curvature does not pass the hinge's own."""
    over = np.abs(grown[:, 1]) > abs(plane[1])
    return np.where(over[:, None], np.array(plane), grown)


class Member:
    """A beam's nodes and statics with the means to find its state; holds the history that unloading needs."""

    def __init__(self, nodes: Nodes, statics: Statics, hinge: Hinge) -> None:
        self.nodes, self.statics, self.hinge = nodes, statics, hinge
        self.groups = len(nodes.unbonded)
        self.redundants = len(statics.redundant)
        n = len(nodes.x)
        self.guess = np.zeros((n, 5))
        self.most = np.zeros((n, 6))
        self.jacobian: Array | None = None
        self.reference = np.zeros(self.groups)
        self.fixed_force = True
        strain = nodes.tensile / nodes.modulus
        laws = nodes.laws
        self._sweep = (
            laws.table,
            laws.first,
            laws.last,
            nodes.axis,
            nodes.depth,
            nodes.scale,
            nodes.elastic,
            strain,
        )
        self.strain = strain
        self.hinge_arrays = nodes.section(hinge.station, cohesive=hinge.snaps)
        self.greatest = 0.0
        self.elastic: tuple[float, float, float, float] | None = None
        self.unloading = np.zeros(n, dtype=bool)
        """Stations that close: decided once a step, so that what the unknowns are sought for does not jump."""
        self.latest: Step | None = None
        self.snapped = False
        """Whether the leading section found no equilibrium near its last one."""
        self.further: list[FurtherHinge] = []
        dx = np.diff(nodes.x)
        self.weights = np.concatenate([[0.0], dx]) / 2 + np.concatenate([dx, [0.0]]) / 2
        empty = np.zeros((0, n))
        self.turning = np.array([product_weights(nodes.x, m) for m in statics.redundant]) if self.redundants else empty
        self.sliding = (
            np.array([product_weights(nodes.x, v) for v in statics.redundant_shear]) if self.redundants else empty
        )

    # -- the forces on the sections ---------------------------------------------------------------------------

    def initial_unknowns(self) -> Array:
        return np.array([u.stress * u.tendon.area for u in self.nodes.unbonded] + [0.0] * self.redundants)

    def axial(self, unknown: Array) -> Array:
        total = np.zeros_like(self.nodes.x)
        for force, u in zip(unknown[: self.groups], self.nodes.unbonded, strict=True):
            total -= force * u.shape
        return total

    def eccentric(self, unknown: Array) -> Array:
        """What the unbonded tendons add to the moment on the sections."""
        total = np.zeros_like(self.nodes.x)
        for force, u in zip(unknown[: self.groups], self.nodes.unbonded, strict=True):
            total += force * u.shape * (u.y - self.nodes.axis)
        return total

    def _support(self, unknown: Array) -> Array:
        return unknown[self.groups : self.groups + self.redundants]

    def load_moment(self, factor: float, unknown: Array) -> Array:
        s = self.statics
        return s.permanent + factor * s.rising + self._support(unknown) @ s.redundant

    def load_shear(self, factor: float, unknown: Array) -> Array:
        s = self.statics
        return s.permanent_shear + factor * s.rising_shear + self._support(unknown) @ s.redundant_shear

    # -- one trial --------------------------------------------------------------------------------------------

    def trial(self, unknown: Array, factor: float | None, curvature: float, guess: float) -> Step:
        """The state under given unknowns, led by the load factor alone or by the hinge's curvature.

        ``curvature`` NaN: led by the load. Else the hinge has that curvature; where statics leaves nothing open its
        moment gives the load factor, otherwise ``factor`` is one more unknown and the step keeps what is missing.
        """
        nodes, h = self.nodes, self.hinge.station
        axial, extra = self.axial(unknown), self.eccentric(unknown)
        soffit = held = float("nan")
        if not isnan(curvature):
            soffit = kernel.equilibrium(*self.hinge_arrays, curvature, axial[h], guess, nodes.scale)
            if isnan(soffit):
                return self._failed(unknown, axial, curvature)
            held = kernel.resultants(*self.hinge_arrays, nodes.axis, soffit, curvature)[1]
            if factor is None:
                s = self.statics
                factor = float((held - extra[h] - s.permanent[h]) / s.rising[h])
        assert factor is not None
        moment = self.load_moment(factor, unknown)
        on_section = moment + extra
        state = sweep(
            nodes.strips, nodes.layers, *self._sweep, nodes.bonded_below, nodes.bonded_above,
            axial, on_section, self.guess, self.most, self.unloading,
        )  # fmt: skip
        missing = []
        if not isnan(soffit):
            self._put_hinge(state, axial, on_section, self.hinge, self.greatest, soffit, curvature, self.elastic)
            missing.append(float(held - on_section[h]))
        for other, k in zip(self.further, unknown[self.groups + self.redundants :], strict=True):
            j = other.hinge.station
            e, m = self._turned(other, float(k), float(axial[j]))
            if isnan(e):
                return self._failed(unknown, axial, curvature)
            self._put_hinge(state, axial, on_section, other.hinge, other.greatest, e, float(k), other.elastic)
            missing.append(m - float(on_section[j]))
        shear = self.load_shear(factor, unknown)
        return Step(factor, unknown, state, moment, shear, axial, curvature, soffit, on_section[h], np.array(missing))

    def _failed(self, unknown: Array, axial: Array, curvature: float) -> Step:
        """A trial without equilibrium: NaN wherever a state would stand."""
        nan = float("nan")
        hinges = len(self.further) + (not isnan(curvature))
        nothing = axial * nan
        return Step(
            nan, unknown, self.guess * nan, nothing, nothing, nothing, curvature, nan, nan, np.full(hinges, nan)
        )

    def _turned(self, other: FurtherHinge, curvature: float, axial: float) -> tuple[float, float]:
        """Soffit strain and moment of a further hinge: on its curve when it turns on, straight back when it closes.

        Going back it aims at the uncracked plane without moment, so that a crack that closes carries no more than it
        last did.
        """
        nodes, j, sign = self.nodes, other.hinge.station, other.hinge.sign
        e0, k0 = uncracked(nodes.elastic[j], nodes.axis, axial, 0.0)
        turn = k0 + STEADY * (other.furthest - k0)
        k = curvature if (curvature - turn) * sign >= 0.0 else turn
        arrays = nodes.section(j, cohesive=other.hinge.snaps)
        e = float(kernel.equilibrium(*arrays, k, axial, other.soffit, nodes.scale))
        if isnan(e):
            return e, e
        m = float(kernel.resultants(*arrays, nodes.axis, e, k)[1])
        t = 1.0 if k == curvature or turn == k0 else (curvature - k0) / (turn - k0)
        return e0 + t * (e - e0), t * m

    def _put_hinge(
        self,
        state: Array,
        axial: Array,
        moment: Array,
        hinge: Hinge,
        greatest: float,
        soffit: float,
        curvature: float,
        elastic: tuple[float, float, float, float] | None,
    ) -> None:
        """Give a hinge's stations its state.

        One crack: all of its band has the band's state. Else the section itself has its own (mean over the cracks),
        and the others of its zone add to theirs what it has turned since it began to yield (``elastic``).
        """
        nodes, h = self.nodes, hinge.station
        if hinge.snaps:
            state[hinge.zone] = (soffit, curvature, soffit, curvature, float(hinge.sign))
            return
        m = moment[h] if abs(moment[h]) > abs(greatest) else greatest
        e1, k1 = uncracked(nodes.elastic[h], nodes.axis, axial[h], moment[h])
        d, c = limits(nodes.elastic[h], nodes.axis, nodes.depth, axial[h], self.strain, hinge.sign > 0)
        z = share_cracked(m, d, c) if (m - c) * hinge.sign > 0 else 0.0
        plane = (e1 + z * (soffit - e1), k1 + z * (curvature - k1), soffit, curvature)
        if elastic is not None:
            others = hinge.zone.copy()
            others[h] = False
            gone = np.array(plane) - np.array(elastic)
            # a station beside it may itself be on its way: it never turns less than the hinge's plastic part
            grown = state[others, :4] + gone
            swept = np.abs(state[others, 1]) > abs(plane[1])
            state[others, :4] = np.where(swept[:, None], np.array(plane), _no_more_than(grown, plane))
            state[others, 4] = float(hinge.sign)
        state[h] = (*plane, float(hinge.sign))

    def began(self, hinge: Hinge, step: Step) -> tuple[float, float, float, float] | None:
        """The plane of a hinge in ``step`` if its steel yields or its concrete nears crushing there, else none."""
        nodes, h = self.nodes, hinge.station
        e, k = step.state[h, 2], step.state[h, 3]
        used = max(-(e - k * nodes.depth), -e) / CRUSHED
        for i, info in enumerate(nodes.infos):
            if nodes.layers[h, i, 1] > 0:
                used = max(used, (e - k * nodes.layers[h, i, 0] + nodes.layers[h, i, 2]) / yield_strain(info))
        if hinge.snaps or used < 1.0 - 1e-9:
            return None
        e1, k1, e2, k2 = (float(v) for v in step.state[h, :4])
        return e1, k1, e2, k2

    def residual(self, step: Step) -> Array:
        """How far the unknowns are from what the member's deformation makes of them.

        Forces of the unbonded tendons (N), the gaps of rotation at the redundants, and, with redundants, the missing
        moments of the leading and the further hinges (N·mm).
        """
        nodes = self.nodes
        e, k = step.state[:, 0], step.state[:, 1]
        forces = np.zeros(self.groups)
        for i, u in enumerate(nodes.unbonded):
            if self.fixed_force:
                continue
            stretch = self.mean_strain(e, k, i) - self.reference[i]
            forces[i] = step.unknown[i] - u.tendon.area * float(u.law(u.strain + stretch))
        # pretensioned steel bent the unit in its bed, before these supports held it
        turn = self.turning @ (k - nodes.bed) + self.sliding @ (step.shear / self.statics.shear_stiffness)
        missing = np.zeros(0) if step.missing is None else step.missing
        if not self.redundants:
            # the load factor was taken from the leading hinge, which therefore misses nothing
            missing = missing[:0]
        return np.concatenate([forces, turn, missing])

    def mean_strain(self, e: Array, k: Array, group: int) -> float:
        u = self.nodes.unbonded[group]
        w = self.weights * u.inside
        return float(np.sum((e - k * u.y) * w) / np.sum(w))

    # -- one step ---------------------------------------------------------------------------------------------

    def solve(
        self, start: Step | None, factor: float | None, curvature: float = float("nan"), guess: float = 0.0
    ) -> Step:
        """As :meth:`_sought`, with the stations closing that turn out to close (sought again until they agree)."""
        for _ in range(MOST_SWAPS):
            step = self._sought(start, factor, curvature, guess)
            closing = self._closing(step)
            if np.array_equal(closing, self.unloading):
                break
            self.unloading = closing
        return step

    def _closing(self, step: Step) -> NDArray[np.bool_]:
        """Cracked stations that carry less than they have carried."""
        moment = step.moment + self.eccentric(step.unknown)
        seen = self.most[:, 0]
        return (self.most[:, 3] != 0.0) & (moment * seen >= 0.0) & (np.abs(moment) < np.abs(seen) * (1.0 - 1e-9))

    def _sought(self, start: Step | None, factor: float | None, curvature: float, guess: float) -> Step:
        """The state led by the load ``factor`` or by the hinge's ``curvature``, sought from the step before.

        Newton on the unknowns with finite differences, corrected from step to step (Broyden) as long as that serves.
        Raises ``ConvergenceError`` where no compatible state is found.
        """
        unknown = self.initial_unknowns() if start is None else self._with_further(start.unknown)
        if len(unknown) == 0 or (self.redundants == 0 and self.fixed_force):
            return self._checked(self.trial(unknown, factor, curvature, guess))
        led = self.redundants > 0 and not isnan(curvature)
        u = np.append(unknown, start.factor if start is not None else 0.0) if led else unknown.copy()

        def trial(v: Array) -> Step:
            return (
                self.trial(v[:-1], float(v[-1]), curvature, guess) if led else self.trial(v, factor, curvature, guess)
            )

        found, self.jacobian = newton.settle(
            trial, self.residual, u, self._tolerance(led), self._sizes(led), self.jacobian, self._forces_held()
        )
        if isinstance(found, newton.Lost):
            raise ConvergenceError(self._where(found.last))
        return self._checked(found)

    def _with_further(self, unknown: Array) -> Array:
        """The unknowns of an earlier step with the curvatures of hinges that have come since."""
        missing = self.groups + self.redundants + len(self.further) - len(unknown)
        return np.append(unknown, [h.curvature for h in self.further[len(self.further) - missing :]] if missing else [])

    def _tolerance(self, led: bool) -> Array:
        forces = [1e-6 * max(u.stress * u.tendon.area, 1.0) for u in self.nodes.unbonded]
        turn = 1e-8 * float(np.sum(self.weights)) / self.nodes.depth
        return np.array(
            forces + [turn] * self.redundants + [1e-7 * self.nodes.scale * self.nodes.depth] * (led + len(self.further))
        )

    def _sizes(self, led: bool) -> Array:
        """What is a small change of each unknown."""
        forces = [1e-4 * g.stress * g.tendon.area + 1.0 for g in self.nodes.unbonded]
        moment = 1e-5 * self.nodes.scale * self.nodes.depth
        steepest = float(np.max(np.abs(self.statics.rising))) or 1.0
        bend = [1e-4 * h.curvature for h in self.further]
        return np.array(forces + [moment] * self.redundants + bend + [moment / steepest] * led)

    def _forces_held(self) -> int:
        """How many of the first unknowns are held for now (the tendons' forces before they stretch with the beam)."""
        return self.groups if self.fixed_force else 0

    def _checked(self, step: Step) -> Step:
        if isnan(step.factor) or not np.all(np.isfinite(step.state)):
            raise ConvergenceError(self._where(step))
        return step

    def _where(self, step: Step) -> str:
        if not isnan(step.hinge_curvature) and isnan(step.hinge_soffit):
            return (
                f"the section at x = {self.nodes.x[self.hinge.station]:.0f} mm can no longer hold the force on it, "
                "however it strains"
            )
        bad = np.flatnonzero(~np.isfinite(step.state[:, 1]))
        x = self.nodes.x[bad[0]] if len(bad) else self.nodes.x[self.hinge.station]
        return (
            f"no equilibrium was found at x = {x:.0f} mm under a load factor of {step.factor:.4g}; "
            "please report the beam file, for this should not happen"
        )

    def keep(self, step: Step) -> None:
        """Make this step part of the history."""
        if self.elastic is None:
            self.elastic = self.began(self.hinge, step)
        for other in self.further:
            if other.elastic is None:
                other.elastic = self.began(other.hinge, step)
        self.guess = step.state
        self.latest = step
        on_section = step.moment + self.eccentric(step.unknown)
        remember(self.nodes.elastic, self.nodes.axis, step.axial, on_section, step.state, self.most)
        if abs(step.hinge_moment) > abs(self.greatest):
            self.greatest = step.hinge_moment
        for other in self.further:
            j = other.hinge.station
            other.soffit, other.curvature = float(step.state[j, 2]), float(step.state[j, 3])
            if abs(on_section[j]) > abs(other.greatest):
                other.greatest = float(on_section[j])
            if (other.curvature - other.furthest) * other.hinge.sign > 0.0:
                other.furthest = other.curvature

    def add_hinge(self, hinge: Hinge, step: Step) -> None:
        """From the next step on, this section too is led by its own curvature, from where it stands now."""
        j = hinge.station
        moment = float((step.moment + self.eccentric(step.unknown))[j])
        k, e = float(step.state[j, 3]), float(step.state[j, 2])
        self.further.append(FurtherHinge(hinge, k, e, moment, k))
        self.jacobian = None

    def hand_lead(self, index: int, step: Step) -> Step:
        """Let further hinge ``index`` lead and the leading one follow; the step as the new leader sees it."""
        h = self.hinge.station
        k, e = float(step.state[h, 3]), float(step.state[h, 2])
        old = FurtherHinge(self.hinge, k, e, self.greatest, k, self.elastic)
        new = self.further[index]
        self.further[index] = old
        self.hinge, self.greatest, self.elastic = new.hinge, new.greatest, new.elastic
        self.hinge_arrays = self.nodes.section(new.hinge.station, cohesive=new.hinge.snaps)
        self.jacobian = None
        unknown = self._with_further(step.unknown).copy()
        unknown[self.groups + self.redundants + index] = old.curvature
        return replace(step, unknown=unknown)

    def set_reference(self, step: Step) -> None:
        """From here on the unbonded tendons stretch with the member."""
        e, k = step.state[:, 0], step.state[:, 1]
        self.reference = np.array([self.mean_strain(e, k, i) for i in range(self.groups)])
        self.fixed_force = False
        self.jacobian = None
