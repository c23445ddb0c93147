"""Proportional drafts: diagrams drawn for one body, whose figures are parts of a measure of that body.

A draft drawn for half a breast of 18 in is read with a rule on which the wearer's own half breast is divided
into 18 parts. Lengths that do not grow with that measure are marked in plain inches. From memory: so cutters'
manuals of the nineteenth century use their graduated rules.
"""

from dataclasses import dataclass

from catalogue.lengths.calculation.doubt import Doubtful, doubtful

DRAFT_SOURCE = "draft.measure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """Of which body measure (`line`) figures are parts, or of its half; `drawn_for_mm`: what that was.

    It was so much on the body that the draft was drawn for: there a part is an inch.
    """

    line: str
    drawn_for_mm: float
    is_half: bool = False

    def share_mm(self, body_mm: float) -> float:
        """What of a body measure the draft is in parts of: half of it, or the whole."""
        return body_mm / 2 if self.is_half else body_mm

    def factor(self, body_mm: float, doubt_mm: float = 0.0) -> Doubtful:
        """How many times as long a figure in parts is for this body as it is drawn.

        `body_mm` is the whole measure; its doubt is one and the same error in every figure.
        """
        share = doubtful(self.share_mm(body_mm), self.share_mm(doubt_mm), DRAFT_SOURCE)
        return share / self.drawn_for_mm

    def length(
        self, drawn_mm: float, *, body_mm: float, doubt_mm: float = 0.0, is_plain: bool = False
    ) -> Doubtful:
        """A length of the draft at full size for this body, with the doubt that the measure brings in."""
        return drawn_mm if is_plain else drawn_mm * self.factor(body_mm, doubt_mm)
