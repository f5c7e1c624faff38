"""The signs of a chart: as paths, as letters, and what they mean."""
