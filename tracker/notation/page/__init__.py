"""The page: typography put right, lines into blocks, labels of rows, sizes."""
