"""Reasons that can be argued with: how, why not, what if, what matters, and what would change it."""
