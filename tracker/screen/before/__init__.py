"""What comes before a piece is on the screen: the guided start, and the shelf that a piece is picked from."""
