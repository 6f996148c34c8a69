"""The words by which carriers and forwarders head their columns. Adding a synonym is adding a word here.

From general knowledge of the trade; words are small letters without accents, divided by |.
"""

from collections.abc import Mapping


def _words(text: str) -> frozenset[str]:
    return frozenset(" ".join(word.split()) for word in text.split("|"))


# A header of a place is a side and a part ("Dest. ZIP"), or either alone.
FROM = _words("von|abgang|start|abholung|abholort|beladung|laden|van|ophalen|vertrek|depart|depuis|enlevement|origine|origen|desde|recogida|salida|partenza|da|origem|from|origin|orig|pickup|pick up|pick|ship from|loading|load|departure|start|starting|collection|collect|outbound from|ex|o|depart|shipper")
TO = _words("nach|ziel|zielort|lieferung|lieferort|entladung|zustellung|naar|bestemming|aflevering|afleveren|vers|livraison|destino|entrega|hasta|destinazione|consegna|arrivo|a destination|to|destination|dest|destn|delivery|deliver|deliver to|drop|drop off|dropoff|ship to|discharge|unloading|arrival|arrive|consignee|d|receiver|delivered to|into")
PARTS: Mapping[str, frozenset[str]] = {
    "city": _words("stadt|ort|plaats|stad|ville|ciudad|citta|city|town|place|location|point|metro|market|city state|city st|city and state|yard"),
    "state": _words("bundesland|staat|provincie|etat|estado|state|st|states|province|prov|state code|state province"),
    "zip": _words(
        "zip|zips|zip code|zip codes|zipcode|postal code|postcode|postal|zip3|zip 3|3 zip|3zip|zip5|zip 5|zip prefix|zip prefixes|prefix|"
        "zip range|zip ranges|3 digit zip|5 digit zip|three digit zip|first three digits|zip area|zip first 3|zip 3 digit|zip first three"
    ),
    "zone": _words("gebiet|gebied|zona|zone|region|area|territory|zone name|rate zone|zones|area name|lane zone"),
    "port": _words("hafen|haven|puerto|porto|locode|un locode|port|terminal|port name|seaport"),
    "country": _words("land|pays|pais|paese|cntry|country|nation|country code"),
}
LOW = _words("zip low|low zip|zip start|start zip|zip begin|begin zip|beginning zip|zip min|lowest zip|first zip|zip range start|zip range low|range from|zip lo")
HIGH = _words("zip high|high zip|zip end|end zip|ending zip|zip max|highest zip|last zip|zip range end|zip range high|range to|zip hi|zip thru|thru zip|zip through")
FILLERS = _words("of|the|and|name|code|us|usa|uscan|your|our|for|in|a|an|whole|point|by|all|any|as|is|on|at|type|only|s")

