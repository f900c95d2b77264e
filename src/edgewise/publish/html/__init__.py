"""The page: a lesson as one HTML file."""
