"""The beam file: a TOML text that describes one beam.

>>> from soffit.beamfile import read_text, starter
>>> read_text(starter("bars")).bars[0].count
2
"""

from __future__ import annotations

from soffit.beamfile.reading import read, read_text
from soffit.beamfile.reference import reference
from soffit.beamfile.schema import schema
from soffit.beamfile.starters import KINDS, starter

__all__ = ["KINDS", "read", "read_text", "reference", "schema", "starter"]
