"""Outline and layers of steel to the equilibrium of a section."""
