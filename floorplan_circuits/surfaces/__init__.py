"""Surfaces: each only knows how to put ink on its own ground."""
