"""Draught: the pressures at the joints, and how fast each opening's flow changes.

Real thing: air and gas as columns with inertia between joints at one pressure each. The flows of
the openings are the states; each run of cells carries their sum and the fuel's gas.

    (L/A)_i dm_i/dt = -p_k - b_i - loss_i            every opening i at joint k
    (L/A)_s dm_s/dt = p_s - p_(s+1) + force_s        every run of cells s, dm_s = sum of dm_i below

Gas stores no mass, so the pressures follow from a linear system, one for each joint. The inertia
picks the branch among several steady solutions; none is searched for. Over the last p stands the
pressure at the chimney top: the day's wind, and a gust while it lasts. Joins: openings, runs of
cells. Leaves out: the rate of change of the fuel's own gas; pulsation. Source: unsteady Bernoulli
equation of a stream tube.
"""

from __future__ import annotations

from thermsim.kernel import kernel
from thermsim.parts.controls import GUST, position, pulse_rate
from thermsim.parts.openings import CLOSE_TIME, SHUT, opening_buoyancy, opening_loss
from thermsim.physics.constants import GRAVITY
from thermsim.physics.linear_system import solve_small


@kernel
def segment_flows(y, plant):
    """Flow of every run of cells [kg/s]: all that enters before it, and the fuel's gas."""
    fire = plant.fire[0]
    flow = fire.volatiles + fire.char_burnt + fire.water
    for s in range(plant.segments.shape[0]):
        for i in range(plant.openings.shape[0]):
            if plant.openings[i].joint == s:
                flow += y[plant.openings[i].flow]
        plant.segments[s].flow = flow


@kernel
def shut_run(s, t, plant):
    """Whether a damper shuts a run of cells off."""
    run = plant.segments[s]
    for c in range(run.first, run.last):
        control = plant.cells[c].control
        if control >= 0 and position(plant.controls[control], t) < SHUT:
            return True
    return False


@kernel
def fill_joints(t, plant, A, ease):
    """Matrix of the joints' pressures, (runs, runs), from how easily each joint yields."""
    n = plant.segments.shape[0]
    eased = 0.0
    for s in range(n):
        eased += ease[s]
        for j in range(n):
            A[s, j] = 0.0
        shut = shut_run(s, t, plant) and eased > 0.0
        inertia = 1.0 if shut else plant.segments[s].inertia
        for j in range(s + 1):
            A[s, j] = inertia * ease[j]
        if not shut:
            A[s, s] += 1.0
            if s + 1 < n:
                A[s, s + 1] -= 1.0


@kernel
def flow_response(t, plant):
    """How fast each opening's flow gains for a pascal in each run: plant.response [kg/(s2 Pa)].

    For the Jacobian only: what a cell's weight and loss do to all flows is this times its push.
    """
    n = plant.segments.shape[0]
    A, p = plant.joints[:n], plant.joints[n]
    for s in range(n):
        fill_joints(t, plant, A, plant.joints[n + 2])
        for r in range(n):
            p[r] = 0.0
        if not (shut_run(s, t, plant)):
            p[s] = -1.0
        solve_small(A, p, n)
        for i in range(plant.openings.shape[0]):
            o = plant.openings[i]
            plant.response[i, s] = 0.0
            if o.open_area >= SHUT:
                plant.response[i, s] = -o.open_area / o.inertia_length * p[o.joint]


@kernel
def draught(t, y, plant, dy):
    """Rates of all opening flows; the n-th row of plant.joints gets the pressures [Pa]."""
    n = plant.segments.shape[0]
    A, p = plant.joints[:n], plant.joints[n]
    push, ease = plant.joints[n + 1], plant.joints[n + 2]
    for s in range(n):
        push[s] = 0.0
        ease[s] = 0.0
        p[s] = 0.0
    for i in range(plant.openings.shape[0]):
        o = plant.openings[i]
        m = y[o.flow]
        area = o.open_area
        if area < SHUT:
            push[o.joint] += m / CLOSE_TIME
            continue
        height = plant.segments[o.joint].height
        drive = (opening_buoyancy(i, m, y, plant, height, GRAVITY)
                 + opening_loss(i, m, y, plant))
        o.drive = drive
        ease[o.joint] += area / o.inertia_length
        push[o.joint] += area / o.inertia_length * drive
    fill_joints(t, plant, A, ease)
    eased = 0.0
    pushed = 0.0
    for s in range(n):
        eased += ease[s]
        pushed += push[s]
        if shut_run(s, t, plant) and eased > 0.0:
            p[s] = plant.segments[s].flow / CLOSE_TIME - pushed
        else:
            p[s] = -plant.segments[s].inertia * pushed - plant.segments[s].force
            if s + 1 == n:
                p[s] += plant.day[0].wind_pressure + pulse_rate(plant.pulses, GUST, 0, t)
    solve_small(A, p, n)
    for i in range(plant.openings.shape[0]):
        o = plant.openings[i]
        area = o.open_area
        if area < SHUT:
            dy[o.flow] = -y[o.flow] / CLOSE_TIME
        else:
            dy[o.flow] = area / o.inertia_length * (-p[o.joint] - o.drive)


@kernel
def foot_draught(plant, cell):
    """Draught [Pa] at the near end of a cell: how far the pressure there is under the outside's."""
    segment = plant.cells[cell].segment
    run = plant.segments[segment]
    p = plant.joints[plant.segments.shape[0], segment] + run.force
    for c in range(cell, run.last):
        p -= plant.cells[c].push
    return -p
