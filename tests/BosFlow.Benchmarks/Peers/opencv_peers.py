"""Measures displacement with OpenCV as Debian builds it, on pictures that the benchmark left in a folder.

Reads one request a line, "METHOD THREADS", and answers with one line of JSON: the seconds for all frames. The
displacement of every frame at the compared nodes goes into result.f32: u of frame 0, v of frame 0, u of frame 1, ...
"""

import json
import sys
import time
from pathlib import Path

import cv2
import numpy

# A shorter timing says more about what else the machine does.
LEAST_SECONDS = 1.0


def window_means(flow, task):
    """Mean of a dense flow over each compared window, by running sums in double precision."""
    sums = numpy.pad(flow.astype(numpy.float64).cumsum(0).cumsum(1), ((1, 0), (1, 0), (0, 0)))
    left, top = numpy.array(task["left"]), numpy.array(task["top"])
    right, bottom = left + task["window"], top + task["window"]
    total = sums[bottom, right] - sums[top, right] - sums[bottom, left] + sums[top, left]
    return (total / task["window"] ** 2).astype(numpy.float32).T


def farneback(reference, frame, _):
    start = time.perf_counter()
    flow = cv2.calcOpticalFlowFarneback(reference, frame, None, 0.5, 3, 32, 3, 5, 1.2, 0)
    return time.perf_counter() - start, flow


def dis(preset):
    def measure(reference, frame, state):
        if preset not in state:
            state[preset] = cv2.DISOpticalFlow_create(preset)
        start = time.perf_counter()
        flow = state[preset].calc(reference, frame, None)
        return time.perf_counter() - start, flow

    return measure


DENSE = {
    "farneback": farneback,
    "dis": dis(cv2.DISOPTICAL_FLOW_PRESET_MEDIUM),
    "dis-fast": dis(cv2.DISOPTICAL_FLOW_PRESET_FAST),
}


def phase_correlation(reference, frame, shifts, task):
    side = task["window"]
    reference, frame = reference.astype(numpy.float32), frame.astype(numpy.float32)
    hann = cv2.createHanningWindow((side, side), cv2.CV_32F)
    result = numpy.empty((2, len(task["left"])), numpy.float32)
    start = time.perf_counter()
    for node, (x, y, dx, dy) in enumerate(zip(task["left"], task["top"], *shifts)):
        here = reference[y : y + side, x : x + side]
        there = frame[y + dy : y + dy + side, x + dx : x + dx + side]
        (u, v), _ = cv2.phaseCorrelate(here, there, hann)
        result[0, node] = dx + u
        result[1, node] = dy + v
    return time.perf_counter() - start, result


def main():
    folder = Path(sys.argv[1])
    task = json.loads((folder / "task.json").read_text())
    shape = (task["height"], task["width"])
    reference = numpy.fromfile(folder / "reference.u8", numpy.uint8).reshape(shape)
    frames = [numpy.fromfile(folder / f"frame{i}.u8", numpy.uint8).reshape(shape) for i in range(task["frames"])]
    state = {}
    print(json.dumps({"opencv": cv2.__version__}), flush=True)
    for line in sys.stdin:
        method, threads = line.split()
        cv2.setNumThreads(int(threads))
        total, results = 0.0, []
        # One frame that is not counted, so that caches and memory are as in the middle of a long run.
        if method == "phase":
            phase_correlation(reference, frames[0], task["shifts"][0], task)
        else:
            DENSE[method](reference, frames[0], state)
        repeats = 0
        while total < LEAST_SECONDS:
            repeats += 1
            results = []
            for index, frame in enumerate(frames):
                if method == "phase":
                    seconds, result = phase_correlation(reference, frame, task["shifts"][index], task)
                    results.append(result)
                else:
                    seconds, flow = DENSE[method](reference, frame, state)
                    results.append(flow)
                total += seconds
        if method != "phase":
            results = [window_means(flow, task) for flow in results]
        numpy.concatenate(results).astype(numpy.float32).tofile(folder / "result.f32")
        print(json.dumps({"seconds": total / repeats}), flush=True)


main()
