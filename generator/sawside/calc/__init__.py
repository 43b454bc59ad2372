"""Formulas: pure functions of SI floats that import `math` and each other only, usable without the rest."""
