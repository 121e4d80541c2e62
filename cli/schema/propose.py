"""The schema of a proposal's report.json: wheels that pass, their cost, what binds them."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from platewheel.cli.schema.row import Row, Versioned

WheelKind = Literal[
    "",
    "cheapest",
    "other stock",
    "most reserve for its money",
    "lightest",
    "least welding",
    "fewest plates",
]


class ChangeRow(Row):
    """A wheel one step away from a proposal."""

    key: str = Field(description="of the job file, or several")
    was: str = Field(description="the proposal's value")
    becomes: str = Field(description="the value one step away")
    mass_kg: float = Field(description="more or less than the proposal")
    cost: float = Field(description="a wheel, estimated, more or less")
    rating_percent: float | None = Field(description="more or less; absent: cannot be rated")
    fails: list[str] = Field(description="checks that it would fail")
    warns: list[str] = Field(description="checks that would warn and do not yet")


class ProposalRow(Row):
    """A wheel that passes every check; the keys that differ from the job's [wheel]."""

    rank: int = Field(description="from 1, cheapest first; 0 for the job's own wheel")
    kind: WheelKind = Field(default="", description="what it has over the first; empty: next best")
    lessons: list[str] = Field(
        default_factory=list, description="what binds it, what it gives up, when to take it"
    )
    wheel: dict[str, Any] = Field(description="every key of [wheel]")
    play_mm: float = Field(description="total, in the nominal gauge")
    back_to_back_mm: float = Field(description="between the flanges' inner faces, for that play")
    set_back_to_back_mm: float | None = Field(
        default=None, description="the same as a key of [axle]; absent: left out, the usual play"
    )
    cost_per_wheel: float = Field(description="with its plates laid, quick effort")
    cost_estimate: float = Field(description="as it was ranked before anything was laid")
    cost_lacks: list[str] = Field(
        default_factory=list, description="what has no price, so that it costs more"
    )
    mass_kg: float = Field(description="one wheel with its weld beads")
    hours_per_wheel: float = Field(description="of all works at the job's rates")
    rated_n: float = Field(
        description="load rating of a wheel at a joint, the lower of new and worn"
    )
    load_n: float = Field(description="design wheel load that it must carry")
    governs: str = Field(description="limit that sets the rating")
    payload_kg_per_wagon: float = Field(description="that the rating allows")
    sheets_used: int = Field(description="plates for the whole job")
    binds: str = Field(description="the check with the least room of those that pass")
    binds_margin: float = Field(description="of that check, relative to its limit")
    warnings: list[str] = Field(description="titles of checks that warn")
    changes: list[ChangeRow] = Field(description="one step away; of the first proposal alone")


class OwnRow(Row):
    """The wheel that the job file has: what a proposal has to beat."""

    row: ProposalRow | None = Field(description="absent: not rated, or its plates fit no stock")
    against: list[str] = Field(description="why it is no proposal; empty where it may be one")


class TradeRow(Row):
    """A wheel that was analysed: cost against strength."""

    cost_estimate: float = Field(description="a wheel, before anything is laid")
    rated_n: float = Field(description="mean wheel load that it bears")
    tread_diameter_mm: float = Field(description="of that wheel")
    tread_thickness_mm: float = Field(description="of that wheel")
    disc_thickness_mm: float = Field(description="of that wheel")
    best: bool = Field(description="no cheaper one is as strong")


class FlareRow(Row):
    """The first proposal with another flange angle."""

    flange_angle_deg: float = Field(description="rail-side face to axle axis")
    climb: float = Field(description="margin against climbing the rail")
    room: float = Field(description="margin against grinding in the tightest curve")
    verdict: str = Field(description="the worst of the checks of running that hang on the angle")


class SieveRow(Row):
    """A check of the screening, and how many wheels it let through."""

    check: str = Field(description="its id")
    came: int = Field(description="wheels that were asked")
    passed: int = Field(description="wheels that it let through")
    warned: int = Field(default=0, description="held back for a warning that others are free of")


class ProposeReport(Versioned):
    """Wheels proposed for a job, and how they were found."""

    job: str = Field(description="name of the job")
    currency: str = Field(description="of [costs]; kg where nothing has a price")
    not_priced: bool = Field(description="no price at all: the estimate is kg of steel")
    choices: int = Field(description="combinations of all free dimensions")
    judged: int = Field(description="most wheels judged at once by the screening")
    screened: int = Field(description="wheels that passed it")
    mean_load_n: float = Field(description="mean wheel load of the loaded wagon")
    analysed: int = Field(description="wheels with a stress analysis")
    stopped: bool = Field(description="by Ctrl-C: cheaper ones may not have been seen")
    own: OwnRow = Field(description="the job's wheel beside them")
    proposals: list[ProposalRow] = Field(description="cheapest first")
    trade: list[TradeRow] = Field(description="all that were analysed")
    flare: list[FlareRow] = Field(description="of the first proposal")
    sieves: list[SieveRow] = Field(
        description="of the screening, in the order in which they are asked"
    )
    left_out: list[str] = Field(description="finalists that fail in full, each with the reason")
    notes: list[str] = Field(default_factory=list, description="what to know of all proposals")
    refused: list[str] = Field(description="why no wheel passes, and what to change on the track")
