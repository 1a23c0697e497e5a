"""Beside the opening: the log of a push, what was found and where, the report, and what pushes teach."""
