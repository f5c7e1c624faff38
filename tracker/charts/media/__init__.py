"""What a chart is written as, a file for each: sheets come in, bytes go out."""
