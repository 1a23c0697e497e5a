"""Practice for trainees: drills and a simulated push, by the planner's own rules, mechanics and draws."""
