# SPDX-License-Identifier: GPL-2.0-or-later
"""The pictures of the demo sites."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from . import marlisk_yard as yard
from . import scenery
from . import sorrelback_lane as lane
from .canvas import Canvas
from .geometry import Point, point_at

if TYPE_CHECKING:
    from pathlib import Path

    from .site import Site

YARD_FRAME = ((-13.0, -10.0), (44.0, -10.0), (44.0, 21.0), (-13.0, 21.0))
LANE_FRAME = ((-22.0, -12.0), (54.0, -12.0), (54.0, 66.0), (-22.0, 66.0))
YARD_PIXEL, LANE_PIXEL = 0.05, 0.25
HOUSE, HOUSE_HIGH, HOUSE_LEAN = (21.0, 15.0, 31.0, 20.5), 3.0, (0.12, 0.2193)
"""The lean is 0.25 m: 0.12 m east, 0.2193 m north."""
GARAGE, GARAGE_HIGH, GARAGE_LEAN = (-18.5, 45.5, -4.5, 63.0), 10.0, (-0.5, 0.65)
CROWNS = {"T1": (1.5, 3.5), "T2": (0.95, 2.4), "T3": (2.7, 3.2)}
"""Radius and height of each crown in metres."""


def draw_picture(site: Site, path: Path) -> None:
    """Write the picture of a site as a GeoTIFF, with its shift and its leaning roof."""
    canvas = _yard(site) if site.folder == "marlisk_yard" else _lane(site)
    canvas.save(path)


def _yard(site: Site) -> Canvas:
    canvas = Canvas(site, YARD_FRAME, YARD_PIXEL)
    scenery.paint_grass(canvas, np.ones(canvas.x.shape, bool))
    _yard_road(canvas)
    _yard_slopes(canvas)
    _yard_swale(canvas)
    _yard_court(canvas)
    _yard_ramp_and_steps(canvas)
    _yard_beds(canvas)
    _yard_seat_wall(canvas)
    for x, y in yard.DRAINS.values():
        canvas.paint(canvas.box(x - 0.27, y - 0.27, x + 0.27, y + 0.27), scenery.CONCRETE)
        slots = 0.5 * (np.floor(canvas.x / 0.08) % 2.0)
        canvas.paint(canvas.box(x - 0.2, y - 0.2, x + 0.2, y + 0.2), (0.22, 0.22, 0.22), slots)
    scenery.paint_marks(canvas, 1.0)
    scenery.paint_roof(canvas, HOUSE, HOUSE_HIGH, HOUSE_LEAN)
    for name, (x, y, _) in yard.TREES.items():
        scenery.cast(canvas, (x, y), CROWNS[name][0], CROWNS[name][1])
    for name, (x, y, _) in yard.TREES.items():
        scenery.paint_tree(canvas, (x, y), CROWNS[name][0])
    return canvas


def _yard_road(canvas: Canvas) -> None:
    """Asphalt outside the kerb, the kerb as a pale band."""
    x, y = canvas.x, canvas.y
    inside = (y > -6.0) & (x < 30.0) & ~((x > 24.0) & (y < 0.0) & ~canvas.disc(yard.KERB_CENTRE, 6.0))
    road = ~inside & (y > -12.5) & (y < 2.5) & ((y < -6.0) | ((x > 24.0) & (x < 33.0)))
    road &= ~canvas.sector(yard.BANK_CENTRE, (0.0, 9.6), (90.0, 180.0))
    patches = 0.04 * canvas.noise(30.0) + 0.03 * canvas.noise(2.0)
    canvas.paint(road, scenery.ASPHALT, patches, grain=0.05)
    arc = [point_at(yard.KERB_CENTRE, yard.KERB_RADIUS, a) for a in range(-90, 1, 3)]
    line = [(-6.0, -6.0), *arc, (30.0, 2.5)]
    outside = [(-6.0, -6.08), *[point_at(yard.KERB_CENTRE, 6.08, a) for a in range(-90, 1, 3)], (30.08, 2.5)]
    canvas.shade(canvas.band(line, 0.20), 0.85)
    joints = -0.12 * ((canvas.x + canvas.y) % 0.915 < 0.05)
    canvas.paint(canvas.band(outside, 0.08), (0.74, 0.73, 0.70), joints)


def _yard_slopes(canvas: Canvas) -> None:
    """Bank and dished face: rougher grass, bright or dark by the way they face."""
    centre, (low, high) = yard.BANK_CENTRE, yard.BANK_RADII
    floor = canvas.sector(centre, (0.0, low), (90.0, 180.0))
    canvas.paint(floor, scenery.EARTH, 0.06 * canvas.noise(20.0) + 0.05 * canvas.noise(3.0), grain=0.06)
    slope = canvas.sector(centre, (low, high), (90.0, 180.0))
    scenery.paint_grass(canvas, slope, (0.43, 0.45, 0.26))
    angle = np.arctan2(canvas.y - centre[1], canvas.x - centre[0]) + math.radians(canvas.site.turn_deg)
    light = np.cos(angle) * scenery.SUN[0] + np.sin(angle) * scenery.SUN[1]
    canvas.shade(slope, 0.92 + 0.35 * light)
    for radius in (low, high):
        canvas.shade(canvas.sector(centre, (radius - 0.06, radius + 0.06), (90.0, 180.0)), 0.75)
    left = yard.FACE_X - yard.FACE_WIDTH / 2.0
    top = yard.face_profile()[-1][1]
    face = canvas.box(left, yard.FACE_Y, left + yard.FACE_WIDTH, top)
    canvas.paint(face, scenery.EARTH, 0.08 * canvas.noise(3.0), grain=0.06)
    canvas.shade(face, 1.10 - 0.22 * np.clip(canvas.y - yard.FACE_Y, 0.0, 3.0))


def _yard_swale(canvas: Canvas) -> None:
    line = [yard.swale_point(24.0 + 0.25 * i) for i in range(65)]
    strip = canvas.band(line, yard.SWALE_WIDTH / 2.0) & (canvas.x >= 24.0) & (canvas.x <= 40.0)
    scenery.paint_grass(canvas, strip, (0.31, 0.42, 0.25))
    canvas.shade(canvas.band(line, 0.45) & strip, 0.88)
    canvas.shade(canvas.band(line, 0.12) & strip, 0.80)
    canvas.shade(strip & ~canvas.band(line, 0.82), 0.78)


def _yard_court(canvas: Canvas) -> None:
    court = canvas.box(2.0, 2.0, 22.0, 12.0)
    court |= (canvas.y > 12.0) & canvas.disc(yard.COURT_CENTRE, yard.COURT_RADIUS)
    shade, joint = canvas.units(canvas.x, canvas.y, 0.2, 0.1)
    texture = 0.07 * shade - 0.22 * (joint < 0.012) + 0.03 * canvas.noise(50.0)
    canvas.paint(court, (0.62, 0.53, 0.47), texture)
    inner = canvas.box(2.1, 2.1, 21.9, 12.0)
    inner |= (canvas.y > 11.99) & canvas.disc(yard.COURT_CENTRE, yard.COURT_RADIUS - 0.1)
    canvas.paint(court & ~inner, (0.50, 0.47, 0.45), 0.05 * shade)
    canvas.paint(canvas.polygon(yard.COURT_HOLE), scenery.MULCH, 0.12 * canvas.noise(2.0))


def _yard_ramp_and_steps(canvas: Canvas) -> None:
    ramp = canvas.polygon(yard.RAMP)
    canvas.paint(ramp, scenery.CONCRETE, 0.03 * canvas.noise(12.0) + 0.02 * ((canvas.x / 0.1) % 2.0 < 1.0))
    canvas.shade(ramp & ((canvas.x - 22.0) % 3.0 < 0.04), 0.6)
    canvas.shade(ramp & ~canvas.box(22.0, 3.1, 30.9, 4.4), 0.85)
    for i, x in enumerate((22.0, 22.35)):
        tread = canvas.box(x, 8.0, x + yard.STEP_GOING, 9.5)
        canvas.paint(tread, scenery.CONCRETE, -0.08 * i)
        canvas.shade(tread & (canvas.x < x + 0.06), 0.62)
    canvas.shade(canvas.box(22.7, 8.0, 22.78, 9.5), 0.6)


def _yard_beds(canvas: Canvas) -> None:
    scenery.paint_bed(canvas, canvas.polygon(yard.BED_2), 1.0)
    scenery.paint_bed(canvas, canvas.polygon(yard.BED_1), 1.0)
    canvas.paint(canvas.disc(yard.TREE_HOLE, yard.TREE_HOLE_RADIUS), scenery.EARTH, 0.08 * canvas.noise(3.0))
    wall = canvas.box(0.25, 2.0, 0.5, 11.0)
    canvas.shade(canvas.box(0.5, 2.0, 0.72, 11.1), 0.6)
    canvas.paint(wall, scenery.STONE, -0.15 * (canvas.y % 0.45 < 0.04))


def _yard_seat_wall(canvas: Canvas) -> None:
    radius, angles = yard.COURT_RADIUS, yard.SEAT_ANGLES
    shadow = canvas.away(0.45 * scenery.SUN[0], 0.45 * scenery.SUN[1])
    thrown = (yard.COURT_CENTRE[0] + shadow[0], yard.COURT_CENTRE[1] + shadow[1])
    canvas.shade(canvas.sector(thrown, (radius, radius + 0.45), angles), scenery.SHADOW)
    angle = np.degrees(np.arctan2(canvas.y - 1.5, canvas.x - 12.0))
    canvas.paint(
        canvas.sector(yard.COURT_CENTRE, (radius, radius + yard.SEAT_THICK), angles),
        (0.78, 0.74, 0.67),
        -0.18 * (angle % 2.4 < 0.12),
    )


def _lane(site: Site) -> Canvas:
    canvas = Canvas(site, LANE_FRAME, LANE_PIXEL)
    scenery.paint_grass(canvas, np.ones(canvas.x.shape, bool), (0.44, 0.46, 0.28))
    unit = 1.0 / lane.FOOT
    street = canvas.y < -5.0
    canvas.paint(street, scenery.ASPHALT, 0.04 * canvas.noise(20.0), grain=0.05)
    canvas.paint(canvas.box(-60.0, -5.0, 90.0, -4.5), (0.74, 0.73, 0.70))
    canvas.paint(canvas.box(-16.0, -5.0, -4.0, 0.0), scenery.ASPHALT, -0.08)
    _lane_paving(canvas)
    _lane_lawn(canvas)
    _lane_wall(canvas)
    scenery.paint_marks(canvas, unit)
    scenery.paint_roof(canvas, GARAGE, GARAGE_HIGH, GARAGE_LEAN)
    for centre, radius, high in ((lane.RING, 3.4, 9.0), (lane.OAK, 6.5, 14.0)):
        scenery.cast(canvas, centre, radius, high)
    for centre, radius in ((lane.RING, 3.4), (lane.OAK, 6.5)):
        scenery.paint_tree(canvas, centre, radius)
    return canvas


def _lane_paving(canvas: Canvas) -> None:
    drive = canvas.polygon(lane.DRIVE)
    canvas.paint(drive, scenery.CONCRETE, 0.03 * canvas.noise(15.0))
    canvas.shade(drive & (canvas.y % 12.0 < 0.2), 0.75)
    canvas.shade(drive & (np.abs(canvas.x + 10.0) < 0.1), 0.75)
    patio = canvas.polygon(lane.PATIO)
    patio |= (canvas.y > 20.0) & canvas.disc(lane.PATIO_CENTRE, lane.PATIO_RADIUS)
    shade, joint = canvas.units(canvas.x, canvas.y, 2.0, 1.3)
    canvas.paint(patio, (0.66, 0.60, 0.54), 0.06 * shade - 0.25 * (joint < 0.09))


def _lane_lawn(canvas: Canvas) -> None:
    lawn = canvas.polygon(lane.LAWN)
    stripes = 0.05 * np.sign(np.sin(canvas.x * math.pi / 2.0))
    canvas.paint(lawn, (0.35, 0.47, 0.25), stripes + 0.05 * canvas.noise(4.0), grain=0.05)
    canvas.paint(canvas.disc(lane.RING, lane.RING_RADIUS), scenery.MULCH, 0.10 * canvas.noise(3.0))


def _lane_wall(canvas: Canvas) -> None:
    bend = [point_at(lane.WALL_CENTRE, lane.WALL_RADIUS, a) for a in range(180, 89, -5)]
    line: list[Point] = [lane.WALL_START, *bend]
    dx, dy = canvas.away(1.2 * scenery.SUN[0], 1.2 * scenery.SUN[1])
    canvas.shade(canvas.band([(x + dx, y + dy) for x, y in line], 0.9), scenery.SHADOW + 0.1)
    canvas.paint(canvas.band(line, 0.5), scenery.STONE, -0.18 * ((canvas.x + canvas.y) % 1.5 < 0.2))
    for i in range(lane.STEP_COUNT):
        low = lane.STEP_FOOT + i * lane.STEP_GOING
        tread = canvas.box(26.0, low, 30.0 - 0.5, low + lane.STEP_GOING)
        canvas.paint(tread, scenery.CONCRETE, 0.03 * i)
        canvas.shade(tread & (canvas.y < low + 0.25), 0.65)
