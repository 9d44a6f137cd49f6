"""Solves one sparse system with SciPy: folder, method (spsolve or cg), rounds. Prints the version and the seconds of each round as JSON."""
import json
import sys
import time

import numpy as np
import scipy
from scipy.sparse import csc_matrix, csr_matrix, diags
from scipy.sparse.linalg import cg, spsolve

folder, method, rounds = sys.argv[1], sys.argv[2], int(sys.argv[3])
start = np.fromfile(folder + "/start.i32", dtype=np.int32)
column = np.fromfile(folder + "/column.i32", dtype=np.int32)
value = np.fromfile(folder + "/value.f64")
right = np.fromfile(folder + "/right.f64")
matrix = csr_matrix((value, column, start))
seconds = []
for _ in range(rounds):
    begin = time.perf_counter()
    if method == "spsolve":
        solution = spsolve(csc_matrix(matrix), right, permc_spec="MMD_AT_PLUS_A")
    else:
        solution, status = cg(matrix, right, tol=1e-10, M=diags(1 / matrix.diagonal()), maxiter=20000)
        if status != 0:
            sys.exit("cg did not converge")
    seconds.append(time.perf_counter() - begin)
solution.tofile(folder + "/solution.f64")
print(json.dumps({"version": scipy.__version__, "seconds": seconds}))
