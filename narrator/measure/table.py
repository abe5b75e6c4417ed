"""The units an inspector types, as a table of exact fractions.

Factors are exact by definition: international inch 25.4 mm, avoirdupois pound 0.45359237 kg, standard gravity
9.80665 m/s2, Btu 1055.056 J, US gallon 231 cubic inches, curie 3.7e10 becquerel, 1000 kg/m3 for a column of
water (from memory of NIST Special Publication 811, appendix B; the pint registry is the test oracle). Ids are
those of the criteria files; most are also names that pint knows.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

__all__ = ["UNITS", "Unit"]


class Unit(NamedTuple):
    """One unit: value in `base` = value in this unit * `factor` + `offset`, both exact.

    `dimension` is the kind of thing measured; units convert into each other where `base` is the same. `one`
    and `many` are the printed forms; `spellings` are what people type (a space there also stands for a
    hyphen, a full stop or nothing).
    """

    id: str
    dimension: str
    base: str
    factor: Fraction
    offset: Fraction
    one: str
    many: str
    spellings: tuple[str, ...]


FT = Fraction("0.3048")
INCH = Fraction("0.0254")
GRAVITY = Fraction("9.80665")
LBF = Fraction("0.45359237") * GRAVITY
BTU = Fraction("1055.056")
R_VALUE = Fraction(5, 9) * FT**2 * 3600 / BTU
GALLON = INCH**3 * 231
ONE = Fraction(1)

# id, dimension, base, factor, printed forms (one|many), spellings
_ROWS: tuple[tuple[str, str, str, Fraction, str, str], ...] = (
    ("inch", "length", "meter", INCH, "inch|inches", "inches,inch,inchs,ins,in,\",''"),
    ("foot", "length", "meter", FT, "foot|feet", "linear feet,linear foot,lin ft,feet,foot,ft,lf,'"),
    ("yard", "length", "meter", FT * 3, "yard|yards", "yards,yds,yd"),
    ("mil", "length", "meter", INCH / 1000, "mil|mils", "mils,mil"),
    ("millimeter", "length", "meter", ONE / 1000, "mm",
     "millimeters,millimeter,millimetres,millimetre,mms,mm"),
    ("centimeter", "length", "meter", ONE / 100, "cm",
     "centimeters,centimeter,centimetres,centimetre,cms,cm"),
    ("meter", "length", "meter", ONE, "m", "meters,meter,metres,metre,mtrs,mtr,m"),
    ("inch**2", "area", "meter**2", INCH**2, "square inch|square inches",
     "square inches,square inch,sq inches,sq inch,sq ins,sq in,in2,in²"),
    ("foot**2", "area", "meter**2", FT**2, "square foot|square feet",
     "square feet,square foot,sq feet,sq foot,sq ft,sf,ft2,ft²"),
    ("yard**2", "area", "meter**2", FT**2 * 9, "square yard|square yards",
     "square yards,square yard,sq yds,sq yd,yd2,yd²"),
    ("meter**2", "area", "meter**2", ONE, "square meter|square meters",
     "square meters,square meter,square metres,square metre,sq meters,sq m,m2,m²"),
    ("centimeter**2", "area", "meter**2", ONE / 10000, "square centimeter|square centimeters", ""),
    ("foot**3", "volume", "meter**3", FT**3, "cubic foot|cubic feet",
     "cubic feet,cubic foot,cu feet,cu ft,ft3,ft³"),
    ("yard**3", "volume", "meter**3", FT**3 * 27, "cubic yard|cubic yards",
     "cubic yards,cubic yard,cu yds,cu yd,yd3,yd³"),
    ("meter**3", "volume", "meter**3", ONE, "cubic meter|cubic meters",
     "cubic meters,cubic meter,cubic metres,cubic metre,cu m,m3,m³"),
    ("gallon", "volume", "meter**3", GALLON, "gallon|gallons", "gallons,gallon,gals,gal"),
    ("liter", "volume", "meter**3", ONE / 1000, "liter|liters", "liters,liter,litres,litre,ltrs,ltr,L"),
    ("inch/foot", "slope", "one", ONE / 12, "inch per foot|inches per foot", ""),
    ("millimeter/meter", "slope", "one", ONE / 1000, "mm per meter",
     "mm per meter,mm per metre,mm per m,mm/m"),
    ("percent", "percent", "one", ONE / 100, "%", "percent,per cent,pct,%"),
    ("dimensionless", "ratio", "one", ONE, "", ""),
    ("ppm", "concentration", "ppm", ONE, "parts per million", "parts per million,ppm"),
    ("picocurie/liter", "concentration", "becquerel/meter**3", Fraction(37),
     "picocurie per liter|picocuries per liter", "picocuries per liter,pci/l,pc/l"),
    ("becquerel/meter**3", "concentration", "becquerel/meter**3", ONE, "Bq/m³", "bq/m3,bq/m³"),
    ("degree", "angle", "degree", ONE, "degree|degrees", "degrees,degree,degs,deg,°"),
    ("degF", "temperature", "kelvin", Fraction(5, 9), "°F",
     "degrees fahrenheit,degrees f,degree f,fahrenheit,deg f,°f,° f,ºf,º f"),
    ("degC", "temperature", "kelvin", ONE, "°C",
     "degrees celsius,degrees centigrade,degrees c,degree c,celsius,deg c,°c,° c,ºc,º c"),
    ("delta_degF", "temperature", "delta kelvin", Fraction(5, 9), "°F", ""),
    ("delta_degC", "temperature", "delta kelvin", ONE, "°C", ""),
    ("psi", "pressure", "pascal", LBF / INCH**2, "psi", "pounds per square inch,psig,psi"),
    ("kilopascal", "pressure", "pascal", Fraction(1000), "kPa", "kilopascals,kilopascal,kpa"),
    ("pascal", "pressure", "pascal", ONE, "Pa", "pascals,pascal,pa"),
    ("bar", "pressure", "pascal", Fraction(100000), "bar", ""),
    ("inch_H2O", "pressure", "pascal", INCH * 1000 * GRAVITY, "inch of water|inches of water",
     "inches of water,inch of water,inches water column,inch water column,inches wc,inch wc,in wc,"
     "in w c,iwc,\" wc,\" w c"),
    ("gallon/minute", "flow", "meter**3/second", GALLON / 60, "gallon per minute|gallons per minute",
     "gallons per minute,gal per minute,gal/min,gpm"),
    ("foot**3/minute", "flow", "meter**3/second", FT**3 / 60, "cubic foot per minute|cubic feet per minute",
     "cubic feet per minute,cfm"),
    ("liter/minute", "flow", "meter**3/second", ONE / 60000, "liter per minute|liters per minute",
     "liters per minute,litres per minute,l/min,lpm"),
    ("liter/second", "flow", "meter**3/second", ONE / 1000, "liter per second|liters per second", ""),
    ("volt", "voltage", "volt", ONE, "volt|volts", "volts,volt,vac,vdc,V"),
    ("millivolt", "voltage", "volt", ONE / 1000, "millivolt|millivolts", "millivolts,millivolt,mv"),
    ("ampere", "current", "ampere", ONE, "amp|amps", "amperes,ampere,amps,amp,A"),
    ("milliampere", "current", "ampere", ONE / 1000, "mA", "milliamps,milliamp,ma"),
    ("ohm", "resistance", "ohm", ONE, "ohm|ohms", "ohms,ohm,Ω,Ω"),
    ("kiloohm", "resistance", "ohm", Fraction(1000), "kilohm|kilohms", "kilohms,kilohm,kohms,kohm,kΩ,kΩ"),
    ("megaohm", "resistance", "ohm", Fraction(1000000), "megohm|megohms", "megohms,megohm"),
    ("watt", "power", "watt", ONE, "watt|watts", "watts,watt,W"),
    ("kilowatt", "power", "watt", Fraction(1000), "kilowatt|kilowatts", "kilowatts,kilowatt,kw"),
    ("horsepower", "power", "watt", FT * LBF * 550, "horsepower", "horsepower,hp"),
    ("Btu/hour", "power", "watt", BTU / 3600, "Btu per hour", "btu per hour,btu/hour,btu/hr,btu/h,btuh"),
    ("refrigeration_ton", "power", "watt", BTU * 12000 / 3600, "ton|tons", "tons,ton"),
    ("Btu", "energy", "joule", BTU, "Btu", "btus,btu"),
    ("kilowatt*hour", "energy", "joule", Fraction(3600000), "kilowatt hour|kilowatt hours",
     "kilowatt hours,kilowatt hour,kwhs,kwh"),
    ("therm", "energy", "joule", BTU * 100000, "therm|therms", "therms,therm"),
    ("year", "age", "day", Fraction("365.25"), "year|years",
     "years of age,years old,year old,yrs old,yr old,years,year,yrs,yr,y/o,y o,yo"),
    ("month", "age", "day", Fraction("365.25") / 12, "month|months",
     "months old,month old,mos old,mo old,months,month,mos,mo"),
    ("week", "time", "day", Fraction(7), "week|weeks", "weeks,week,wks,wk"),
    ("day", "time", "day", ONE, "day|days", "days,day"),
    ("hour", "time", "day", ONE / 24, "hour|hours", "hours,hour,hrs,hr,h"),
    ("minute", "time", "day", ONE / 1440, "minute|minutes", "minutes,minute,mins,min"),
    ("second", "time", "day", ONE / 86400, "second|seconds", "seconds,second,secs,sec"),
    ("date", "date", "date", ONE, "", ""),
    ("count", "count", "count", ONE, "", "pcs,each,ea"),
    ("foot/minute", "speed", "meter/second", FT / 60, "foot per minute|feet per minute",
     "feet per minute,ft/min,fpm"),
    ("foot/second", "speed", "meter/second", FT, "foot per second|feet per second",
     "feet per second,ft/sec,ft/s,fps"),
    ("mile/hour", "speed", "meter/second", FT * 5280 / 3600, "mph", "miles per hour,mph"),
    ("meter/second", "speed", "meter/second", ONE, "meter per second|meters per second", ""),
    ("kilometer/hour", "speed", "meter/second", ONE * 1000 / 3600, "km/h", ""),
    ("pound", "weight", "newton", LBF, "pound|pounds", "pounds,pound,lbs,lb"),
    ("ounce", "weight", "newton", LBF / 16, "ounce|ounces", "ounces,ounce,ozs,oz"),
    ("kilogram", "weight", "newton", GRAVITY, "kg", "kilograms,kilogram,kgs,kg"),
    ("pound_force", "weight", "newton", LBF, "pound|pounds", "pounds force,pound force,lbf"),
    ("newton", "weight", "newton", ONE, "newton|newtons", "newtons,newton"),
    ("r-value", "insulation", "kelvin*meter**2/watt", R_VALUE, "R-value", ""),
    ("delta_degF*foot**2*hour/Btu", "insulation", "kelvin*meter**2/watt", R_VALUE, "R-value", ""),
    ("awg", "gauge", "awg", ONE, "gauge", "gauge,gage,awg,ga"),
    ("decibel", "sound", "decibel", ONE, "decibel|decibels", "decibels,decibel,dba,db"),
    ("inch**2*hour/Btu", "area per power", "meter**2/watt", INCH**2 * 3600 / BTU,
     "square inch per Btu per hour|square inches per Btu per hour", ""),
    ("foot**3*hour/Btu", "volume per power", "meter**3/watt", FT**3 * 3600 / BTU,
     "cubic foot per Btu per hour|cubic feet per Btu per hour", ""),
    ("pound/foot**2/day", "emission", "pound/foot**2/day", ONE,
     "pound per square foot per day|pounds per square foot per day", ""),
)  # fmt: skip

_OFFSETS = {"degF": Fraction("459.67") * Fraction(5, 9), "degC": Fraction("273.15")}


def _unit(row: tuple[str, str, str, Fraction, str, str]) -> Unit:
    name, dimension, base, factor, prints, typed = row
    one, _, many = prints.partition("|")
    spellings = tuple(part for part in typed.split(",") if part)
    return Unit(name, dimension, base, factor, _OFFSETS.get(name, Fraction(0)), one, many or one, spellings)


UNITS: dict[str, Unit] = {row[0]: _unit(row) for row in _ROWS}
