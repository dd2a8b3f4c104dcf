"""What a stranger's repository may try: nothing leaks, nothing hangs, nothing drives a terminal."""
