"""The ear's figures beside what is wanted of them."""
