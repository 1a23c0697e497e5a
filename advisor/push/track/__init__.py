"""Where the head may be: the ways of the rod in cells, what is seen on each, and the filter over them."""
