"""The stress along a post-tensioned tendon after friction, wobble and the draw-in of its anchors.

σ(x) = σ_jack e^(−g), g = μ α + K x, with α the angle turned between the jack and x and K the wobble a length **beside**
μ α, as ACI 318 and AASHTO write it. EN 1992-1-1:2004 (5.45) writes μ (θ + k x): its k, an angle a length, becomes
K = μ k by :func:`wobble_en`, and never stands for K. Length is measured along x; a tendon inclined by 0.1 is 0.5 %
longer.

Draw-in turns the movement of the steel round, and with it the friction: from the anchor inward the stress then *rises*
as A e^g. Elastic steel, the same μ and K both ways.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log, sqrt

import numpy as np

from soffit.materials.curve import Array
from soffit.member import profile as way
from soffit.member.beam import TendonGroup

POINTS = 401
"""Along a tendon, besides the ends of the pieces of its profile."""
SAME_PLACE = 1e-6
"""mm."""


@dataclass(frozen=True)
class Jacked:
    """Stress along a post-tensioned tendon after the immediate losses that belong to it alone, MPa at ``x``.

    ``x`` rises from the left anchor to the right one and depends on the tendon's geometry only. A kink stands in it
    twice, with the stress on its left and on its right.
    """

    x: Array
    before: Array
    """At the jack's full pull, after friction and wobble."""
    stress: Array
    """After the draw-in too."""
    influence: tuple[float | None, float | None]
    """How far the draw-in of the left and of the right anchor reaches, mm; none where that end has none."""
    whole: bool
    """Whether the draw-in slackens the whole tendon: it reaches the far anchor, or the draw-in of the other end."""

    @property
    def friction_loss(self) -> float:
        """Mean along the tendon, MPa. The jack's own stress is the greatest before draw-in."""
        return float(np.max(self.before)) - self._mean(self.before)

    @property
    def draw_in_loss(self) -> float:
        """Mean along the tendon, MPa."""
        return self._mean(self.before) - self._mean(self.stress)

    def at(self, x: Array) -> Array:
        """Stress after friction and draw-in at ``x``, MPa: the mean of both sides at a kink."""
        return between(x, self.x, self.stress)

    def _mean(self, values: Array) -> float:
        return float(np.trapezoid(values, self.x) / (self.x[-1] - self.x[0]))


def between(x: Array, places: Array, values: Array) -> Array:
    """Values at ``x``, straight between ``places`` (rising); the mean of both sides where a place stands twice."""
    right = np.interp(x, places, values)
    left = np.interp(-x, -places[::-1], values[::-1])
    return np.asarray(0.5 * (left + right))


def wobble_en(friction: float, angle: float) -> float:
    """K = μ k, 1/mm, from the unintended angle k of EN 1992-1-1:2004 (5.45) in rad/mm (0.005 to 0.01 rad/m)."""
    return friction * angle


def stations(tendon: TendonGroup) -> Array:
    """Where the stress of a tendon is told, mm; a kink stands there twice."""
    ends = (tendon.x_from + SAME_PLACE, tendon.x_to - SAME_PLACE)
    own = np.array([x for x in way.breaks(tendon.profile) if ends[0] < x < ends[1]])
    even = np.linspace(tendon.x_from, tendon.x_to, POINTS)
    if len(own):
        even = even[np.min(np.abs(even[:, None] - own), axis=1) > SAME_PLACE]
    twice = [kink.x for kink in way.kinks(tendon.profile) if ends[0] < kink.x < ends[1]]
    return np.sort(np.concatenate([even, own, twice]))


def exponent(tendon: TendonGroup, x: Array) -> Array:
    """g = μ α + K s from the left anchor to the stations ``x`` of :func:`stations`."""
    start = float(way.turned(tendon.profile, np.array([tendon.x_from]), after=True)[0])
    angle = way.turned(tendon.profile, x)
    second = np.concatenate([[False], np.diff(x) == 0.0])
    angle[second] = way.turned(tendon.profile, x[second], after=True)
    return np.asarray(tendon.friction * np.maximum(angle - start, 0.0) + tendon.wobble * (x - x[0]))


def jacked(tendon: TendonGroup) -> Jacked:
    """Friction, wobble and draw-in of a post-tensioned tendon stressed to ``tendon.stress`` at its jack or jacks.

    Stressed from both ends (at once), every point has the larger of the two stresses; both anchors then draw in. Where
    their influence lengths meet, the stress is highest between them, where the steel does not move. Only jacked ends
    draw in: an anchor that is not jacked seats while the tendon is stressed. A slip longer than the tendon's whole
    elongation leaves it slack, without stress.
    """
    x = stations(tendon)
    g = exponent(tendon, x)
    slip = tendon.anchor.draw_in if tendon.anchor else 0.0
    needed = slip * tendon.steel.modulus
    if tendon.jacked_from == "both":
        return _from_both(tendon, x, g, needed)
    run, way_in = x - x[0], g
    if tendon.jacked_from == "right":
        run, way_in = (x[-1] - x)[::-1], (g[-1] - g)[::-1]
    before = tendon.stress * np.exp(-way_in)
    reach, stress = _drawn_in(before, run, needed)
    found = None if needed <= 0.0 else reach
    whole = needed > 0.0 and reach >= float(run[-1])
    if tendon.jacked_from == "right":
        return Jacked(x, before[::-1], stress[::-1], (None, found), whole)
    return Jacked(x, before, stress, (found, None), whole)


