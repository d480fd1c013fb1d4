"""Tables of material laws built inside compiled code, for populations whose every sample has its own laws.

The formulas are those of :mod:`soffit.materials`, compiled as they stand; which pieces a law has, and how a
piece becomes cubics, follows :mod:`soffit.materials.compression`, :mod:`soffit.materials.tension`,
:mod:`soffit.materials.steel_laws` and :mod:`soffit.section.lawtable` step by step, so that a sample has the
very table that it would have alone (a test holds them together).

A function returns the number of rows it wrote, 0 where no such law exists. Base units MPa, N/mm, mm.
"""

# numba infers the types of compiled functions
# mypy: allow-untyped-defs, allow-untyped-calls, no-check-untyped-defs

from __future__ import annotations

import numpy as np

from soffit.jit import kernel
from soffit.materials import compression, steel_laws
from soffit.section import lawtable

POPOVICS, EN1992 = 0, 1
NO_TENSION, BRITTLE, COHESIVE = 0, 1, 2
PLATEAU, BILINEAR, STRAND, LINEAR = 0, 1, 2, 3
CONCRETE_LAWS = {"popovics": POPOVICS, "en1992": EN1992}
TENSION_LAWS = {"none": NO_TENSION, "brittle": BRITTLE, "cohesive": COHESIVE}
STEEL_LAWS = {"plateau": PLATEAU, "bilinear": BILINEAR, "strand": STRAND, "linear": LINEAR}

MOST_ROWS = 600
"""Rows that the table of one law may have; the mean laws of this project take 15 to 100."""

_popovics = kernel(compression.popovics)
_sargin = kernel(compression.sargin)
_fall_exponent = kernel(compression.fall_exponent)
_fall_factor = kernel(compression.fall_factor)
_ultimate_strain = kernel(compression.ultimate_strain)
_hardening = kernel(steel_laws.hardening)
_power_formula = kernel(steel_laws.power_formula)

_FORM_LINE, _FORM_POPOVICS, _FORM_SARGIN, _FORM_HARDENING, _FORM_MIRROR, _FORM_POWER = range(6)
_TO = lawtable._TO_COEFFICIENTS
_LOBATTO = lawtable._LOBATTO
_PROBE = lawtable._PROBE
_TOLERANCE, _FAR = lawtable.TOLERANCE, lawtable._FAR
_FIRST_PARTS, _MOST_HALVINGS = lawtable.FIRST_PARTS, lawtable.MOST_HALVINGS
_NARROWEST = lawtable.NARROWEST
_SPENT, _FURTHEST = compression.SPENT, compression.FURTHEST_STRAIN
_CRUSHING = compression.CRUSHING_STRAIN
_POWER, _HELD = steel_laws.HARDENING_POWER, steel_laws.FURTHEST_COMPRESSION
_KNEE, _PROOF = steel_laws.KNEE, steel_laws.PROOF_STRAIN


@kernel
def _stress(form, p, strain):
    """Stress of one smooth form; ``p`` holds its constants."""
    if form == _FORM_POPOVICS:
        return _popovics(strain, p[0], p[1], p[2], p[3])
    if form == _FORM_SARGIN:
        return _sargin(strain, p[0], p[1], p[2])
    if form == _FORM_HARDENING:
        return _hardening(strain, p[0], p[1], p[2], p[3], _POWER)
    if form == _FORM_MIRROR:
        return -_hardening(-strain, p[0], p[1], p[2], p[3], _POWER)
    return _power_formula(strain, p[0], p[1], p[2], p[3])


@kernel
def _largest(form, p, low, high):
    """Largest stress of a piece, from 33 samples as in the table of one section."""
    most = 0.0
    for i in range(33):
        strain = high if i == 32 else low + (high - low) * i / 32.0
        most = max(most, abs(_stress(form, p, strain)))
    return most


@kernel
def _fit(form, p, a, b, end, largest, row):
    """Write the cubic of one part of a smooth piece into ``row``; whether it is close enough."""
    width = b - a
    s0, s1 = _stress(form, p, a), _stress(form, p, min(a + width * _LOBATTO[1], end))
    s2, s3 = _stress(form, p, min(a + width * _LOBATTO[2], end)), _stress(form, p, min(b, end))
    row[0] = a
    scale = 1.0
    for k in range(4):
        row[1 + k] = (_TO[k, 0] * s0 + _TO[k, 1] * s1 + _TO[k, 2] * s2 + _TO[k, 3] * s3) / scale
        scale *= width
    for probe in _PROBE:
        t = width * probe
        miss = row[1] + t * (row[2] + t * (row[3] + t * row[4])) - _stress(form, p, a + t)
        if abs(miss) > _TOLERANCE * largest:
            return False
    return True


