"""What is heard before any word is: where speech begins and ends, its embeddings, where a word lies in it."""
