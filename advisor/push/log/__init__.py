"""The log of a push: the kinds of its entries, the file, and what the operator told as typed sightings."""
