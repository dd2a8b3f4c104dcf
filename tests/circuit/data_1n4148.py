"""Forward voltage of the 1N4148 off its datasheet: Vishay 81857 rev. 1.4 (06-Jul-17), figure 1.

Typical, in mA, degrees Celsius and volts, digitised from the vector drawing to about 5 mV.
"""

FIGURE_1 = (
    (0.1, 25, 0.513),
    (1, 25, 0.624),
    (10, 25, 0.742),
    (100, 25, 0.929),
    (0.1, -30, 0.627),
    (1, -30, 0.723),
    (10, -30, 0.812),
    (0.1, 0, 0.565),
    (1, 0, 0.669),
    (10, 0, 0.774),
    (0.1, 60, 0.440),
    (1, 60, 0.562),
    (10, 60, 0.698),
)

FIGURE_2_UPPER = (
    (0.1, 0.539),
    (0.2, 0.575),
    (0.5, 0.625),
    (1, 0.666),
    (2, 0.710),
    (5, 0.774),
    (10, 0.829),
)
"""Figure 2, the upper curve of the scatter at 25 degrees Celsius, in mA and volts: as far as any
current of a matrix goes."""
