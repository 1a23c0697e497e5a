"""Many sheets planned one after the other, a row of a table for each."""
