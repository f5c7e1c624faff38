"""What phrases are made of: names of stitches, turning chains and landings, squares of filet, words that follow on."""
