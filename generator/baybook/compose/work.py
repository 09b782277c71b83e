"""What every part of this room reads: a checked design with its parts at hand."""

from __future__ import annotations

from dataclasses import dataclass

from baybook.circuit import Circuit, Conductor, Joint, Protection, Stretch
from baybook.compose.practice import SLEEP_STEP
from baybook.design import CheckedDesign, Design
from baybook.finding import Amount, Finding, Message, Name, Ref, Verdict, say
from baybook.fit import Fit
from baybook.point import Point
from baybook.quantity import Quantity, Unknown
from baybook.route import Segment
from baybook.shop import Tool
from baybook.terms import CueKind, JointKind, Polarity


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """One checked design on its way to a guide."""

    checked: CheckedDesign

    @property
    def design(self) -> Design:
        return self.checked.design

    @property
    def fit(self) -> Fit:
        return self.checked.design.fit

    @property
    def circuit(self) -> Circuit:
        return self.checked.design.circuit

    @property
    def segments(self) -> tuple[Segment, ...]:
        return self.fit.vehicle.routes[self.fit.job.route].segments

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        return self.circuit.stretches

    @property
    def fuse(self) -> Protection:
        """The protection at the source."""
        return self.circuit.protections[0]

    @property
    def second_fuse(self) -> Protection:
        """The protection at a second battery; StopIteration for a station."""
        return next(part for part in self.circuit.protections if part.tag == "F2")

    @property
    def fuse_words(self) -> str:
        """The middle of a message id about the protection: a fuse of the vehicle has its own."""
        return "factory" if self.fuse.factory else self.fuse.form

    @property
    def new(self) -> tuple[Conductor, ...]:
        """The conductors that this work lays, in tag order."""
        return tuple(wire for wire in self.circuit.conductors if not wire.existing)

    @property
    def run(self) -> tuple[Conductor, ...]:
        """The conductors that lie in the route: not the ones behind the charger."""
        return tuple(wire for wire in self.new if not wire.use.startswith("output"))

    @property
    def long(self) -> tuple[Conductor, ...]:
        """The conductors that lie along the route behind the protection."""
        back = "" if self.body is None else "return"
        return tuple(wire for wire in self.run if wire.use not in {"source", back})

    @property
    def body(self) -> Joint | None:
        """The battery's own body point, where the body carries the return; else None."""
        return self.joint("body") if self.has_joint("body") else None

    @property
    def ground(self) -> Joint:
        """The body as it is measured against near the battery."""
        return self.body or self.joint("return")

    @property
    def holds(self) -> tuple[Finding, ...]:
        """The findings that ask for a hold point of their own."""
        return tuple(f for f in self.checked.findings if f.verdict is Verdict.HOLD)

    @property
    def voltage_cue(self) -> bool:
        return self.fit.vehicle.cues[self.fit.job.cue].kind is CueKind.VOLTAGE

    @property
    def stays_on(self) -> bool:
        """The charger keeps running on the battery at rest: nothing but the fuse stops it."""
        supply, charger = self.fit.vehicle.supply, self.fit.charger
        return self.voltage_cue and supply.rest.value > charger.cut_out.value

    def joint(self, role: str) -> Joint:
        return self.circuit.joint(self._open_end.get(role, role))

    @property
    def _open_end(self) -> dict[str, str]:
        """Where the output is read before the load is joined: at the plug, or before F2."""
        return {} if self.fit.second is None else {"plug+": "load-in", "plug-": "load-"}

    @property
    def negative(self) -> Joint:
        """Where the battery's negative comes off: its post, which may be the return itself."""
        return self.joint("source-" if self.has_joint("source-") else "return")

    @property
    def _post(self) -> Point | None:
        points = self.fit.vehicle.points.values()
        return next((p for p in points if p.role == "negative" and p.at_post), None)

    @property
    def post_torque(self) -> Quantity | None:
        """Torque of the negative clamp that is taken off and put back."""
        post = self._post
        return post.torque if post and isinstance(post.torque, Quantity) else None

    @property
    def post_socket(self) -> str:
        return self._post.tool if self._post else ""

    @property
    def post_tool(self) -> Message:
        if not self.post_socket:
            return say("tool.terminal")
        return say("tool.socket", socket=Name(self.post_socket))

    def has_joint(self, role: str) -> bool:
        return any(joint.role == role for joint in self.circuit.joints)

    def at(self, letter: str) -> Joint:
        """Return the joint of this letter."""
        return next(joint for joint in self.circuit.joints if joint.letter == letter)

    def has(self, figure: str) -> bool:
        return any(f.name == figure for f in self.design.figures)

    def amount(self, figure: str, *, digits: int | None = None, show: str = "") -> Amount:
        """Return a figure of the design; KeyError if there is none."""
        found = self.design.figure(figure)
        return Amount(
            found.value, found.unit, found.digits if digits is None else digits, show=show
        )

    @property
    def volt_digits(self) -> int:
        """Decimals of a set voltage: those that the charger can be set to."""
        return 0 if float(self.fit.charger.output_step.value).is_integer() else 1

    @property
    def setting(self) -> Amount:
        return self.amount("set_voltage", digits=self.volt_digits)

    def contact(self, sign: str) -> str:
        """Which contact of a round plug is this one, "" where pins are told by their marks.

        sign  "plus" or "minus"
        """
        centre = {Polarity.CENTRE_POSITIVE: "plus", Polarity.CENTRE_NEGATIVE: "minus"}
        at_centre = centre.get(self.fit.station.polarity)
        if at_centre is None:
            return ""
        return "centre" if sign == at_centre else "sleeve"

    def wrench(self, joint: Joint) -> Message:
        """Return the tool that brings this joint to its torque, with the socket."""
        at_source = joint.role.startswith(("source+", "fuse-", "load"))
        return self.torque_tool(joint.torque, joint.tool or "", insulated=at_source)

    def torque_tool(
        self, torque: Quantity | Unknown | None, socket: str, *, insulated: bool = False
    ) -> Message:
        """Return the shop's tool whose range covers the torque; the plain socket if none does.

        A torque that is still asked for wants a wrench too; which one is known when it is signed.
        """
        if isinstance(torque, Unknown):
            asked = "tool.torque.asked"
            return say(f"{asked}.socket", socket=Name(socket)) if socket else say(asked)
        if isinstance(torque, Quantity):
            for tool in self._covering(torque, insulated=insulated):
                words = "tool.torque"
                named = {"name": Name(tool.name), "id": Name(tool.id)}
                return (
                    say(f"{words}.socket", **named, socket=Name(socket))
                    if socket
                    else say(words, **named)
                )
        return say("tool.socket", socket=Name(socket)) if socket else say("tool.hand")

    @property
    def sleep_meter(self) -> Message:
        """The shop's finest clamp if it tells sleep currents apart, else a meter in series."""
        fine = [
            tool
            for tool in self.fit.shop.tools
            if tool.current_step is not None and tool.current_step.value <= SLEEP_STEP.value
        ]
        if not fine:
            return say("tool.sleep.series")
        return say("tool.named", name=Name(fine[0].name), id=Name(fine[0].id))

    def _covering(self, torque: Quantity, *, insulated: bool) -> list[Tool]:
        tools = [
            tool
            for tool in self.fit.shop.tools
            if tool.torque_low is not None
            and tool.torque_high is not None
            and tool.torque_low.value <= torque.value <= tool.torque_high.value
        ]
        return sorted(tools, key=lambda tool: (tool.insulated is not insulated, tool.id))


