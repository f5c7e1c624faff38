"""What is wrong with rows that were worked: a file for each thing that is looked at."""
