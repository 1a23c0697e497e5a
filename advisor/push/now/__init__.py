"""A push as it stands, worked out from its log: where the head is, what comes next, what was seen."""
