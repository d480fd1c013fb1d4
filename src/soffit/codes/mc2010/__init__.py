"""fib Model Code for Concrete Structures 2010, where it adds to EN 1992-1-1."""
