"""Verification by the standards: a folder each, every formula with its clause."""
