"""All sheets of the rate book as rows, before and after they are checked; and the list of the sheets."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from shipcalc.ratebook.rows.areas import Area, Season
from shipcalc.ratebook.rows.carriers import Carrier
from shipcalc.ratebook.rows.diesel import DieselPrice
from shipcalc.ratebook.rows.extra_charges import ExtraCharge
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.fuel import FuelScheme
from shipcalc.ratebook.rows.fuel_steps import FuelStep
from shipcalc.ratebook.rows.lanes import LaneRow
from shipcalc.ratebook.rows.markups import MarkupRow
from shipcalc.ratebook.rows.mile_bands import MileBand
from shipcalc.ratebook.rows.occasions import Occasion
from shipcalc.ratebook.rows.overseas_sheets import OVERSEAS, OVERSEAS_SHEETS
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.rows.paperwork_sheets import PAPERWORK, PAPERWORK_SHEETS
from shipcalc.ratebook.rows.pricing_setting import PricingSetting
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.service_classes import ServiceClass
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.trucking_sheets import TRUCKING, TRUCKING_SHEETS
from shipcalc.ratebook.rows.vehicle_sizes import VehicleSize
from shipcalc.ratebook.rows.vehicles_loaded import VehiclesLoaded
from shipcalc.ratebook.rows.yards import Storage, Terminal
from shipcalc.records import dataclass, field

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.containers import ContainerType
    from shipcalc.ratebook.rows.currencies import Currency
    from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
    from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
    from shipcalc.ratebook.rows.loading import LoadingWay
    from shipcalc.ratebook.rows.marine_cover import MarineCover
    from shipcalc.ratebook.rows.ocean import OceanService
    from shipcalc.ratebook.rows.on_carriage import OnCarriage
    from shipcalc.ratebook.rows.port_charges import PortCharge
    from shipcalc.ratebook.rows.ports import Port
    from shipcalc.ratebook.rows.quotations import OceanQuotation
    from shipcalc.ratebook.rows.stage_charges import StageCharge
    from shipcalc.ratebook.rows.ways import BorderPort, Gateway, PassageState


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tables:
    """The usable rows of every sheet.

    `unread` maps a sheet to the names in its unusable rows (None: no row could be read), so that one slip is told once.
    """

    carriers: tuple[Carrier, ...] = ()
    bands: tuple[MileBand, ...] = ()
    lanes: tuple[LaneRow, ...] = ()
    extras: tuple[ExtraCharge, ...] = ()
    areas: tuple[Area, ...] = ()
    seasons: tuple[Season, ...] = ()
    diesel: tuple[DieselPrice, ...] = ()
    fuel: tuple[FuelScheme, ...] = ()
    fuel_steps: tuple[FuelStep, ...] = ()
    road_factors: tuple[RoadFactor, ...] = ()
    ferries: tuple[Ferry, ...] = ()
    storage: tuple[Storage, ...] = ()
    terminals: tuple[Terminal, ...] = ()
    sizes: tuple[VehicleSize, ...] = ()
    loaded: tuple[VehiclesLoaded, ...] = ()
    occasions: tuple[Occasion, ...] = ()
    classes: tuple[ServiceClass, ...] = ()
    markups: tuple[MarkupRow, ...] = ()
    settings: tuple[PricingSetting, ...] = ()
    documents: tuple[DocumentRow, ...] = ()
    tasks: tuple[TaskRow, ...] = ()
    from_buyer: tuple[FromBuyerRow, ...] = ()
    ports: "tuple[Port, ...]" = ()
    ocean: "tuple[OceanService, ...]" = ()
    quotations: "tuple[OceanQuotation, ...]" = ()
    port_charges: "tuple[PortCharge, ...]" = ()
    containers: "tuple[ContainerType, ...]" = ()
    loading_ways: "tuple[LoadingWay, ...]" = ()
    stage_charges: "tuple[StageCharge, ...]" = ()
    on_carriage: "tuple[OnCarriage, ...]" = ()
    ferries_abroad: "tuple[FerryAbroad, ...]" = ()
    gateways: "tuple[Gateway, ...]" = ()
    passages: "tuple[PassageState, ...]" = ()
    border_ports: "tuple[BorderPort, ...]" = ()
    marine_cover: "tuple[MarineCover, ...]" = ()
    currencies: "tuple[Currency, ...]" = ()
    countries: "tuple[Country, ...]" = ()
    import_charges: "tuple[ImportCharge, ...]" = ()
    entry_rules: "tuple[EntryRule, ...]" = ()
    holds: "tuple[Hold, ...]" = ()
    unread: Mapping[str, frozenset[str] | None] = field(default_factory=dict)

    def may_stand_in(self, sheet: str, name: str) -> bool:
        """Return whether `name` may stand in a row of that sheet which could not be read."""
        names = self.unread.get(sheet, frozenset())
        return names is None or name.casefold() in names


WORKBOOKS: Mapping[str, tuple[SheetKind, ...]] = {
    TRUCKING: TRUCKING_SHEETS,
    OVERSEAS: OVERSEAS_SHEETS,
    PAPERWORK: PAPERWORK_SHEETS,
}
SHEETS: tuple[SheetKind, ...] = tuple(sheet for sheets in WORKBOOKS.values() for sheet in sheets)
