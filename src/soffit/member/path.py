"""The way of a beam from the state before loading, through its peak, and down: one equilibrium after another.

One section, the hinge, is led by its curvature; the load factor follows from its moment, and the state of all other
stations from theirs. What statics leaves open (support moments, forces of unbonded tendons) is found by Newton's
method on the compatibility of the whole member. Led by curvature, the peak and the falling branch need no special
treatment, and since the hinge has a stated length they do not depend on the stations.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import isnan

import numpy as np

from soffit.errors import ConvergenceError
from soffit.materials.curve import Array
from soffit.member.nodes import Nodes
from soffit.member.sweep import limits, remember, share_cracked, sweep, uncracked
from soffit.section import kernel


@dataclass(frozen=True)
class Statics:
    """Moments and shears at the stations: permanent, of the unit rising load, and of each unit redundant."""

    permanent: Array
    rising: Array
    permanent_shear: Array
    rising_shear: Array
    redundant: Array
    """(r, stations)."""
    redundant_shear: Array
    shear_stiffness: Array
    """(stations,), N: G times the shear area."""


@dataclass(frozen=True)
class Hinge:
    station: int
    sign: int
    """+1 sagging, −1 hogging."""
    zone: Array
    """Stations that share the hinge's state (bool)."""
    length: float
    snaps: bool
    """Led by the section with cohesive tension (one crack), not by the fully cracked one."""


