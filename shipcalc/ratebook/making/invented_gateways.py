"""Gateways and the state of passages of the rate book that comes with the program.

The gateways are real: the customary ports of landlocked countries, and of islands that no ship of the book calls at. How each
was learnt stands beside it.
"""

GATEWAY_FIELDS = "country ports learnt"
GATEWAYS = """
ML | SNDKR CIABJ       | article
BF | CIABJ GHTEM TGLFW | article
NE | TGLFW GHTEM CIABJ | article
TD | CMDLA             | article
CF | CMDLA             | article
UG | KEMBA TZDAR       | article
RW | TZDAR KEMBA       | article
BI | TZDAR KEMBA       | article
SS | KEMBA             | article
ET | DJJIB             | article
ZM | TZDAR ZADUR NAWVB | part
MW | MZBEW TZDAR ZADUR | part
ZW | MZBEW ZADUR MZMPM | part
BW | ZADUR NAWVB       | part
LS | ZADUR             | memory
SZ | ZADUR MZMPM       | memory
BO | CLARI CLIQQ       | memory
PY | UYMVD ARBUE       | memory
MN | CNTXG             | memory
LA | THLCH             | memory
NP | INCCU             | memory
BT | INCCU             | memory
AF | PKKHI             | memory
AM | GEPTI             | memory
AZ | GEPTI             | memory
KZ | GEPTI CNTXG       | memory
KG | GEPTI CNTXG       | memory
TJ | GEPTI             | memory
TM | GEPTI             | memory
UZ | GEPTI             | memory
MD | ROCND             | memory
MK | GRSKG ALDRZ       | memory
XK | ALDRZ GRSKG       | memory
PS | ILASH             | memory
MF | SXPHI             | memory
RS | MEBAR HRRJK SIKOP | memory
BA | HRRJK             | memory
GI | ESALG             | memory
SV | GTSTC HNPCR SVAQJ | memory
NF | AUBNE             | memory
CX | AUFRE             | memory
CC | AUFRE             | memory
SH | ZACPT             | memory
FK | UYMVD             | memory
TK | WSAPW             | memory
AI | SXPHI             | memory
BL | SXPHI             | memory
AE | OMSOH             | coast
"""
_ARTICLE = "Transit ports of Africa's landlocked countries, supplychainafrika.com"
LEARNT = {
    "article": {"source": _ARTICLE, "trust": "second hand"},
    "part": {
        "source": _ARTICLE,
        "trust": "second hand",
        "office_note": "Which of the country's ports take vehicles: from memory",
    },
    "memory": {"trust": "memory"},
    "coast": {"note": "Outside the Strait of Hormuz, by road from there.", "trust": "memory"},
}

PASSAGE_FIELDS = "passage state note"
PASSAGES = """
suez          | caution | attacked
bab-el-mandeb | caution | attacked
hormuz        | caution | held up
"""
NOTES = {
    "attacked": (
        "In and by the Red Sea merchant ships were attacked since 2023: the line may go around the Cape of Good Hope, which "
        "takes about two weeks longer."
    ),
    "held up": ("Ships may be held up or turned back here at short notice: the line says on the day whether it sails."),
}
PASSAGE_SOURCE = {"trust": "memory", "office_note": "The state of the day is for the manager to set"}
