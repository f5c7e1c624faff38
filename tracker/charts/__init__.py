"""Charts: a worked fabric comes in, a drawing goes out, and from the drawing SVG, PNG, PDF or plain letters."""
