"""What feeds an ear: the microphone, recordings."""
