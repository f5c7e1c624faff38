"""Where the sample patterns are: takes nothing, gives each sample's name and its file.

They stand in the folder `patterns/` of a checkout and travel inside an installed rowteller; a copy that has
neither gives an empty mapping, never an exception.
"""

from pathlib import Path


def samples() -> dict[str, Path]:
    """The sample patterns by name ("harbour-windows"), in the order of their names."""
    here = Path(__file__).resolve().parent
    # Installed, the folder lies inside the package; in a checkout it lies beside it.
    for folder in (here / "patterns", here.parent / "patterns"):
        if folder.is_dir():
            return {file.stem: file for file in sorted(folder.glob("*.txt"))}
    return {}