# Fields by their whole header, once traits (trailer, currency, unit, fuel) are taken out of it.
FIELDS: Mapping[str, frozenset[str]] = {
    "carrier": _words("carr|carrier cd|carrier code|scac|vervoerder|transporteur|frachtfuhrer|transportista|vettore|carrier|carrier name|trucking company|haulier|haulage company|transporter|shipping line|ocean carrier|ocean line|line name|carrier line|steamship line|operator"),
    "forwarder": _words("forwarder|freight forwarder|agent|nvocc"),
    "trailer": _words("anhanger|fahrzeugtransporter|equip cd|eqp|eqpt|equip type|trlr|trl|trailer|trailer type|equipment|equipment type|equip|transport type|type of trailer|truck type|type of transport|transport|haul type|carrier type|service type|hauler type|type"),
    "mode": _words("mode|mode of shipment|shipping method|method|shipment mode|ocean mode"),
    "lane": _words("strecke|relation|traject|trajet|trayecto|ruta|tratta|od pair|market lane|origin and destination|lane|lanes|route|routing|lane description|trade lane|trade|origin destination|origin dest|from to|o d|relation|city pair"),
    "pol": _words("verladehafen|ladehafen|abgangshafen|laadhaven|haven van vertrek|port de chargement|port de depart|puerto de carga|puerto de origen|porto di imbarco|porto de embarque|porto di carico|pol|port of loading|load port|loading port|port of origin|origin port|export port|port of load|port of export|departure port|from port|port from|pol code"),
    "pod": _words("loschhafen|entladehafen|ankunftshafen|zielhafen|bestimmungshafen|loshaven|lossen|haven van aankomst|bestemmingshaven|port de dechargement|port d arrivee|port de destination|puerto de descarga|puerto de destino|porto di sbarco|porto de desembarque|porto di scarico|pod|port of discharge|discharge port|port of destination|destination port|import port|arrival port|port of arrival|to port|port to|dest port|pod code|port of unloading"),
    "rate": _words(
        "seefracht|fracht|frachtrate|preis|preise|betrag|satz|kosten|prijs|prijzen|tarief|zeevracht|vracht|bedrag|prix|tarifs|fret|fret maritime|montant|precio|precios|tarifa|flete|flete maritimo|importe|prezzo|prezzi|tariffa|nolo|nolo marittimo|importo|preco|frete|rate|rates|price|prices|cost|amount|quote|quoted|flat|flat rate|flat price|lump sum|tariff|charge|sell rate|your rate|our rate|price quote|net rate|net price|"
        "offer|fixed|fixed price|fixed rate|lane rate|lane price|transport rate|transport|carrier pay|ocean freight|sea freight|freight|freight rate|basic freight|of|o f|"
        "old rate|previous rate|last rate|prior rate|old price|previous price|current price|existing rate|old|new|now|ocean rate|unit price|unit rate|rate quoted|contract rate|new rate|new price|current rate|vehicle rate|delivered price|door to door|door door"
    ),
    "linehaul": _words("linehaul|line haul|line haul rate|linehaul rate|base rate|base price|l h|lh|base freight|linehaul charge"),
    "total": _words("total|total rate|total price|total cost|grand total|total charge|sum|total due|total amount|all in total|rate total|total per"),
    "base": _words("base|base fee|flag fall|start fee|fixed fee|pickup fee|pick up fee|base charge|plus fixed|fixed charge"),
    "fuel": _words("fsc pct|fuel pct|fsc percent|brandstof|brandstoftoeslag|dieselzuschlag|treibstoffzuschlag|dieseltoeslag|surcharge carburant|recargo combustible|fuel|fsc|fuel surcharge|fuel sc|fuel charge|fuel adj|fuel adjustment|fuel pct|fuel percent|fuel percentage|diesel surcharge|fuel s c"),
    "minimum": _words("min chg|minimum chg|mindestpreis|minimumprijs|minimum prijs|mindestens|minimo|min amt|minchg|min rate amount|min|minimum|minimum charge|min charge|minimum rate|min rate|minimum price|not less than|floor|min freight|minimum freight"),
    "currency": _words("wahrung|valuta|munt|devise|monnaie|moneda|divisa|moeda|cur code|currency|cur|curr|ccy|currency code"),
    "fuel_said": _words("fuel included|fsc included|fuel incl|incl fuel|fuel in rate|fuel included y n|includes fuel|fuel yes no"),
    "valid_from": _words("gultig ab|ab|geldig vanaf|valable du|valido desde|desde|eff dt|eff from|start dt|valid dt|from dt|valid from|effective|effective date|eff date|eff|start date|valid as of|effective from|from date|validity start|valid beginning|rate effective|date effective"),
    "valid_to": _words("gultig bis|bis|geldig tot|tot|valable jusqu au|valido hasta|hasta|exp dt|exp|thru dt|end dt|to dt|expiration dt|valid to|valid until|valid till|valid thru|valid through|expires|expiry|expiration|exp date|expiration date|expiry date|end date|to date|validity end|expires on|good until|good through|good thru|rate expires"),
    "validity": _words("gultigkeit|geldigheid|validite|vigencia|validita|validity|valid|valid period|period|validity period|rate validity|effective dates"),
    "reference": _words("angebotsnummer|angebot|offertenummer|tarif|tarif nr|nr offerte|tariff|tariff id|tariff no|rate sheet|contract id|ref|reference|quote no|quote number|quote id|quotation|quotation no|quotation number|contract|contract no|contract number|our ref|rate id|quote ref|reference no|tariff no|lane id|reference number|rate ref|offer no"),
    "basis": _words("einheit|eenheid|per eenheid|unite|unidad|base|berechnungsgrundlage|basis|unit|uom|rate basis|charged per|per|charge basis|unit of measure|calc basis|calculation basis|charge unit"),
    "container": _words("container|container size|container type|cntr|ctr|box|equipment size|size of container|cont size"),
    "free_days": _words("freizeit|freie tage|vrije dagen|jours libres|dias libres|franchise|free days at dest|freetime|free time days|free days pod|free days at pod|free days dest|free days|free time|free|free time days|free days at destination|free time at destination|storage free days|days free"),
    "charge": _words("bezeichnung|leistung|posten|designation|concepto|voce|charge name|charge description|description|item description|cost item|charge type|charges|surcharge|service description|particulars|charge item|item"),
    "remark": _words("bemerkung|bemerkungen|hinweis|anmerkung|opmerking|opmerkingen|remarque|remarques|observaciones|notas|note e osservazioni|toelichting|omschrijving|note|notes|remark|remarks|comment|comments|conditions|special instructions|restrictions|info|information|details"),
    "condition": _words(
        "length|vehicle type|vehicle|vehicles|vehicle size|size|class|vehicle class|make|model|weight|height|category|vehicle category|operable|condition|running|size class|"
        "lange|fahrzeuglange|fahrzeugtyp|fahrzeug|gewicht|lengte|voertuig|longueur|vehicule|longitud|vehiculo|lunghezza|veicolo|gabarit|type of vehicle|vehicle length|cargo|body type"
    ),
    "distance": _words("miles|distance|mileage|mi|km|kms|kilometers|kilometres|approx miles|practical miles|est miles|distance miles|distance km|loaded miles|road miles|total miles|distance mi"),
    "skip": _words(
        "laufzeit|dauer|looptijd|delai|frecuencia|pos|position|artikel nr|item no|prio|rang|lkw|anteil|abfahrten|aendering|aenderung|verschil|transit|transit days|transit time|tt|t t|t time|days|lead time|frequency|freq|no|number|line no|seq|id|lane no|hours|via|vessel|vessel name|service name|sailing|contact|phone|email|"
        "e mail|est days|days in transit|estimated days|pickup days|capacity|capacity week|trucks week|sailings|etd|eta|cut off|cutoff|row|nr|transshipment|t s port|ts port|"
        "volume|loads week|status|last updated|updated|rank|priority|trailers|driver|mc|mc number|dot|dot number|direct|loads|weekly capacity|service level days|commodity|lane code|change|change pct|diff|difference|increase"
    ),
}

