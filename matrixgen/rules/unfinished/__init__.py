"""What a file may leave open until it is built: no mistakes, but a build needs them all."""
