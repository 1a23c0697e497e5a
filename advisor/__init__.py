"""A push-planning advisor: which opening, which fitting will stop the head, what passes it, and why."""
