"""What keys do in time: the specification of the firmware's engine, as a model that runs.

`Machine` is the keyboard; `behaviours.py` says what each behaviour does. Nothing here knows how the
C engine works: what is down and which layers are on is not kept up to date, but worked out each
time it is asked for.
"""

from matrixgen.behaviour.machine import Machine
from matrixgen.behaviour.state import Event
