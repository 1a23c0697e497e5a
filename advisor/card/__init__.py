"""The route card: one page of the plan that goes to the opening in a wet pocket."""
