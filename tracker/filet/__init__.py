"""From a drawing to a pattern: squares come in, as letters or a picture, and a written filet pattern goes out."""
