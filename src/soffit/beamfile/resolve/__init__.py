"""Validated tables to the parts of ``member.Beam``: names resolved, geometry checked, assumptions noted.

Every builder takes a table and its ``Spot``, tells all its faults there, and returns ``None`` where there is
nothing sound to return.
"""
