#!/usr/bin/python3
# SPDX-License-Identifier: MIT
# Copyright the fogproof authors
#
# Negatives computed from photographs, as histograms of their densities above base + fog:
#   negatives.py FOLDER PHOTOGRAPH...
# writes FOLDER/NN.txt, a line "density pixels" for each of the densities that occur. Film and exposure change
# from photograph to photograph.
import sys
from pathlib import Path

import numpy

sys.path.insert(0, str(Path(__file__).parent.parent / "suspicion"))
from scans import FILMS, LUMINANCE, developed, photograph

STEP = 0.005  # of density

folder = Path(sys.argv[1])
for number, path in enumerate(sys.argv[2:]):
    slope, stops = FILMS[number % len(FILMS)][:2]
    density = developed(photograph(path) @ LUMINANCE, slope, stops)
    steps, pixels = numpy.unique(numpy.round(density / STEP).astype(int), return_counts=True)
    rows = [f"{STEP * step:.3f} {count}" for step, count in zip(steps, pixels)]
    (folder / f"{number:02}.txt").write_text("\n".join(rows) + "\n")
