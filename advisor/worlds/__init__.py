"""What is not known, drawn once: seeded worlds that every route and loadout share."""
