"""The matrix as an electrical network: ghosts, levels, settling, and the figures behind them."""
