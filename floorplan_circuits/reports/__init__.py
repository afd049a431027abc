"""What the commands say, as text and as JSON: one module a command, by its name."""
