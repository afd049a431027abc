"""Open and save: the one JSON file of a home, its bounds, its schema, its pictures."""
