"""What a keyboard must do, said a second time, in Python and from the model alone."""
