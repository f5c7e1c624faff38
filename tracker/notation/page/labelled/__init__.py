"""Labels of rows: what a row is called, and which rows a label stands for."""
