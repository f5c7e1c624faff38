"""Where things stand on a chart: a fabric comes in, sheets go out. Nothing here knows a file format."""
