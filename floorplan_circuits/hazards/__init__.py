"""The dangers, one small module a family."""