def _drawn_in(before: Array, run: Array, needed: float) -> tuple[float, Array]:
    """How far the draw-in reaches from ``run`` = 0, mm, and the stress after it. ``needed``: slip times modulus."""
    if needed <= 0.0:
        return 0.0, before
    found = _influence(before, run, needed)
    if found is not None:
        reach, level = found
        # A e^g meets σ e^(−g) where both are the level: the stress is mirrored there on a logarithmic scale
        return reach, np.where(run <= reach, np.minimum(before, level**2 / before), before)
    total, inverse = _integrals(before, run)
    rest = max((total[-1] - needed) / inverse[-1], 0.0)
    return float(run[-1]), rest / before


def _influence(before: Array, run: Array, needed: float) -> tuple[float, float] | None:
    """Place and stress where the draw-in ends; none where the tendon is too short for it.

    To the place ℓ it gives ∫(σ − σ(ℓ)²/σ) dx back, which grows with ℓ. For a loss that is level, p a length, that is
    p ℓ², so ℓ = √(E slip/p).
    """
    total, inverse = _integrals(before, run)
    given = total - before**2 * inverse
    if given[-1] < needed:
        return None
    i = int(np.searchsorted(given, needed, side="left"))
    step = float(run[i] - run[i - 1])
    if step <= 0.0:  # at a kink the stress falls at once
        return float(run[i]), sqrt((float(total[i]) - needed) / float(inverse[i]))
    first, rate = float(before[i - 1]), log(before[i - 1] / before[i]) / step

    def back(t: float) -> tuple[float, float]:
        level = first * exp(-rate * t)
        more = float(total[i - 1] + first * t * _mean_of_exp(np.array(-rate * t)))
        other = float(inverse[i - 1] + t / first * _mean_of_exp(np.array(rate * t)))
        return more - level**2 * other, level

    low, high = 0.0, step
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if back(middle)[0] < needed else (low, middle)
    return float(run[i - 1]) + high, back(high)[1]


def _integrals(before: Array, run: Array) -> tuple[Array, Array]:
    """∫σ and ∫dx/σ from the anchor to each station, with σ an exponential between two stations."""
    step = np.diff(run)
    z = np.log(before[1:] / before[:-1])
    total = np.concatenate([[0.0], np.cumsum(step * before[:-1] * _mean_of_exp(z))])
    return total, np.concatenate([[0.0], np.cumsum(step / before[:-1] * _mean_of_exp(-z))])


def _mean_of_exp(z: Array) -> Array:
    """Mean of e^t for t from 0 to z."""
    flat = z == 0.0
    return np.asarray(np.where(flat, 1.0, np.expm1(z) / np.where(flat, 1.0, z)))


def _from_both(tendon: TendonGroup, x: Array, g: Array, needed: float) -> Jacked:
    half = 0.5 * g[-1]
    before = tendon.stress * np.exp(-np.minimum(g, g[-1] - g))
    if needed <= 0.0:
        return Jacked(x, before, before, (None, None), False)
    from_left, from_right = tendon.stress * np.exp(-g), tendon.stress * np.exp(-(g[-1] - g))
    left = _influence(from_left, x - x[0], needed)
    right = _influence(from_right[::-1], (x[-1] - x)[::-1], needed)
    lowest = tendon.stress * np.exp(-half)
    if left and right and min(left[1], right[1]) >= lowest:
        stress = np.minimum(before, np.minimum(left[1] ** 2 / from_left, right[1] ** 2 / from_right))
        return Jacked(x, before, stress, (left[0], right[0]), False)
    first, second, still = _meeting(x, before, g, needed)
    stress = np.minimum(first * np.exp(g), second * np.exp(g[-1] - g))
    return Jacked(x, before, np.maximum(stress, 0.0), (still - float(x[0]), float(x[-1]) - still), True)


def _meeting(x: Array, before: Array, g: Array, needed: float) -> tuple[float, float, float]:
    """Stresses at the left and the right anchor, and where the steel stands still between two draw-ins that meet.

    To the left of that place A e^g, to the right of it B e^(g_total − g); each side gives one slip back, and both are
    equal there unless it is a kink, whose friction may be less than its most.
    """
    curves = [before, np.exp(g), np.exp(g[-1] - g)]
    sums = [_integrals(each, x)[0] for each in curves]

    def apart(i: int, t: float) -> tuple[float, float, float]:
        """A, B and the difference of the stresses where the steel stands still t mm beyond station i."""
        step = float(x[i + 1] - x[i])
        parts = []
        for each, total in zip(curves, sums, strict=True):
            rate = log(each[i + 1] / each[i]) / step if step > 0.0 else 0.0
            parts.append(float(total[i] + each[i] * t * _mean_of_exp(np.array(rate * t))))
        a = (parts[0] - needed) / parts[1]
        b = (float(sums[0][-1]) - parts[0] - needed) / (float(sums[2][-1]) - parts[2])
        here = float(g[i]) + (float(g[i + 1] - g[i]) * t / step if step > 0.0 else 0.0)
        return a, b, a * exp(here) - b * exp(float(g[-1]) - here)

    low, high = 1, len(x) - 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if apart(middle, 0.0)[2] < 0.0 else (low, middle)
    near, far = 0.0, float(x[high] - x[low])
    for _ in range(60):
        t = 0.5 * (near + far)
        near, far = (t, far) if apart(low, t)[2] < 0.0 else (near, t)
    a, b, _ = apart(low, far)
    return a, b, float(x[low]) + far
