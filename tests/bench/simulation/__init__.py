"""How good the planner's order of attempts is, told by a simulation that shares only its mechanics.

The planner is asked through `advisor.plan.plan` and believed in nothing but its advice: which way in, with
what gear, which techniques and how often at which passage. Everything else (the hidden truth, the march of
the push, the luck of each try, minutes and losses) is worked out here again, from the site, the kit and the
graded tables.
"""
