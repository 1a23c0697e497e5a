"""Practice at the terminal."""
