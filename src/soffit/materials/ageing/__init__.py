"""How concrete and stressed steel change with time: one complete named model a standard, and maturity under heat."""
