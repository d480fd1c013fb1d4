"""AASHTO LRFD: a module a subject, every formula with its clause."""
