"""Laws: an exact formula for a count, and how far it was tried."""
