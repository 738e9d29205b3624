"""What the plant weighs, takes and costs, at the user's own prices and rates."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from thermsim.making.pieces import INSULATION, CuttingList, Piece

SECONDS_AN_HOUR = 3600.0


@dataclass(frozen=True)
class Amount:
    """How much there is of one thing to pay for: price None where the file names none."""

    what: str
    quantity: float
    unit: str
    price: float | None

    @property
    def money(self) -> float | None:
        """Quantity times price."""
        return None if self.price is None else self.quantity * self.price


@dataclass
class Bill:
    """All amounts, and the hours; None where no rate is given."""

    currency: str
    amounts: list[Amount] = field(default_factory=list)
    hours: float | None = None

    @property
    def money(self) -> float:
        """Sum of what has a price."""
        return sum(one.money or 0.0 for one in self.amounts)

    @property
    def without_price(self) -> list[str]:
        """What the sum leaves out."""
        return [one.what for one in self.amounts if one.price is None]


def bill_of(made: CuttingList, prices: Any) -> Bill:
    """Price everything in a list; masses are those of the parts, without offcuts."""
    bill = Bill(prices["currency"])
    by_name = {one["material"]: one for one in prices["materials"]}
    bought = {one["name"]: one["each"] for one in prices["bought"]}
    for piece in made.pieces:
        if piece.name in bought:
            bill.amounts.append(Amount(piece.name, piece.number, "pieces", bought[piece.name]))
    pieces = [piece for piece in made.pieces if piece.name not in bought]
    for material in dict.fromkeys(piece.material for piece in pieces):
        some = [piece for piece in pieces if piece.material == material]
        bill.amounts.append(_material(material, some, by_name.get(material)))
    for pipe in made.pipes:
        if pipe.name in bought:
            bill.amounts.append(Amount(pipe.name, pipe.number, "pieces", bought[pipe.name]))
            continue
        given = by_name.get(pipe.material)
        bill.amounts.append(Amount(f"{pipe.name}, pipe", pipe.length * pipe.number, "m",
                                   given["per_m"] if given else None))
    welds = sum(weld.length for weld in made.welds)
    cuts = sum(piece.cut for piece in made.plates if piece.name not in bought)
    bill.amounts.append(Amount("welding", welds, "m", prices["weld_per_m"]))
    bill.amounts.append(Amount("cutting", cuts, "m", prices["cut_per_m"]))
    bill.hours = hours_of(made, cuts, welds, prices)
    if bill.hours is not None:
        bill.amounts.append(Amount("work", bill.hours, "h", prices["hour"]))
    return bill


def _material(material: str, pieces: list[Piece], given: Any) -> Amount:
    """By weight, insulation by area if that has a price."""
    area = sum(piece.area * piece.number for piece in pieces)
    mass = sum(piece.mass for piece in pieces)
    if given is not None and given["per_m2"] is not None and (
            given["per_kg"] is None or pieces[0].kind == INSULATION):
        return Amount(material, area, "m2", given["per_m2"])
    return Amount(material, mass, "kg", given["per_kg"] if given else None)


def hours_of(made: CuttingList, cuts: float, welds: float, prices: Any) -> float | None:
    """Hours of work by the rates given; None if there is none."""
    number = sum(piece.number for piece in made.pieces)
    rates = ((prices["weld_time"], welds), (prices["cut_time"], cuts),
             (prices["piece_time"], float(number)))
    told = [rate * amount for rate, amount in rates if rate is not None]
    return sum(told) / SECONDS_AN_HOUR if told else None


@dataclass(frozen=True)
class Totals:
    """Sums of a list: masses [kg], lengths [m], area [m2]."""

    plates: float
    pipes: float
    insulation: float
    insulation_area: float
    welds: float
    pressure_welds: float
    cuts: float

    @property
    def mass(self) -> float:
        """Everything listed, as far as its mass is known [kg]."""
        return self.plates + self.pipes + self.insulation


def totals_of(made: CuttingList) -> Totals:
    """Add a list up."""
    return Totals(
        sum(piece.mass for piece in made.plates), sum(pipe.mass or 0.0 for pipe in made.pipes),
        sum(piece.mass for piece in made.insulation),
        sum(piece.area * piece.number for piece in made.insulation),
        sum(weld.length for weld in made.welds),
        sum(weld.length for weld in made.welds if weld.pressure),
        sum(piece.cut for piece in made.plates))
