"""Whether bars are held where they are pulled, EN 1992-1-1:2004 8.4 and 9.2.1; *from memory*."""

from __future__ import annotations

from soffit.codes.en1992.bond import developed

__all__ = ["developed"]
