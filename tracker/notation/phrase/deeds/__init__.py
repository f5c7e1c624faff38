"""What is done beside stitches in places."""
