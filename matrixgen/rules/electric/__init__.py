"""Rules on the matrix as an electrical network: ghosts, levels, currents."""
