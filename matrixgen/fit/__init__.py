"""Before buying: which controllers a layout fits, and in which matrices it can be wired."""
