from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTitle:
    """What the sheets are of: `made` says how the pieces came about, `printed_on` is the date in words."""

    garment: str
    made: str
    printed_on: str
    allowance: str = ""

    @property
    def line(self) -> str:
        return f"{self.garment} · {self.made} · {self.printed_on}"
