"""A job's folder on disk, and the user's own folder: where things are kept between commands."""