@kernel
def _smooth(form, p, low, high, largest, table, n):
    """Rows of a smooth piece: parts are halved, from the left, until their cubics are close enough."""
    if high - low <= _NARROWEST:
        return n
    waiting = np.empty((_FIRST_PARTS + _MOST_HALVINGS, 3))
    left = _FIRST_PARTS
    step = (high - low) / _FIRST_PARTS
    for i in range(_FIRST_PARTS):
        place = _FIRST_PARTS - 1 - i
        waiting[place, 0], waiting[place, 1], waiting[place, 2] = low + i * step, low + (i + 1) * step, 0.0
    waiting[0, 1] = high
    while left > 0:
        left -= 1
        a, b, halvings = waiting[left, 0], waiting[left, 1], waiting[left, 2]
        if n >= len(table):
            return n
        if _fit(form, p, a, b, high, largest, table[n]) or halvings >= _MOST_HALVINGS:
            n += 1
            continue
        middle = 0.5 * (a + b)
        waiting[left, 0], waiting[left, 1], waiting[left, 2] = middle, b, halvings + 1.0
        waiting[left + 1, 0], waiting[left + 1, 1], waiting[left + 1, 2] = a, middle, halvings + 1.0
        left += 2
    return n


@kernel
def _line(low, high, stress_low, stress_high, table, n):
    if high - low <= _NARROWEST or n >= len(table):
        return n
    table[n, 0], table[n, 1], table[n, 2] = low, stress_low, (stress_high - stress_low) / (high - low)
    table[n, 3] = table[n, 4] = 0.0
    return n + 1


@kernel
def _nothing(low, table, n):
    if n >= len(table):
        return n + 1
    table[n, 0] = low
    table[n, 1:5] = 0.0
    return n + 1


@kernel
def _finish(table, n):
    """Integrals from strain 0 of the first ``n`` rows, summed outward from zero; 0 where they were too
    many.
    """
    if n > len(table):
        return 0
    table[:n, 5:8] = 0.0
    zero = 0
    while zero + 1 < n and table[zero + 1, 0] <= 0.0:
        zero += 1
    _add(table, zero, 0.0, 1.0, table[zero])
    table[zero, 5:8] *= -1.0
    for i in range(zero + 1, n):
        table[i, 5:8] = table[i - 1, 5:8]
        _add(table, i - 1, table[i, 0], 1.0, table[i])
    for i in range(zero - 1, -1, -1):
        table[i, 5:8] = table[i + 1, 5:8]
        _add(table, i, table[i + 1, 0], -1.0, table[i])
    return n


@kernel
def _add(table, row, strain, sign, into):
    """Add sign × the integrals of stress, stress·strain, stress·strain² over a row up to ``strain``."""
    e = table[row, 0]
    t = strain - e
    c0, c1, c2, c3 = table[row, 1], table[row, 2], table[row, 3], table[row, 4]
    j0 = t * (c0 + t * (c1 / 2 + t * (c2 / 3 + t * c3 / 4)))
    j1 = t * t * (c0 / 2 + t * (c1 / 3 + t * (c2 / 4 + t * c3 / 5)))
    j2 = t * t * t * (c0 / 3 + t * (c1 / 4 + t * (c2 / 5 + t * c3 / 6)))
    into[5] += sign * j0
    into[6] += sign * (e * j0 + j1)
    into[7] += sign * (e * e * j0 + 2 * e * j1 + j2)


@kernel
def concrete_rows(law, tension, strength, modulus, peak_strain, tensile, fracture_energy, band, table):
    """Compression law and tension law of one concrete as rows of ``table``; how many."""
    k = modulus * peak_strain / strength
    if not (strength > 0.0 and k > 1.0 + 1e-6):
        return 0
    n = _nothing(-_FAR, table, 0)
    if law == POPOVICS:
        n = _popovics_rows(strength, peak_strain, k, table, n)
    else:
        n = _en_rows(strength, peak_strain, k, table, n)
    if tension == NO_TENSION:
        return _finish(table, _nothing(0.0, table, n))
    first = tensile / modulus
    if not tensile > 0.0:
        return 0
    n = _line(0.0, first, 0.0, tensile, table, n)
    if tension == BRITTLE:
        return _finish(table, _nothing(first, table, n))
    if not (fracture_energy > 0.0 and band > 0.0):
        return 0
    w1 = fracture_energy / tensile
    end = first
    e0, s0 = first, tensile
    for w, s1 in ((w1, 0.2 * tensile), (5.0 * w1, 0.0)):
        e1 = s1 / modulus + w / band
        a, sa = e0, s0
        if e1 > first and e1 > e0:
            if a < first:
                a, sa = first, s0 + (s1 - s0) * (first - e0) / (e1 - e0)
            n = _line(a, e1, sa, s1, table, n)
            end = e1
        e0, s0 = e1, s1
    return _finish(table, _nothing(end, table, n))


