"""A head that goes no further: what may be tried, what must not be, and how it comes out again."""
