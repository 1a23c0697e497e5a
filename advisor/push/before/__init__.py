"""What other pushes of the job showed: stops, finds, what was looked at and which way they went."""
