"""How much of fy a bar has developed at a cut: one place where it is decided for the strength checks."""

from __future__ import annotations

from soffit.codes.aci318.development import developed

__all__ = ["developed"]
