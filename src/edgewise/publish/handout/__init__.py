"""The handout: a lesson on paper."""
