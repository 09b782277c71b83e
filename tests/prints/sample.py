"""A small guide, a refusal and a withdrawal, told by the real wording, for the tests of the print.

`s("Clamp {w} in {j}.", w=…, j=…)` makes a message and puts its sentence into the test's own
catalogue. The circuit is the demo pickup's, cut down: only what the print shows differs by it.
"""

from dataclasses import replace
from datetime import date

from baybook.book import Revision, ToldBook, ToldEntry, Withdrawal
from baybook.figure import Figure, Input
from baybook.finding import Amount, Finding, Message, Name, Ref, Verdict
from baybook.guide import (
    Condition,
    CutLine,
    Fact,
    FoundAllowed,
    Guide,
    Identity,
    KitLine,
    ReadingLine,
    RefusalSheet,
    SettingLine,
    SizeLine,
    SourceLine,
    TorqueLine,
)
from baybook.plain import plain
from baybook.quantity import Basis, Mark, State
from baybook.shipped import shipped
from baybook.step import Blank, Box, Chapter, Hold, Phase, Signal, Step
from baybook.view import RouteView, WiringView
from baybook.wording.catalogue import Catalogue, load_catalogue
from baybook.wording.tell import tell

SENTENCES = {
    "word.hold": "HOLD",
    "word.list.between": ", ",
    "word.list.last": " and ",
    "figure.current_low": "Input current at the lowest supply",
    "figure.loop_resistance": "Resistance of the whole input loop",
    "figure.between": "Between {low} and {high}, by the tolerances of what goes in",
}
SHOP = {
    "name": "Fenlow & Sprake Vehicle Fitting",
    "rule_set": "4",
    "site": {
        "address": "https://guides.example.invalid",
        "reports": "mailto:reports@example.invalid",
    },
}
REVISION = Revision(
    number=3,
    on=date(2024, 11, 29),
    check_after=date(2025, 11, 29),
    figures="4f1a9c27d0b3",
    text="9be3075a61f2",
)
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{w}" height="{h}">'
    '<rect width="{w}" height="{h}" fill="none" stroke="#111"/></svg>'
)
DRAWN = {"wiring": (SVG.format(w=700, h=900),), "route": (SVG.format(w=700, h=120),)}


def s(sentence, **values):
    SENTENCES[sentence] = sentence
    return Message(sentence, tuple(values.items()))


def joint(letter):
    return Ref("joint", letter)


def volts(value):
    return Amount(value, "V", 1)


def torque(value):
    return Amount(value, "N*m", 1, f"{value} N·m")


def hold(kind, number, title, *, fields=(), stands="steps"):
    return Hold(
        id=kind,
        number=number,
        title=s(title),
        body=(s(f"Body of hold {number}."),),
        fields=fields,
        second_person=True,
        standing=True,
        stands=stands,
    )


FIELD = Blank(
    id="k", label=s("{a} to {b}", a=joint("B"), b=joint("K")), low=volts(12.4), high=volts(12.9)
)
HOLDS = (
    hold("right-parts", 1, "Right vehicle, right parts"),
    hold("proved-dead", 2, "Battery proved dead"),
    hold("behind-screws", 3, "Behind every screw"),
    hold("before-fuse", 4, "Before the fuse goes in", fields=(FIELD, replace(FIELD, id="c"))),
    hold("before-plug", 5, "Before you plug the station in", stands="readings"),
)


def box(signal, symbol):
    return Box(
        id=symbol,
        signal=signal,
        symbol=symbol,
        hazard=s(f"Hazard {symbol}"),
        consequence=s(f"What {symbol} does."),
        avoidance=s(f"How to avoid {symbol}."),
        covers=(),
    )


BOXES = {
    2: (box(Signal.WARNING, "arc"),),
    4: (box(Signal.DANGER, "crush"), box(Signal.WARNING, "drill")),
    6: (box(Signal.CAUTION, "hot"),),
    9: (box(Signal.NOTICE, "sensor"),),
}
AT_STEP = {1: HOLDS[0], 3: HOLDS[1], 5: HOLDS[2], 10: HOLDS[3], 11: HOLDS[4]}
TORQUES = {7: ("D", 4.5), 8: ("J", 4.6), 9: ("K", 20.0)}


