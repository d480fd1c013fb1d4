"""The document model: one pydantic model for each table of the beam file, quantities already in base units.

Names follow the file, but for words that Python keeps to itself (``yield``, ``from``, ``class``), which stand
as aliases. Nothing here looks at two keys at once; that is the work of ``soffit.beamfile.resolve``.
"""
