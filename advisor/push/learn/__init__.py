"""What the logs of all jobs teach: chances of techniques and one friction factor."""