@dataclass
class Step:
    factor: float
    unknown: Array
    """Forces of the unbonded tendons, then the redundants."""
    state: Array
    """(stations, 5), as :func:`soffit.member.sweep.sweep`."""
    moment: Array
    """Of the loads, at the stations."""
    shear: Array
    axial: Array
    """On the section (bonded steel included), at the stations."""
    hinge_curvature: float
    hinge_soffit: float
    hinge_moment: float
    """On the section, at the hinge."""
    trial: list[float] = field(default_factory=list)


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
        dx = np.diff(nodes.x)
        self.weights = np.concatenate([[0.0], dx]) / 2 + np.concatenate([dx, [0.0]]) / 2

    # -- the forces on the sections ---------------------------------------------------------------------------

    def initial_unknowns(self) -> Array:
        return np.array([u.stress * u.tendon.area for u in self.nodes.unbonded] + [0.0] * self.redundants)

    def axial(self, unknown: Array) -> Array:
        total = np.zeros_like(self.nodes.x)
        for force, u in zip(unknown, self.nodes.unbonded, strict=False):
            total -= force * u.shape
        return total

    def eccentric(self, unknown: Array) -> Array:
        """What the unbonded tendons add to the moment on the sections."""
        total = np.zeros_like(self.nodes.x)
        for force, u in zip(unknown, self.nodes.unbonded, strict=False):
            total += force * u.shape * (u.y - self.nodes.axis)
        return total

    def load_moment(self, factor: float, unknown: Array) -> Array:
        s = self.statics
        return s.permanent + factor * s.rising + unknown[self.groups :] @ s.redundant

    def load_shear(self, factor: float, unknown: Array) -> Array:
        s = self.statics
        return s.permanent_shear + factor * s.rising_shear + unknown[self.groups :] @ s.redundant_shear

    # -- one trial --------------------------------------------------------------------------------------------

    def trial(self, unknown: Array, factor: float | None, curvature: float, guess: float) -> Step:
        """The state under given unknowns, led by the load factor or (``factor`` None) by the hinge's curvature."""
        nodes, h = self.nodes, self.hinge.station
        axial, extra = self.axial(unknown), self.eccentric(unknown)
        soffit = nan = float("nan")
        if factor is None:
            soffit = kernel.equilibrium(*self.hinge_arrays, curvature, axial[h], guess, nodes.scale)
            if isnan(soffit):
                return Step(nan, unknown, self.guess, axial, axial, axial, curvature, nan, nan)
            held = kernel.resultants(*self.hinge_arrays, nodes.axis, soffit, curvature)[1]
            s = self.statics
            factor = float(
                (held - extra[h] - s.permanent[h] - unknown[self.groups :] @ s.redundant[:, h]) / s.rising[h]
            )
        moment = self.load_moment(factor, unknown)
        on_section = moment + extra
        state = sweep(
            nodes.strips, nodes.layers, *self._sweep, nodes.bonded_below, nodes.bonded_above,
            axial, on_section, self.guess, self.most,
        )  # fmt: skip
        if not isnan(soffit):
            self._put_hinge(state, axial, on_section, soffit, curvature)
        return Step(
            factor,
            unknown,
            state,
            moment,
            self.load_shear(factor, unknown),
            axial,
            curvature,
            soffit,
            on_section[h],
        )

    def _put_hinge(self, state: Array, axial: Array, moment: Array, soffit: float, curvature: float) -> None:
        """Give the hinge's stations the hinge's state (mean over the cracks where steel is bonded)."""
        nodes, h = self.nodes, self.hinge.station
        mean_e, mean_k = soffit, curvature
        if not self.hinge.snaps:
            m = moment[h] if abs(moment[h]) > abs(self.greatest) else self.greatest
            e1, k1 = uncracked(nodes.elastic[h], nodes.axis, axial[h], moment[h])
            d, c = limits(
                nodes.elastic[h], nodes.axis, nodes.depth, axial[h], self.strain, self.hinge.sign > 0
            )
            z = share_cracked(m, d, c) if (m - c) * self.hinge.sign > 0 else 0.0
            mean_e, mean_k = e1 + z * (soffit - e1), k1 + z * (curvature - k1)
        state[self.hinge.zone] = (mean_e, mean_k, soffit, curvature, float(self.hinge.sign))

    def residual(self, step: Step) -> Array:
        """How far the unknowns are from what the member's deformation makes of them, in forces and moments' units."""
        nodes = self.nodes
        e, k = step.state[:, 0], step.state[:, 1]
        out = np.zeros(self.groups + self.redundants)
        for i, u in enumerate(nodes.unbonded):
            if self.fixed_force:
                continue
            stretch = self.mean_strain(e, k, i) - self.reference[i]
            start = u.stress / u.tendon.steel.modulus
            out[i] = step.unknown[i] - u.tendon.area * float(u.law(start + stretch))
        turn = self.statics.redundant @ (k * self.weights)
        turn += self.statics.redundant_shear @ (step.shear / self.statics.shear_stiffness * self.weights)
        out[self.groups :] = turn
        return out

    def mean_strain(self, e: Array, k: Array, group: int) -> float:
        u = self.nodes.unbonded[group]
        w = self.weights * u.inside
        return float(np.sum((e - k * u.y) * w) / np.sum(w))

    # -- one step ---------------------------------------------------------------------------------------------

    def solve(self, unknown: Array, factor: float | None, curvature: float = 0.0, guess: float = 0.0) -> Step:
        """Newton (finite differences, kept from step to step as long as it serves) on the unknowns.

        Raises ``ConvergenceError`` where no compatible state is found.
        """
        if len(unknown) == 0 or (self.redundants == 0 and self.fixed_force):
            return self._checked(self.trial(unknown, factor, curvature, guess))
        u = unknown.copy()
        tolerance = self._tolerance()
        step = self.trial(u, factor, curvature, guess)
        for attempt in range(40):
            r = self.residual(step)
            if not np.all(np.isfinite(r)):
                break
            if np.all(np.abs(r) <= tolerance):
                return self._checked(step)
            if self.jacobian is None or attempt % 6 == 5:
                self.jacobian = self._differences(u, factor, curvature, guess, r)
            change = np.linalg.lstsq(self.jacobian, -r, rcond=None)[0]
            new = self.trial(u + change, factor, curvature, guess)
            if np.all(np.isfinite(new.state)):
                # Broyden: correct the slope by what this step has shown
                miss = self.residual(new) - r - self.jacobian @ change
                self.jacobian = self.jacobian + np.outer(miss, change) / max(change @ change, 1e-300)
            u, step = u + change, new
        self.jacobian = None
        raise ConvergenceError(self._where(step))

    def _tolerance(self) -> Array:
        forces = [1e-6 * max(u.stress * u.tendon.area, 1.0) for u in self.nodes.unbonded]
        turn = 1e-9 * np.sum(self.weights) / self.nodes.depth * 1e-1
        return np.array(forces + [turn] * self.redundants)

    def _differences(self, u: Array, factor: float | None, curvature: float, guess: float, r: Array) -> Array:
        out = np.empty((len(u), len(u)))
        size = np.array(
            [1e-4 * g.stress * g.tendon.area + 1.0 for g in self.nodes.unbonded]
            + [1e-5 * self.nodes.scale * self.nodes.depth] * self.redundants
        )
        for i in range(len(u)):
            v = u.copy()
            v[i] += size[i]
            out[:, i] = (self.residual(self.trial(v, factor, curvature, guess)) - r) / size[i]
        if self.fixed_force:
            out[: self.groups, : self.groups] = np.eye(self.groups)
        return out

    def _checked(self, step: Step) -> Step:
        if isnan(step.factor) or not np.all(np.isfinite(step.state)):
            raise ConvergenceError(self._where(step))
        return step

    def _where(self, step: Step) -> str:
        bad = np.flatnonzero(~np.isfinite(step.state[:, 1]))
        x = self.nodes.x[bad[0]] if len(bad) else self.nodes.x[self.hinge.station]
        return (
            f"no equilibrium was found at x = {x:.0f} mm under a load factor of {step.factor:.4g}; "
            "please report the beam file, for this should not happen"
        )

    def keep(self, step: Step) -> None:
        """Make this step part of the history."""
        self.guess = step.state
        on_section = step.moment + self.eccentric(step.unknown)
        remember(self.nodes.elastic, self.nodes.axis, step.axial, on_section, step.state, self.most)
        if abs(step.hinge_moment) > abs(self.greatest):
            self.greatest = step.hinge_moment

    def set_reference(self, step: Step) -> None:
        """From here on the unbonded tendons stretch with the member."""
        e, k = step.state[:, 0], step.state[:, 1]
        self.reference = np.array([self.mean_strain(e, k, i) for i in range(self.groups)])
        self.fixed_force = False
        self.jacobian = None
