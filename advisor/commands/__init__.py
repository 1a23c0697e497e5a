"""One module a command: `add` says its options, `run` does it. Heavy imports wait inside `run`."""
