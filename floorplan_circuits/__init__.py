"""Floorplan Circuits: which breaker feeds what in a home, and every box that more than one circuit enters."""

__version__ = "0.1.0"
