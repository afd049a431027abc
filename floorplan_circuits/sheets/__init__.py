"""Sheets of paper, one file each, made of ink."""
