"""The work done on a bench model of the circuit: what is live, fixed and signed, step by step.

Written from the job's rules and the words of `Step` alone. It shares no code with the room that
finds the order, nor with the walk that releases a guide, so that a mistake there is not repeated
here. What must hold on it is in `invariants.py`.
"""

from dataclasses import dataclass, field


@dataclass
class Bench:
    """What a person at the vehicle would find now."""

    circuit: object
    ends: set = field(default_factory=set)  # (tag, letter) that are joined
    closed: set = field(default_factory=set)  # tags of protections that conduct
    battery: bool = True  # the starter battery's negative is on
    second: bool = True  # a second battery's negative is on
    running: bool = False

    def live(self):
        """Return every letter and tag with a battery's plus on it."""
        at = {joint.role: joint.letter for joint in self.circuit.joints}
        hot = {at.get("battery+", at["source+"])} if self.battery else set()
        hot |= {at["load+"]} if self.second and "load+" in at else set()
        links = self._links(at)
        while True:
            more = {b for pair in links for a, b in (pair, pair[::-1]) if a in hot} - hot
            if not more:
                return hot
            hot |= more

    def _links(self, at):
        """Pairs of things that are one piece of metal; the return side carries no plus."""
        links = [
            (tag, letter)
            for wire in self.circuit.conductors
            for tag, letter in ((wire.tag, wire.start), (wire.tag, wire.end))
            if (tag, letter) in self.ends and wire.use != "return"
        ]
        links += [(p.start, p.end) for p in self.circuit.protections if p.tag in self.closed]
        # A fed charger may run: both its outputs are then above the body.
        links += [(at["in+"], at[role]) for role in ("out+", "out-") if role in at]
        return links

    def do(self, step):
        """Change what the step changes."""
        made = set(step.makes)
        self.ends |= {tuple(end.split("@")) for end in step.joins}
        for protection in self.circuit.protections:
            tag = protection.tag
            if {f"{tag}.in", f"{tag}.in.again"} & made:
                self.closed.add(tag)
            if {f"{tag}.out", f"{tag}.out.again"} & made:
                self.closed.discard(tag)
        if "negative-off" in made:
            self.battery = False
        if "negative-on" in made:
            self.battery = True
        if "second-off" in made:
            self.second = False
        if "second-on" in made:
            self.second = True
        if any(state.startswith("running.") for state in made):
            self.running = True
        if any(state.startswith("running.") for state in step.breaks):
            self.running = False


class Course:
    """The steps in their order, and the number of the first that does a thing."""

    def __init__(self, checked, guide):
        self.checked, self.guide = checked, guide
        self.circuit = checked.design.circuit
        self.fit = checked.design.fit
        self.steps = [step for chapter in guide.chapters for step in chapter.steps]
        self.at = {joint.role: joint.letter for joint in self.circuit.joints}

    def first(self, *states):
        """Place of the first step that makes one of these, past the end if none does."""
        return self._first(lambda step: set(states) & set(step.makes))

    def last(self, *states):
        found = [n for n, step in enumerate(self.steps) if set(states) & set(step.makes)]
        return max(found, default=len(self.steps))

    def joining(self, letter):
        return self._first(lambda step: any(e.split("@")[1] == letter for e in step.joins))

    def signing(self, hold):
        return self._first(lambda step: step.hold is not None and step.hold.id == hold)

    def _first(self, wanted):
        return next((n for n, step in enumerate(self.steps) if wanted(step)), len(self.steps))

    def name(self, n):
        return self.steps[n].id if n < len(self.steps) else "never"
