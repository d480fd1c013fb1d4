"""Creep of sealed cylinders (Kommendant, Polivka and Pirtz 1976) by every ageing model."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from evidence.table import given, rows
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.models import all_models
from soffit.materials.curve import Array

SEALED = Casting(45.0, 100.0, 76.2, "S", cured_until=28.0, specified=45.0)
"""Cylinders of 152.4 mm, fc28 45 MPa, slow cement, as the file's head says; 100 % humidity stands for the seal."""


@dataclass(frozen=True)
class Sealed:
    """Readings under a stress that is kept, and what the models say of them, (readings,)."""

    loaded: Array
    """Age at loading, days."""
    days: Array
    """Under load."""
    measured: Array
    """Compliance J, strain a stress with the elastic part, 10⁻⁶/MPa."""
    predicted: dict[str, Array]
    """By key of the model, 10⁻⁶/MPa."""


def sealed() -> Sealed:
    table = [r for r in rows("creep_sealed_kommendant_1976") if given(r, "days_since_loading") > 0.0]
    loaded, days, measured, stress = (
        np.array([given(r, key) for r in table])
        for key in ("t0_days", "days_since_loading", "J_1e6_per_MPa", "stress_MPa")
    )
    models = all_models(SEALED)
    said = {key: 1e6 * m.compliance(loaded + days, loaded, stress) for key, m in models.items()}
    return Sealed(loaded, days, measured, said)
