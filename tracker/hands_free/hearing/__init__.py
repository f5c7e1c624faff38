"""The maker's own ear: their voice taught to it, their words, their room, and a model of another engine."""
