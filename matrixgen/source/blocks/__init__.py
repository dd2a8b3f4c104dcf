"""The readers of the blocks: from a tree's nodes to the records of the model."""