def step(number):
    letter, newton_metres = TORQUES.get(number, ("", 0.0))
    action = s(f"Do thing number {number} with care.")
    if letter:
        tag = Ref("conductor", "W2")
        action = s("Clamp {w} in {j} at {t}.", w=tag, j=joint(letter), t=torque(newton_metres))
    return Step(
        id=f"s{number}",
        number=number,
        phase=Phase.TERMINATE,
        action=action,
        value=torque(newton_metres) if letter else None,
        value_note=s(f"note {number}") if number % 4 == 0 else None,
        tool=s("Wrench TW-1"),
        torque_mark=bool(letter),
        people=2 if number == 4 else 1,
        minutes=2.0,
        needs=(),
        makes=(),
        breaks=(),
        hazards=(),
        works_on=(),
        joins=(),
        torques=(letter,) if letter else (),
        energises=False,
        boxes=BOXES.get(number, ()),
        hold=AT_STEP.get(number),
    )


def chapter(title, numbers):
    steps = tuple(step(number) for number in numbers)
    return Chapter(phase=Phase.TERMINATE, title=s(title), true_before=(s("Key out."),), steps=steps)


def reading(number):
    return ReadingLine(
        id=f"R{number}",
        what=s(f"Reading number {number}"),
        state=s("engine running") if number < 3 else s("station plugged in"),
        points=("A", "L"),
        predicted=volts(13 + number / 10) if number != 4 else None,
        low=volts(12 + number / 10) if number != 3 else None,
        high=volts(14 + number / 10),
        if_low=s("Start again."),
        if_high=s("Stop at {p}.", p=joint("K")),
        hold=HOLDS[4] if number == 2 else None,
    )


