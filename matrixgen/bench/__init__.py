"""A keyboard at the bench: what its pins see, what faults explain it, how it is wired."""
