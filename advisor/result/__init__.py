"""The plan as plain data: what the screen, the card and --json show."""
