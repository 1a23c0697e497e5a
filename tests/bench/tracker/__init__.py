"""A simulator of pushes, written apart from the filter: its own networks, head, eyes, counter and water.

It shares no code with advisor/push: the filter sees only a sheet of text and what an operator tells.
"""
