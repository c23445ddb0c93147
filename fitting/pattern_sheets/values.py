from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTitle:
    """What the sheets are of: `made` says how the pieces came about, `printed_on` is the date in words.

    `version`: of the paper pattern, which counts up with every alteration that reaches it.
    """

    garment: str
    made: str
    printed_on: str
    allowance: str = ""
    version: str = ""

    @property
    def line(self) -> str:
        return " · ".join(filter(None, (self.garment, self.version, self.made, self.printed_on)))
