"""Everything that prints or asks: the only users of rich and questionary."""
