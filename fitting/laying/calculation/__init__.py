"""The lay: pieces on a cloth of a given width, and the length to buy.

Read in this order: `cloth`, its `repeat` and `piece` say what is asked for; `lines` makes pieces of what was
traced; `piecing` cuts what is wider than the cloth; `strip` holds pieces as they lie; `boxes` packs their
boxes, at once and always; `search` says what ends a search; `nesting` has pieces nested in a process by
`nest`; `in_turn` lays those that have fixed places, at a fold or a repeat; `settling` slides pieces
together, free of overlap, by the `trapezoids` they are cut into; `wrapping` spares all of these the finest
points; `lay_out` keeps the shortest lay that `strip` finds sound.
"""
