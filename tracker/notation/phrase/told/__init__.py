"""What is told beside the stitches."""
