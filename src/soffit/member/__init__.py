"""Spans, supports, loads and tendons to the life of the beam."""
