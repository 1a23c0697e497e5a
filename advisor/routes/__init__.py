"""Every way from every opening to the target, as ordered lists of passages."""
