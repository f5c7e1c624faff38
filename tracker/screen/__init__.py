"""The screen: a View comes in, a terminal page to be glanced at goes out. Textual is known here and nowhere else."""
