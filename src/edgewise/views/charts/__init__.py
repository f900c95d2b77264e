"""Charts: a quantity over a parameter, or against another."""
