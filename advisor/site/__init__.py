"""A building's drain system: the sheet that describes it, and the network that it stands for."""
