"""What a maker is asked at the bench, and what is made of the answers; no terminal here."""
