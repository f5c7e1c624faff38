"""What is worked several times."""
