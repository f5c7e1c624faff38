"""What a row takes from the rows before it: their work again, their shaping, a chain handed on, their tiles."""
