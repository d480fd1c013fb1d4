"""Figures and stories of a life. Nothing below this floor draws or writes prose."""
