"""The faces: command line, browser pages and figures; no physics."""

import os

# Matrices as small as a camera's are only slowed down by threads, several times over on a busy
# machine; numpy must know before it is first imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
