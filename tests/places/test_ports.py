"""The table of sea ports."""

import re

import numpy as np
import pytest

from shipcalc.places.sea.miles import load_network, sea_distances
from shipcalc.places.sea.ports import CODE, FILE, find_port, is_port_code

# Ports that vehicles are shipped through; the form of the codes is UN/CEFACT Recommendation No. 16.
VEHICLE_PORTS = """
USNYC USEWR USBAL USORF USCHS USSAV USSSI USJAX USMIA USPEF USHOU USGLS USFPO USMSY USLAX USLGB USNTD USSFO USOAK USRCH USPDX
USTIW USSEA USHNL USANC PRSJU GUAPR DEBRV DEHAM DEEME NLRTM NLAMS BEANR BEZEE GBSOU GBTIL GBFXT GBLIV GBBRS FRLEH FRFOS ESBCN
ESSDR ESVGO PTLIS ITLIV ITGOA ITCVV GRPIR TRDRC SEGOT NOOSL NODRM DKEBJ FIHKO PLGDN IEDUB ISREY CYLMS MTMLA ILASH EGALY SAJED
SADMM AEJEA AEAUH QAHMD KWSWK OMSOH BHKBS ZADUR ZAPLZ ZAELS ZACPT KEMBA NGLOS GHTEM MACAS TZDAR INBOM INMAA LKCMB THLCH SGSIN
MYPKG IDJKT PHMNL VNSGN HKHKG TWKEL CNSHA CNTXG KRPUS KRPTK KRINC JPYOK JPKWS JPNGO JPTOY JPUKB JPOSA AUBNE AUSYD AUPKL AUMEL
AUGEX AUADL AUFRE NZAKL NZLYT NZWLG NZTRG BRSSZ BRRIO BRVIX ARBUE ARZAE UYMVD CLVAP CLSAI CLIQQ PECLL ECGYE COCTG COBUN PABLB
PAROD MXVER MXLZC MXATM CRLIO DOHAI JMKIN BSNAS BBBGI TTPOS CAHAL CAVAN CAMTR CASJB
""".split()


@pytest.mark.parametrize("code", VEHICLE_PORTS)
def test_a_vehicle_port_is_in_the_table(code):
    port = find_port(code)
    assert port is not None
    assert (port.kind, port.country, port.found_by) == ("port", code[:2], f"UN/LOCODE {code}")


def test_every_vehicle_port_is_reached_from_new_york():
    ports = [find_port(code) for code in VEHICLE_PORTS]
    nmi = sea_distances(load_network(), find_port("USNYC"), ports).nmi
    assert {code: float(miles) for code, miles in zip(VEHICLE_PORTS, nmi, strict=True) if not miles < 13_500} == {}


def test_a_code_is_found_as_people_write_it():
    assert find_port("us sav") == find_port("USSAV")
    assert find_port("USSAV").name == "Savannah"
    assert find_port("USSAV").subdivision == "GA"
    assert find_port("USZZ1") is None


def test_two_codes_in_use_lead_to_the_port_of_the_table():
    """Brunswick, Georgia, is USSSI in the World Port Index; Guam's harbour is GUAPR."""
    assert find_port("USBQK").name == "Brunswick"
    assert find_port("GUGUM") == find_port("GUAPR")


def test_codes_are_well_formed_and_in_order():
    codes = np.load(FILE)["code"].astype(str).tolist()
    assert codes == sorted(set(codes))
    assert all(re.fullmatch(CODE, code) for code in codes)
    assert len(codes) > 3000
    assert not is_port_code("USNY1")
    assert is_port_code("de brv")
