"""Nests the shapes it reads and prints every better lay as it is found: a process of its own.

The solver cannot be stopped from within or bounded to a fraction of a second, and what it does not like it
answers with a panic that no `except Exception` catches. Whoever starts this file reads its lines and ends it
at will. It is run by its path and imports nothing of the program, so that it starts at once.

In: {"height", "seconds", "seed", "shapes": [{"points", "copies", "turns"}]}; the strip runs along x.
Out, a line for each lay: [[shape, turn, x, y], …], each shape turned about its origin, then moved.
"""

import json
import sys
import threading
from typing import Any


def main() -> None:
    import spyrrow

    asked: dict[str, Any] = json.load(sys.stdin)
    items = [
        spyrrow.Item(
            str(number), [tuple(point) for point in shape["points"]], shape["copies"], shape["turns"]
        )
        for number, shape in enumerate(asked["shapes"])
    ]
    instance = spyrrow.StripPackingInstance("lay", asked["height"], items)
    config = spyrrow.StripPackingConfig(total_computation_time=asked["seconds"], seed=asked["seed"])
    queue = spyrrow.ProgressQueue()
    sound = [spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final]
    done = threading.Event()

    def tell() -> None:
        ended = False
        while not ended:
            ended = done.wait(0.05)
            found = [solution for kind, solution in queue.drain() if kind in sound]
            if found:
                _print(min(found, key=lambda solution: solution.width))

    teller = threading.Thread(target=tell)
    teller.start()
    try:
        last = instance.solve(config, queue)
    finally:
        done.set()
        teller.join()
    _print(last)


def _print(solution: Any) -> None:
    placed = [[int(item.id), item.rotation, *item.translation] for item in solution.placed_items]
    print(json.dumps(placed), flush=True)


if __name__ == "__main__":
    main()
