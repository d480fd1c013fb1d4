"""Predictions against measured beams: ``python -m evidence`` runs every test at hand and writes docs/evidence.md."""
