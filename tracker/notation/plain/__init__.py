"""What designers say in words of their own, put in the trade's."""