@kernel
def _popovics_rows(strength, peak_strain, k, table, n):
    rise = np.array([strength, peak_strain, k / (k - 1.0), 1.0])
    fall = np.array([strength, peak_strain, _fall_exponent(strength), _fall_factor(strength)])
    low, high = peak_strain, max(_FURTHEST, peak_strain)
    if _stress(_FORM_POPOVICS, fall, -high) >= -_SPENT * strength:
        for _ in range(60):
            middle = 0.5 * (low + high)
            if _stress(_FORM_POPOVICS, fall, -middle) < -_SPENT * strength:
                low = middle
            else:
                high = middle
    end = max(high, 1.05 * peak_strain)
    n = _smooth(_FORM_POPOVICS, fall, -end, -peak_strain, strength, table, n)
    return _smooth(_FORM_POPOVICS, rise, -peak_strain, 0.0, strength, table, n)


@kernel
def _en_rows(strength, peak_strain, k, table, n):
    body = np.array([strength, peak_strain, k, 0.0])
    end = min(_ultimate_strain(strength), k * peak_strain)
    last = max(end, peak_strain)
    left = _stress(_FORM_SARGIN, body, -last)
    if left < -1e-6 * strength:
        n = _line(-last - _CRUSHING, -last, 0.0, left, table, n)
    if end > peak_strain:
        n = _smooth(_FORM_SARGIN, body, -end, -peak_strain, strength, table, n)
    return _smooth(_FORM_SARGIN, body, -peak_strain, 0.0, strength, table, n)


@kernel
def steel_rows(kind, modulus, yield_strength, tensile, strain_at_max, hardening_strain, table):
    """One steel as rows of ``table``; how many."""
    if not (modulus > 0.0 and tensile > 0.0 and yield_strength > 0.0):
        return 0
    n = _nothing(-_FAR, table, 0)
    if kind == LINEAR:
        rupture = tensile / modulus
        n = _line(0.0, rupture, 0.0, tensile, table, n)
        return _finish(table, _nothing(rupture, table, n))
    if strain_at_max < _HELD:
        n = _line(-_HELD, -strain_at_max, -tensile, -tensile, table, n)
    if kind == STRAND:
        n = _strand_rows(modulus, yield_strength, tensile, strain_at_max, table, n)
    else:
        n = _bar_rows(kind, modulus, yield_strength, tensile, strain_at_max, hardening_strain, table, n)
    return _finish(table, _nothing(strain_at_max, table, n)) if n > 0 else 0


@kernel
def _bar_rows(kind, modulus, fy, fu, last, hardening_strain, table, n):
    first = fy / modulus
    if not last > first:
        return 0
    if kind == BILINEAR or fu <= fy:
        top = fu if kind == BILINEAR else fy
        n = _line(-last, -first, -top, -fy, table, n)
        n = _line(-first, first, -fy, fy, table, n)
        return _line(first, last, fy, top, table, n)
    start = max(hardening_strain, first)
    if start >= last:
        return 0
    p = np.array([start, last, fy, fu])
    n = _smooth(_FORM_MIRROR, p, -last, -start, fu, table, n)
    if start > first:
        n = _line(-start, -first, -fy, -fy, table, n)
    n = _line(-first, first, -fy, fy, table, n)
    if start > first:
        n = _line(first, start, fy, fy, table, n)
    return _smooth(_FORM_HARDENING, p, start, last, fu, table, n)


@kernel
def _strand_rows(modulus, proof, tensile, last, table, n):
    if not (proof < tensile and last > _PROOF and modulus * _PROOF > proof):
        return 0
    knee = min(_KNEE * proof, 0.5 * (proof + tensile))
    low, high = 1.0, 100.0
    if _strand_excess(modulus, proof, tensile, last, knee, low) > 0:
        return 0
    if _strand_excess(modulus, proof, tensile, last, knee, high) < 0:
        return 0
    for _ in range(100):
        middle = 0.5 * (low + high)
        if middle in (low, high):
            break
        if _strand_excess(modulus, proof, tensile, last, knee, middle) < 0:
            low = middle
        else:
            high = middle
    p = np.array([modulus, _strand_rest(modulus, tensile, last, knee, high), knee, high])
    most = _largest(_FORM_POWER, p, 0.0, last)
    n = _smooth(_FORM_POWER, p, -last, 0.0, most, table, n)
    return _smooth(_FORM_POWER, p, 0.0, last, most, table, n)


@kernel
def _strand_rest(modulus, tensile, last, knee, r):
    """Q of the power formula that passes through the last point for a given R."""
    elastic = modulus * last
    g = (1.0 + (elastic / knee) ** r) ** (-1.0 / r)
    return (tensile / elastic - g) / (1.0 - g)


@kernel
def _strand_excess(modulus, proof, tensile, last, knee, r):
    q = _strand_rest(modulus, tensile, last, knee, r)
    return _power_formula(_PROOF, modulus, q, knee, r) - proof
