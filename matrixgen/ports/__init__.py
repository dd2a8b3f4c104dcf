"""Serial ports over USB: which there are, how one is opened, who may."""
