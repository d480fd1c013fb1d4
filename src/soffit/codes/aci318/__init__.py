"""ACI 318-19: a module a subject, every formula with its clause."""
