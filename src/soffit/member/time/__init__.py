"""A beam over time: what its making, its loads and its years do to stress, prestress and deflection."""
