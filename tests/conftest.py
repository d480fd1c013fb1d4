"""Puts this folder on the path, so that tests of every kind can cast the same specimens (``specimens.py``)."""
