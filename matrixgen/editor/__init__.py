"""What an editor asks of a .keys file while it is written; nothing here knows of a protocol."""
