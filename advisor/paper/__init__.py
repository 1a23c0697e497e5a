"""Pages for printing: one sans-serif font that is carried along, black on white, the same bytes always."""
