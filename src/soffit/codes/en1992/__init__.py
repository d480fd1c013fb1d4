"""EN 1992: a module a subject, every formula with its clause."""
