"""Stress–strain laws of concrete and steel, and the properties they need."""
