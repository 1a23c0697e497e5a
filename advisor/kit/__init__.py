"""What is on the truck: heads, springs, rods and guides, and the loadouts they make."""
