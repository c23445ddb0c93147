"""Nests the shapes it reads and prints every better lay as it is found: a process of its own.

The solver cannot be stopped from within or bounded to a fraction of a second, and what it does not like it
answers with a panic that no `except Exception` catches. Whoever starts this file reads its lines and ends it
at will. It is run by its path and imports nothing of the program, so that it starts at once.

The solver has no count of tries, but it reports each: with two workers and one seed they are the same on
every machine while it explores. So what it reports then is counted here, and ends it. What it does
afterwards, it does by the clock, and that is left out.

In: {"height", "seconds", "seed", "tries", "failures", "shapes": [{"points", "copies", "turns"}]}; the strip
runs along x. It ends after so many tries, or after so many of them that failed.
Out, a line for each lay: [[shape, turn, x, y], …], each shape turned about its origin, then moved.
"""

import json
import os
import sys
import threading
from typing import Any


def main() -> None:
    import spyrrow

    kinds = spyrrow.ReportType
    explored = [kinds.ExplFeas, kinds.ExplInfeas, kinds.ExplImproving]
    asked: dict[str, Any] = json.load(sys.stdin)
    items = [
        spyrrow.Item(
            str(number), [tuple(point) for point in shape["points"]], shape["copies"], shape["turns"]
        )
        for number, shape in enumerate(asked["shapes"])
    ]
    instance = spyrrow.StripPackingInstance("lay", asked["height"], items)
    times = {"total_computation_time": None, "exploration_time": asked["seconds"], "compression_time": 1}
    config = spyrrow.StripPackingConfig(**times, num_workers=2, seed=asked["seed"])
    queue, done = spyrrow.ProgressQueue(), threading.Event()

    def tell() -> None:
        tries, failures, ended = asked["tries"], asked["failures"], False
        while not ended:
            ended, best = done.wait(0.05), None
            for kind, solution in queue.drain():
                if ended := tries <= 0 or failures <= 0 or kind not in explored:
                    break
                best = solution if kind == explored[0] else best
                tries, failures = tries - 1, failures - (kind == explored[1])
            if best:
                _print(best)
        # The solver cannot be stopped from within: the process ends under it.
        sys.stdout.flush()
        os._exit(0)

    threading.Thread(target=tell).start()
    try:
        instance.solve(config, queue)
    finally:
        done.set()


def _print(solution: Any) -> None:
    placed = [[int(item.id), item.rotation, *item.translation] for item in solution.placed_items]
    print(json.dumps(placed), flush=True)


if __name__ == "__main__":
    main()
