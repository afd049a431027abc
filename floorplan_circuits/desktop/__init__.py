"""The window: Qt only, and nothing about homes is computed here."""
