"""A pattern on paper: a worked pattern comes in, a sheet to print and tick off goes out, as PDF, web page or lines."""
