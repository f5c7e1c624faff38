"""What front ends draw of a session."""
