"""Work without fire: what hands, bowls and tools do with the food."""

from __future__ import annotations

from cards.icons import marks, shapes
from cards.icons.counted import fish_body, pinching_hand, poured_jug
from cards.icons.marks import TurnedPen, cupped_hand, dot, limb, mound, smooth
from cards.icons.measures import cup
from cards.icons.pen import FINE, Ink, Pen
from cards.icons.registry import icon
from cards.icons.vessels import (
    WALL, arrow_head, blob, bowl, bubbles, fork, grains, knife, lid, pot, tub, water_line,
)


@icon("wash")
def wash(pen: Pen) -> None:
    """Food in a bowl under water poured from a jug."""
    for x in (13.4, 26.6):
        dot(pen, x, 16.4, 6.2, Ink.FOOD)
    bowl(pen, 20, 1.6, 15, 17.8)
    dot(pen, 13.4, 16.4, 6.2, Ink.FOOD)
    dot(pen, 26.6, 16.4, 6.2, Ink.FOOD)
    poured_jug(TurnedPen(pen, 15, 16, 0, 0.68))
    marks.drops(pen, [(13.4, 25.6), (21, 25.6)], 7)


@icon("soak")
def soak(pen: Pen) -> None:
    """Grains lying in a bowl, the water line well above them."""
    bowl(pen, 24, 4, 40, 21)
    water_line(pen, 4.4, 43.6, 33)
    grains(pen, [(18, 11.4, 10), (29, 11.6, -20), (14, 17.6, -30), (23.6, 17.4, 25),
                 (33.4, 17.8, 40), (18.6, 23.6, 20), (28.6, 23.6, -15)], 3.9, 2.5)


@icon("drain")
def drain(pen: Pen) -> None:
    """Food in a strainer, water dropping through its holes into a bowl."""
    mound(pen, 19, 37, 27, 8.6)
    pen.paint(Ink.FOOD)
    shapes.bar(pen, 33, 35, 45, 38.6, 4.4)
    pen.move(3, 36)
    shapes.arc_on(pen, 19, 36, 16, 12.6, 180, 360)
    pen.close()
    pen.paint(Ink.SOLID)
    for x, y in ((11, 32.4), (19, 32.4), (27, 32.4), (15, 27.8), (23, 27.8)):
        dot(pen, x, y, 1.5, Ink.PAPER)
    bowl(pen, 19, 1.6, 13.6, 16)
    water_line(pen, 6, 32, 8.6, 2)
    marks.drops(pen, [(11.4, 14.6), (19, 13), (26.6, 14.6)], 7)


@icon("chop")
def chop(pen: Pen) -> None:
    """A knife over food cut into slices on a board."""
    shapes.rounded(pen, 2.4, 2.4, 43.2, 5.6, 2.4)
    pen.paint(Ink.SOLID)
    for x in (3.6, 10.4, 17.2):
        shapes.rounded(pen, x, 10.2, 4.6, 12.6, 1.8)
        pen.paint(Ink.FOOD)
    pen.move(24.2, 10.2)
    pen.line(34, 10.4)
    pen.curve(41, 11, 44.6, 14, 45.6, 16.4)
    pen.curve(43, 20, 40, 22.4, 34, 22.8)
    pen.line(24.2, 22.8)
    pen.close()
    pen.paint(Ink.FOOD)
    knife(pen, 3, 27.4, 17)


@icon("grate")
def grate(pen: Pen) -> None:
    """A root rubbed on a grater, shreds falling below."""
    for ink in (Ink.SOLID, Ink.LINE):
        shapes.polyline(pen, [(12, 36), (4, 4), (26, 4), (18, 36)], closed=True)
        pen.paint(ink, 3)
    shapes.arc(pen, 15, 37.6, 5, 0, 180)
    pen.paint(Ink.LINE, 3.4)
    for x, y in ((15, 32), (12.4, 25), (17.6, 25), (9.4, 18), (15, 18), (20.6, 18),
                 (8, 10.6), (15, 10.6), (22, 10.6)):
        shapes.ellipse(pen, x, y, 1.5, 2.1)
        pen.paint(Ink.PAPER)
    turned = TurnedPen(pen, 25, 25, 32)
    smooth(turned, [(0, -5.4), (1, 5.6), (13, 4.6), (19, 2.4), (19, -2.4), (13, -5)])
    turned.paint(Ink.FOOD)
    for dx, dy in ((19, 5), (21, 0), (19, -5)):
        shapes.bar(turned, 18, dy * 0.3, dx + 4, dy, 2.6)
    for x, y in ((31, 12), (36.6, 7), (31.6, 3.6), (41, 3)):
        shapes.ellipse(TurnedPen(pen, x, y, 30), 0, 0, 3.2, 1.5)
        pen.paint(Ink.FOOD)


