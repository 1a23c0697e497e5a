"""What is handed on: finds and marks with their places, the report as pages, the log as tables."""