# What is asked on top of an ocean freight, by what it is called.
SURCHARGES: Mapping[str, frozenset[str]] = {
    "bunker": _words("baf|bunker|bunker surcharge|bunker adjustment|bunker adjustment factor|baf bunker|fuel baf|bunker baf|bunker charge|baf surcharge|mfr|ebs|bunker contribution|baf lss|eff"),
    "currency adjustment": _words("caf|currency adjustment|currency adjustment factor|currency surcharge"),
    "peak season": _words("pss|peak season|peak season surcharge|peak|peak surcharge"),
    "rate increase": _words("gri|general rate increase"),
    "terminal handling": _words("thc|othc|terminal handling|terminal handling charge|thc origin|origin thc|handling|terminal charge|port handling"),
    "terminal handling at arrival": _words("dthc|thc destination|destination thc|thc pod|thc dest"),
    "bill of lading": _words("b l|bl|b l fee|bl fee|bill of lading|bill of lading fee|doc fee|docs fee|documentation|documentation fee|document fee|b l charge|docs|doc|bill of lading charge|b l issuance"),
    "security": _words("isps|security|security fee|security surcharge|port security|carrier security"),
    "war risk": _words("war risk|war risk surcharge|wrs|war"),
    "low sulphur": _words("lss|low sulphur|low sulfur|low sulphur surcharge|low sulfur surcharge|eca"),
    "emissions": _words("ets|emissions|emission surcharge|eu ets|ets surcharge|carbon surcharge"),
    "wharfage": _words("wharfage|port dues|port fee|port charges|port charge"),
    "filing": _words("ams|ens|isf|aes|aes filing|ams fee|ens fee|manifest|filing|customs filing|export filing"),
}
