"""What becomes of a push: geometry of each passage, tries of each technique, and the whole route."""
