"""Commands that write a file: a chart, a sheet, a pattern in clean notation."""
