"""Invented homes: what the sample files say, as readable code."""
