"""How the beam is built: what the stressing crew works from, and what it wrote down."""