@icon("peel")
def peel(pen: Pen) -> None:
    """A knife taking the skin off a root in one curling strip."""
    outline = [(19, 34.6), (9, 32), (3.4, 24), (3.4, 13), (9, 4.6), (19, 2.6), (28, 6),
               (32, 15), (31, 25), (26.4, 32)]
    smooth(pen, outline)
    pen.paint(Ink.PAPER)
    smooth(pen, [(3.2, 20), (3.4, 13), (9, 4.6), (19, 2.6), (28, 6), (32, 15), (31.6, 21),
                 (24, 17.4), (12, 21)])
    pen.paint(Ink.FOOD)
    smooth(pen, outline)
    pen.paint(Ink.LINE, WALL)
    limb(pen, [(31, 22.4), (37, 25.6), (42, 22), (39, 16), (38.4, 11), (43, 7), (42, 3.6)], 4.4)
    smooth(pen, [(12, 36), (22, 36.6), (30, 36)], closed=False)
    pen.paint(Ink.GAP, 5)
    knife(pen, 10, 33, 14, 0.84)


@icon("grind")
def grind(pen: Pen) -> None:
    """A mortar with thick walls, grains in it, and the pestle."""
    pen.move(3, 30)
    pen.curve(3, 14, 11, 8, 15, 7)
    pen.line(33, 7)
    pen.curve(37, 8, 45, 14, 45, 30)
    pen.close()
    pen.paint(Ink.SOLID)
    shapes.rounded(pen, 11, 2.4, 26, 6, 2.4)
    pen.paint(Ink.SOLID)
    pen.move(8, 31.6)
    pen.curve(8, 20, 15, 12, 24, 12)
    pen.curve(33, 12, 40, 20, 40, 31.6)
    pen.close()
    pen.paint(Ink.PAPER)
    grains(pen, [(13.4, 23.6, -40), (18, 18, -20), (24, 15.6, 10), (19, 25.4, 20), (33.4, 20.6, 40),
                 (35.4, 26.6, 60)], 2.9, 2)
    shapes.bar(pen, 28, 26, 38, 44, 5)
    shapes.bar(pen, 26, 22.4, 29, 27.8, 8)


@icon("mix")
def mix(pen: Pen) -> None:
    """A spoon stirring round in a bowl of food."""
    bowl(pen, 23, 1.6, 20.6, 20.4, 16)
    marks.spoon(pen, 24, 14.6, 39, 64)
    pen.move(*shapes.on_ellipse(20, 34, 16.4, 7, 55))
    shapes.arc_on(pen, 20, 34, 16.4, 7, 55, 320)
    pen.paint(Ink.GAP, 7)
    pen.move(*shapes.on_ellipse(20, 34, 16.4, 7, 55))
    shapes.arc_on(pen, 20, 34, 16.4, 7, 55, 315)
    pen.paint(Ink.LINE, 3.2)
    arrow_head(pen, 40, 34.4, 42, 9.6)


@icon("beat")
def beat(pen: Pen) -> None:
    """An egg yolk in a bowl, a fork beating it, the broken shell above."""
    bowl(pen, 23, 1.6, 25, 20.4)
    dot(pen, 15.6, 12.6, 6, Ink.FOOD)
    fork(pen, 25, 10.6, 37, 60)
    turned = TurnedPen(pen, 12.4, 40, 24)
    turned.move(-9, 2)
    shapes.arc_on(turned, 0, 0, 9, 10.6, 170, 370)
    for x, y in ((5.4, -1.4), (1.8, 4), (-1.8, -1.4), (-5.4, 4)):
        turned.line(x, y)
    turned.close()
    turned.paint(Ink.LINE)


