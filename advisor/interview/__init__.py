"""The question session: which question is worth most, and what its answer puts on the sheet."""
