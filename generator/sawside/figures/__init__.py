"""Drawings: shapes and labels in millimetres of paper, how they become SVG, and the safety signs."""
