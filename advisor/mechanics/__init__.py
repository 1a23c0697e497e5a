"""Mechanics of a head and a push rod in a pipe: pure functions of numbers, all in SI."""
