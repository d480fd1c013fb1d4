"""Heat and the steel: relaxation that heat curing brings forward, EN 1992-1-1:2004 10.3.2.1."""

from __future__ import annotations

import numpy as np

from soffit.materials.ageing.templog import TemperatureLog

HOTTEST = 80.0


def relaxation_age(log: TemperatureLog, stressed: float = 0.0) -> float:
    """teq = 1.14^(Tmax − 20)/(Tmax − 20) Σ (T − 20) Δt: time to be added to that under stress in the relaxation
    formula.

    EN 1992-1-1:2004 (10.2) (*from memory*). ``stressed``: days since casting from which the steel is under stress (zero
    or below: before casting). Result in **days**, for ``Ageing.relaxation`` (the standard prints hours). Temperatures
    at or below 20 °C add nothing; a log that never passes 20 °C gives zero. The log should end when heating does.
    Raises ``ValueError`` above 80 °C, where the exponential has no support.
    """
    hot = np.maximum(log.temperatures - 20.0, 0.0)
    over = float(hot.max())
    if over > HOTTEST - 20.0:
        raise ValueError(
            f"relaxation under heat is computed up to {HOTTEST:g} °C, and the log has {over + 20.0:.0f} °C: "
            "ask for the strand's own test"
        )
    if over == 0.0:
        return 0.0
    # the part of each interval that lies after stressing; its temperature runs straight
    starts = np.maximum(log.times[:-1], stressed)
    spans = np.maximum(log.times[1:] - starts, 0.0)
    first = np.interp(starts, log.times, hot)
    return float(1.14**over / over * np.sum(0.5 * (first + hot[1:]) * spans))