def start_word(work: Work) -> str:
    """How this vehicle is brought to the state in which it charges: by its engine, or ready."""
    return "engine" if work.fit.vehicle.supply.rated is not None else "ready"


def by_start(work: Work, message_id: str) -> str:
    """Return the id of a sentence that speaks of the engine, or of its twin without one."""
    return message_id if start_word(work) == "engine" else f"{message_id}.ready"


# --------------------------------------------------------------------------- addresses on the sheet


def at(letter: str) -> Ref:
    return Ref("joint", letter)


def wire(tag: str) -> Ref:
    return Ref("conductor", tag)


def device(tag: str) -> Ref:
    return Ref("device", tag)


def hold(hold_id: str) -> Ref:
    return Ref("hold", hold_id)


def step(step_id: str) -> Ref:
    return Ref("step", step_id)


def reading(reading_id: str) -> Ref:
    return Ref("reading", reading_id)


def count(number: int) -> Amount:
    """A number of pieces."""
    return Amount(number, "1", 0, show="1")


def millimetres(metres: float, digits: int = 0) -> Amount:
    return Amount(metres, "m", digits, show="mm")


def distance(at_m: float) -> Amount:
    """A place on the route, counted from the source."""
    return Amount(at_m, "m", 2 if at_m else 0).plain()


def written(quantity: Quantity, digits: int = 2) -> Amount:
    return Amount.of(quantity, digits)


LUGGED = frozenset({JointKind.STUD, JointKind.BODY, JointKind.POST, JointKind.ISOLATOR})