@icon("knead")
def knead(pen: Pen) -> None:
    """Two fists pressing down on a lump of dough."""
    shapes.bar(pen, 3.6, 3.6, 44.4, 3.6, 3.6)
    smooth(pen, [(3, 8), (2.6, 16), (7, 22), (13, 20), (24, 17), (35, 20), (41, 22), (45.4, 16),
                 (45, 8), (36, 7), (12, 7)])
    pen.paint(Ink.FOOD)
    for side in (-1.0, 1.0):
        arm = TurnedPen(pen, 24, 0, 0, side, 1)
        fist = [(2.2, 26), (2.4, 19.6), (6, 16.6), (12, 17), (15, 21), (15, 28), (12, 31.6),
                (5, 31)]
        smooth(arm, fist)
        arm.paint(Ink.GAP, 4)
        limb(arm, [(20, 44), (15, 37), (9, 27)], 8)
        smooth(arm, fist)
        arm.paint(Ink.SOLID)
        for x in (6.4, 10.6):
            shapes.polyline(arm, [(x, 16.8), (x, 23)])
            arm.paint(Ink.GAP, 1.8)


@icon("mash")
def mash(pen: Pen) -> None:
    """A masher pressing soft food flat in a bowl."""
    bowl(pen, 24, 1.6, 27, 21.4, 13)
    for x in (11.6, 36.4):
        dot(pen, x, 16.6, 5.6, Ink.FOOD)
    shapes.bar(pen, 24, 17, 24, 42, 4.2)
    shapes.bar(pen, 16.4, 43, 31.6, 43, 5.2)
    shapes.bar(pen, 16, 15, 32, 15, 8.2)
    shapes.bar(pen, 17, 15, 31, 15, 4.6)
    for x in (18, 24, 30):
        dot(pen, x, 15, 1.1, Ink.PAPER)


@icon("ferment")
def ferment(pen: Pen) -> None:
    """Risen dough full of bubbles in a round pot with a cloth tied over it."""
    belly = [(13, 30), (5, 22), (3.4, 14), (8, 5.4), (17, 2.8), (31, 2.8), (40, 5.4), (44.6, 14),
             (43, 22), (35, 30)]
    smooth(pen, belly)
    pen.paint(Ink.FOOD)
    bubbles(pen, [(12, 11.6, 3), (22, 8, 2.4), (33, 11, 3.2), (21, 17, 2.6), (30, 19.4, 2.2),
                  (10.6, 19.6, 2.2)])
    smooth(pen, belly)
    pen.paint(Ink.LINE, WALL)
    # the cloth hangs down in points below the string
    hem = [(41, 25), (35, 29), (29.6, 25), (24, 29), (18.4, 25), (13, 29), (7, 25)]
    for ink, width in ((Ink.GAP, 5.0), (Ink.SOLID, 0.0)):
        pen.move(7, 25)
        pen.line(11, 35)
        pen.curve(8, 41, 14, 45.4, 24, 45.4)
        pen.curve(34, 45.4, 40, 41, 37, 35)
        for point in hem:
            pen.line(*point)
        pen.close()
        pen.paint(ink, width)
    shapes.polyline(pen, [(10, 34.6), (38, 34.6)])
    pen.paint(Ink.GAP, 2)


@icon("sprout")
def sprout(pen: Pen) -> None:
    """Three seeds, each with a longer shoot than the last, then its first leaves."""
    for x, h in ((9, 11.0), (23, 20.0), (38, 27.0)):
        y = 7.6
        smooth(pen, [(x + 3, y + 2), (x + 3.6, y + h * 0.5), (x - 1, y + h * 0.75), (x, y + h)],
               closed=False)
        pen.paint(Ink.LINE, 3.2)
        shapes.ellipse(TurnedPen(pen, x, y, 24), 0, 0, 6.2, 4.6)
        pen.paint(Ink.FOOD)
    for x, y, size in ((23, 27, 9.6), (38, 34, 12.0)):
        for side in (-1, 1):
            shapes.leaf(pen, x, y, x + side * size * 0.62, y + size * 0.8, 0.34)
            pen.paint(Ink.SOLID)


@icon("shape")
def shape(pen: Pen) -> None:
    """A ball of food rolled between two hands."""
    cupped_hand(TurnedPen(pen, 2, 0, 0, 0.86))
    cupped_hand(TurnedPen(pen, 46, 48, 180, 0.86))
    dot(pen, 24, 24, 9, Ink.FOOD)