MARK = Mark("vehicles/x/vehicle.yaml", 4, 2)
BASIS = Basis(state=State.MEASURED, method="lowest 10 s mean", by="bay", on=date(2024, 11, 8))
INPUT = Input(symbol="U", value=13.2, unit="V", written="13.2 V", basis=BASIS, where=MARK)
FIGURE = Figure(
    name="current_low",
    symbol="I",
    value=43.8,
    unit="A",
    low=43.7,
    high=43.9,
    digits=1,
    formula="I = (U - U_t) / R",
    inputs=(INPUT, Input(symbol="R", value=0.0128, unit="ohm", figure="loop_resistance")),
    sources=("ohm",),
)
LOOP = Figure(
    name="loop_resistance",
    symbol="R",
    value=0.0128,
    unit="ohm",
    low=0.0128,
    high=0.0128,
    digits=2,
    formula="R = R_l",
    inputs=(Input(symbol="R_l", value=0.0128, unit="ohm", basis=BASIS, where=MARK),),
    sources=("ohm",),
)
FINDING = Finding(
    verdict=Verdict.REFUSED,
    code="OV-01",
    place="output",
    where=MARK,
    title=s("the charger can destroy the station"),
    found=volts(30.8),
    allowed=volts(28.5),
    why=s("The lowest setting exceeds what the input stands."),
    way_out=s("Use another charger."),
    sources=("shop rule",),
)
IDENTITY = Identity(
    fit="dunstrel-cobble/j9b",
    code="V6/J9b",
    vehicle=Name("Dunstrel Cobble"),
    variant=s("3.0 D pickup, 2019 to 2023"),
    first_year=2019,
    last_year=2023,
    drive=s("left and right-hand drive"),
    drive_sides=("LHD", "RHD"),
    make=Name("Dunstrel"),
    model=Name("Cobble"),
    engine=Name("3.0 D"),
    charger=Name("Wendric Sorrel 520"),
    station=Name("Maunderby Loft 2000"),
    battery=False,
    pair=s("Sorrel 520 to Loft 2000"),
    shop=Name(SHOP["name"]),
    demonstration=True,
)
GUIDE = Guide(
    identity=IDENTITY,
    what=s("A DC-DC charger feeds the station."),
    verdict=Verdict.CAUTION,
    short_reason=s("Not while standing."),
    reasons=(s("At idle the battery loses {a}.", a=Amount(29.6, "A", 1)),),
    findings=(),
    facts=tuple(Fact(amount=volts(n), label=s(f"fact {n}")) for n in range(41, 47)),
    applies=(Condition(text=s("Body"), answer=s("pickup")), Condition(text=s("Engine"))),
    people=(s("Bay technician"),),
    minutes=300.0,
    time=s("Five hours"),
    tools=(s("Torque wrench TW-1"), s("Meter DM-3")),
    cautions=(s("Local codes come first."),),
    kit=(KitLine(count=Amount(3, "1", 0, "3"), part=s("Lug L25, stud M6")),),
    cuts=(
        CutLine(
            tag="W2",
            colour=s("Red"),
            area=Amount(25, "mm2", 0),
            awg=s("AWG 4"),
            start="C",
            end="D",
            length=Amount(5.71, "m", 2),
            strip=Amount(0.014, "m", 0, "14 mm"),
            ends=(s("{j} bare", j=joint("D")),),
        ),
    ),
    cut_note=s("Cut with the end square."),
    torques=tuple(
        TorqueLine(
            letter=letter,
            joint=s(f"Joint {letter}"),
            thread=s("M6"),
            torque=torque(value),
            instead=None,
            conductor=s("W2"),
            source=s("Charger maker"),
        )
        for letter, value in TORQUES.values()
    ),
    wiring=WiringView(title=s("Wiring diagram"), ranks=(), connections=(s("W2 from C to D."),)),
    plan=None,
    route=RouteView(
        title=s("Route, to scale"),
        zones=(),
        marks=(),
        clip_pitch_m=0.3,
        length_m=5.6,
        feed_label=s("W2 red"),
        end_label=s("Charger"),
        text=s("The feed runs to the charger."),
    ),
    chapters=(chapter("Make the ends", range(1, 9)), chapter("Connect", range(9, 13))),
    readings=tuple(reading(number) for number in range(1, 6)),
    reading_notes=(s("Write each reading in its box."),),
    sizes=(
        SizeLine(
            area=Amount(25, "mm2", 0),
            current=Amount(43.8, "A", 1),
            voltage=None,
            drop=Amount(0.0423, "1", 2),
            carries=Amount(98.6, "A", 1),
            chosen=True,
            result=s("**Chosen.** Smallest that passes."),
        ),
    ),
    sizes_note=s("At the lowest voltage."),
    settings=(
        SettingLine(
            setting=volts(41), power=Amount(520, "W", 0), limit=s("power"), fits=True, chosen=True
        ),
    ),
    envelope=(Condition(text=s("Route up to"), answer=s("{l}", l=Amount(6.3, "m", 1))),),
    assumptions=(s("One fixing is assumed lost."),),
    retorque=s("Re-torque after 1000 km."),
    undo=(s("Battery negative off."),),
    labels=((s("**F1** fuse"), s("Feeds the charger")),),
    figures=(FIGURE, LOOP),
    sources=(SourceLine(id="ohm", title=s("Ohm's law"), detail=s("common practice")),),
    draft=(),
)
REFUSAL = RefusalSheet(
    identity=IDENTITY,
    code="OV-01",
    title=s("the charger can destroy the station"),
    thought=Name("Both are sold as 24 V."),
    short_reason=s("30.8 V reach the input."),
    findings=(FINDING,),
    table=(FoundAllowed(what=s("Lowest output"), found=volts(30.8), allowed=volts(28.5)),),
    way_out=(s("Use another charger."),),
    sizes=GUIDE.sizes,
    sizes_note=s("At the lowest voltage."),
    sources=GUIDE.sources,
    kept=True,
)
WITHDRAWAL = Withdrawal(why=s("The rules refuse this fit now."), findings=(FINDING,), last=REVISION)


def entry(content, kind="guide", state="released", fit=IDENTITY.fit):
    """Return a told entry, as the pipeline makes it."""
    catalogue = Catalogue("en", SENTENCES)
    told = tell(content, catalogue)
    told.setdefault("identity", tell(IDENTITY, catalogue))
    content = {kind: told, "state": state, "revision": plain(REVISION), "earlier": []}
    return ToldEntry(fit=fit, kind=kind, language="en", content=content)


def book(*entries):
    words = load_catalogue(shipped("templates"), "en").words()
    return ToldBook(language="en", shop=SHOP, words=words, entries=entries)
