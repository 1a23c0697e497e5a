"""Following a push beside the opening: one key for most things, every entry on disk at once."""