@icon("squeeze")
def squeeze(pen: Pen) -> None:
    """Half a lemon pressed by fingers, its cut face down, its juice dropping."""
    pen.move(3.6, 24)
    pen.curve(3.6, 35, 10, 41, 18, 42)
    pen.curve(19, 45.6, 23, 45.6, 24, 42)
    pen.curve(32, 41, 38.4, 35, 38.4, 24)
    pen.close()
    pen.paint(Ink.FOOD)
    for ink in (Ink.PAPER, Ink.LINE):
        shapes.ellipse(pen, 21, 22.4, 18, 8.4)
        pen.paint(ink)
    for i in range(6):
        start = 60 * i + 12
        pen.move(*shapes.on_ellipse(21, 22.4, 3.4, 1.6, start + 18))
        pen.line(*shapes.on_ellipse(21, 22.4, 14, 5.6, start))
        shapes.arc_on(pen, 21, 22.4, 14, 5.6, start, start + 36)
        pen.close()
        pen.paint(Ink.FOOD)
    limb(pen, [(47, 36), (40, 36)], 13)
    for dy, reach in ((41.0, 24), (35.4, 18), (29.8, 22)):
        limb(pen, [(42, dy * 0.5 + 18), (34, dy), (reach, dy - 1)], 4.6, 1.2)
    marks.drops(pen, [(12, 1.6), (21, 0.6), (30, 1.6)], 9)


@icon("debone")
def debone(pen: Pen) -> None:
    """A fish whose backbone with its ribs is lifted out."""
    fish_body(TurnedPen(pen, 0, 1, 0, 0.86, 0.62))
    smooth(pen, [(14, 10.2), (22, 11), (34, 10.4)], closed=False)
    pen.paint(Ink.GAP, 3.4)
    shapes.bar(pen, 4, 23.4, 34, 35, 3.4)
    for i in range(5):
        x, y, h = 7.4 + i * 5.4, 24.6 + i * 2.1, 4.4 + i * 0.6
        shapes.polyline(pen, [(x - 3.4, y + h), (x, y), (x + 1.4, y - h)])
        pen.paint(Ink.LINE, 2.1)
    limb(pen, [(45, 44.4), (41, 41)], 9)
    limb(pen, [(41, 44), (34, 43), (32, 38.4)], 4.4)
    limb(pen, [(44, 39), (40, 33.4), (35, 33)], 4.4)


@icon("add")
def add(pen: Pen) -> None:
    """A cup tipping food into a pot."""
    pot(pen, base=2.6, rim=19, level=9)
    cup(TurnedPen(pen, 46.4, 26.6, 118, 0.56), 0)
    grains(pen, [(15.6, 28.6, 60), (21.4, 24, 40), (13, 22.6, 80), (18, 17.4, 30), (25, 16.6, 70)])


@icon("rest")
def rest(pen: Pen) -> None:
    """A bowl of food left standing, covered."""
    bowl(pen, 24, 2, 27, 20.6, 22)
    lid(pen, 29.6, half=21.4, height=10)


@icon("cool")
def cool(pen: Pen) -> None:
    """A hot bowl fanned with a palm leaf, its steam bending away."""
    bowl(pen, 20, 1.6, 17, 18, 14.4)
    for x, y in ((8, 31), (15, 37), (22, 43)):
        pen.move(x + 4, 20.6)
        pen.curve(x + 7, 25, x + 4, y - 5, x - 4.6, y)
        pen.paint(Ink.LINE)
    turned = TurnedPen(pen, 39.4, 21, 12)
    turned.move(0, 0)
    turned.line(-11, 15)
    for x, y in ((-6, 20), (0, 21.6), (6, 20), (11, 15)):
        turned.line(x * 0.9 - 1, y - 2.6)
        turned.line(x, y)
    turned.close()
    turned.paint(Ink.SOLID)
    for dx in (-4.6, 0, 4.6):
        shapes.polyline(turned, [(dx * 0.3, 6), (dx, 17.6)])
        turned.paint(Ink.GAP, 1.8)
    shapes.bar(turned, 0, 3, 0, -15, 3.8)


@icon("serve")
def serve(pen: Pen) -> None:
    """A small spoon of food lifted out of a small bowl."""
    bowl(pen, 21, 1.6, 21, 18.6, 17)
    mound(pen, 17, 33, 18, 9)
    pen.paint(Ink.FOOD)
    shapes.bar(pen, 26, 32, 45, 42, 3.8)
    pen.move(6, 32.4)
    shapes.arc_on(pen, 17, 32.4, 11, 7, 180, 360)
    pen.close()
    pen.paint(Ink.SOLID)
