"""The wording of a panel's lines."""
