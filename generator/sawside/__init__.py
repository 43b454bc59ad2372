"""Sawside: per-machine saw set-up guides, sheets and safety notices from YAML."""

__version__ = "0.1.0"
