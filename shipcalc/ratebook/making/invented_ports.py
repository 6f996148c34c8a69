"""Ports of the rate book that comes with the program: real places by their UN/LOCODE; prices and days are made up."""

# What a port charges and how long it takes, by a letter that the port names.
FEE_FIELDS = (
    "class gate_minor wharfage_e4 thc_minor free_days free_days_count storage_first_minor storage_first_days "
    "storage_then_minor document_hours document_hours_count cutoff_days clearance_days days_off"
)
FEES = """
A | 95  | 3.20 | 310 | 7 | working  | 25 | 5 | 60  | 72 | clock    | 2 | 3 | Saturday; Sunday
B | 110 | 3.60 | 345 | 5 | working  | 30 | 5 | 75  | 72 | clock    | 2 | 3 | Saturday; Sunday
C | 105 | 3.40 | 330 | 6 | working  | 28 | 5 | 70  | 72 | business | 3 | 3 | Saturday; Sunday
D | 120 | 4.10 | 290 | 5 | working  | 22 | 5 | 55  | 24 | clock    | 1 | 3 | Saturday; Sunday
E | 145 | 4.90 | 340 | 4 | working  | 30 | 4 | 80  | 24 | clock    | 1 | 2 | Saturday; Sunday
F | 85  | 2.60 | 240 | 7 | calendar | 15 | 7 | 40  | 24 | clock    | 1 | 6 | Sunday
G | 90  | 2.80 | 225 | 5 | calendar | 18 | 5 | 50  | 24 | clock    | 1 | 5 | Friday; Saturday
H | 130 | 4.40 | 360 | 3 | working  | 45 | 3 | 110 | 24 | clock    | 1 | 5 | Saturday; Sunday
I | 140 | 5.20 | 380 | 5 | working  | 20 | 5 | 45  | 24 | clock    | 1 | 4 | Saturday; Sunday
J | 115 | 3.90 | 300 | 5 | calendar | 20 | 5 | 60  | 24 | clock    | 1 | 8 | Sunday
"""

PORT_FIELDS = "port name region handles class"
# Where vehicles are shipped from.
EXPORT_PORTS = """
USNYC | New York and New Jersey   | US North Atlantic    | both      | B
USBAL | Baltimore                 | US North Atlantic    | both      | A
USCHS | Charleston                | US South Atlantic    | both      | A
USSAV | Savannah                  | US South Atlantic    | both      | A
USSSI | Brunswick                 | US South Atlantic    | roro      | A
USJAX | Jacksonville              | US South Atlantic    | both      | A
USGLS | Galveston                 | US Gulf              | roro      | A
USHOU | Houston                   | US Gulf              | container | B
USNTD | Port Hueneme              | US California        | roro      | C
USLGB | Los Angeles – Long Beach  | US California        | both      | C
USOAK | Oakland                   | US California        | container | C
USTIW | Tacoma                    | US Pacific Northwest | both      | A
USSEA | Seattle                   | US Pacific Northwest | container | B
"""
ARRIVAL_PORTS = """
DEBRV | Bremerhaven               | North Europe | both | D
DEHAM | Hamburg                   | North Europe | both | D
NLRTM | Rotterdam                 | North Europe | both | D
BEANR | Antwerp                   | North Europe | both | D
BEZEE | Zeebrugge                 | North Europe | roro | D
FRLEH | Le Havre                  | North Europe | both | D
GBSOU | Southampton               | Great Britain and Ireland | both      | E
GBPRU | Portbury (Bristol)        | Great Britain and Ireland | roro      | E
GBFXT | Felixstowe                | Great Britain and Ireland | container | E
GBLIV | Liverpool                 | Great Britain and Ireland | both      | E
GBBEL | Belfast                   | Great Britain and Ireland | container | E
IEDUB | Dublin                    | Great Britain and Ireland | both      | E
IEORK | Cork                      | Great Britain and Ireland | container | E
SEGOT | Gothenburg                | Scandinavia and Baltic | both      | E
SEMMA | Malmö                     | Scandinavia and Baltic | roro      | E
DKEBJ | Esbjerg                   | Scandinavia and Baltic | roro      | E
DKAAR | Aarhus                    | Scandinavia and Baltic | container | E
NODRM | Drammen                   | Scandinavia and Baltic | roro      | E
NOOSL | Oslo                      | Scandinavia and Baltic | container | E
NOBGO | Bergen                    | Scandinavia and Baltic | container | E
FIHKO | Hanko                     | Scandinavia and Baltic | roro      | E
FIHEL | Helsinki                  | Scandinavia and Baltic | container | E
EETLL | Tallinn                   | Scandinavia and Baltic | both      | D
LVRIX | Riga                      | Scandinavia and Baltic | container | D
LTKLJ | Klaipeda                  | Scandinavia and Baltic | container | D
PLGDY | Gdynia                    | Scandinavia and Baltic | both      | D
ISREY | Reykjavik                 | Iceland                | both      | E
FOTHO | Tórshavn                  | Iceland | container | E
ESSDR | Santander                 | Iberian Atlantic | roro      | D
ESVGO | Vigo                      | Iberian Atlantic | both      | D
PTSET | Setúbal                   | Iberian Atlantic | roro      | D
PTLEI | Leixões                   | Iberian Atlantic | container | D
PTLIS | Lisbon                    | Iberian Atlantic | container | D
ESLPA | Las Palmas                | Atlantic Islands | both      | D
PTFNC | Funchal                   | Atlantic Islands | container | D
PTPDL | Ponta Delgada             | Atlantic Islands | container | D
CVRAI | Praia                     | Atlantic Islands | container | J
ESBCN | Barcelona                 | West Mediterranean | both      | D
ESVLC | Valencia                  | West Mediterranean | both      | D
ESALG | Algeciras                 | West Mediterranean | container | D
FRFOS | Fos (Marseille)           | West Mediterranean | both      | D
ITSVN | Savona                    | West Mediterranean | roro      | D
ITGOA | Genoa                     | West Mediterranean | container | D
ITLIV | Livorno                   | West Mediterranean | both      | D
ITSAL | Salerno                   | West Mediterranean | both      | D
ITPMO | Palermo                   | West Mediterranean | container | D
MTMAR | Marsaxlokk                | West Mediterranean | container | D
MACAS | Casablanca                | North Africa | both      | F
MAPTM | Tanger Med                | North Africa | container | F
TNRDS | Radès (Tunis)             | North Africa | both      | F
DZALG | Algiers                   | North Africa | container | F
ITTRS | Trieste                   | Adriatic | container | D
SIKOP | Koper                     | Adriatic | both      | D
HRRJK | Rijeka                    | Adriatic | container | D
MEBAR | Bar                       | Adriatic | container | F
ALDRZ | Durrës                    | Adriatic | container | F
GRPIR | Piraeus                   | East Mediterranean | both      | D
GRSKG | Thessaloniki              | East Mediterranean | container | D
CYLMS | Limassol                  | East Mediterranean | both      | D
TRDRC | Derince                   | East Mediterranean | roro      | F
TRIZM | Izmir                     | East Mediterranean | container | F
TRMER | Mersin                    | East Mediterranean | container | F
EGALY | Alexandria                | East Mediterranean | both      | G
ILASH | Ashdod                    | East Mediterranean | both      | G
ILHFA | Haifa                     | East Mediterranean | container | G
LBBEY | Beirut                    | East Mediterranean | both      | F
ROCND | Constanța                 | Black Sea | both      | F
BGVAR | Varna                     | Black Sea | container | F
GEPTI | Poti                      | Black Sea | both      | F
SNDKR | Dakar                     | West Africa | both      | J
MRNKC | Nouakchott                | West Africa | container | J
GMBJL | Banjul                    | West Africa | both      | J
GWOXB | Bissau                    | West Africa | container | J
GNCKY | Conakry                   | West Africa | both      | J
SLFNA | Freetown                  | West Africa | both      | J
LRMLW | Monrovia                  | West Africa | both      | J
CIABJ | Abidjan                   | West Africa | both      | J
GHTEM | Tema                      | West Africa | both      | J
TGLFW | Lomé                      | West Africa | both      | J
BJCOO | Cotonou                   | West Africa | both      | J
NGLOS | Lagos                     | West Africa | both      | J
CMDLA | Douala                    | West Africa | both      | J
GQSSG | Malabo                    | West Africa | container | J
GQBSG | Bata                      | West Africa | container | J
STTMS | São Tomé                  | West Africa | container | J
GALBV | Libreville                | West Africa | both      | J
CGPNR | Pointe-Noire              | West Africa | both      | J
AOLAD | Luanda                    | West Africa | both      | J
NAWVB | Walvis Bay                | Southern Africa | both      | F
ZACPT | Cape Town                 | Southern Africa | container | F
ZAPLZ | Port Elizabeth            | Southern Africa | roro      | F
ZAELS | East London               | Southern Africa | roro      | F
ZADUR | Durban                    | Southern Africa | both      | F
MZMPM | Maputo                    | Southern Africa | both      | J
MZBEW | Beira                     | Southern Africa | both      | J
KEMBA | Mombasa                   | East Africa, Indian Ocean | both      | J
TZDAR | Dar es Salaam             | East Africa, Indian Ocean | both      | J
DJJIB | Djibouti                  | East Africa, Indian Ocean | container | J
MGTOA | Toamasina                 | East Africa, Indian Ocean | container | J
MUPLU | Port Louis                | East Africa, Indian Ocean | both      | F
REPDG | Pointe des Galets         | East Africa, Indian Ocean | both      | D
KMYVA | Moroni                    | East Africa, Indian Ocean | container | J
YTLON | Longoni                   | East Africa, Indian Ocean | container | D
SCPOV | Victoria (Mahé)           | East Africa, Indian Ocean | container | F
SAJED | Jeddah                    | Red Sea | both      | G
JOAQB | Aqaba                     | Red Sea | both      | G
AEJEA | Jebel Ali                 | Arabian Gulf | both      | F
AEAUH | Abu Dhabi                 | Arabian Gulf | roro      | F
SADMM | Dammam                    | Arabian Gulf | both      | G
KWSWK | Shuwaikh                  | Arabian Gulf | both      | G
QAHMD | Hamad                     | Arabian Gulf | both      | G
BHKBS | Khalifa Bin Salman        | Arabian Gulf | both      | G
OMSOH | Sohar                     | Arabian Gulf | both      | G
OMSLL | Salalah                   | Arabian Gulf | container | G
IQUQR | Umm Qasr                  | Arabian Gulf | container | G
PKKHI | Karachi                   | South Asia | both      | J
INNSA | Nhava Sheva               | South Asia | container | J
INENR | Ennore (Chennai)          | South Asia | roro      | J
INMAA | Chennai                   | South Asia | container | J
INCCU | Kolkata                   | South Asia | container | J
MVMLE | Malé                      | South Asia | container | J
LKCMB | Colombo                   | South Asia | both      | F
BDCGP | Chattogram                | South Asia | container | J
SGSIN | Singapore                 | Southeast Asia | both      | F
MYPKG | Port Klang                | Southeast Asia | both      | F
MYBKI | Kota Kinabalu             | Southeast Asia | container | F
MYKCH | Kuching                   | Southeast Asia | container | F
THLCH | Laem Chabang              | Southeast Asia | both      | F
IDJKT | Jakarta                   | Southeast Asia | both      | J
IDBLW | Belawan (Medan)           | Southeast Asia | container | J
IDUPG | Makassar                  | Southeast Asia | container | J
TLDIL | Dili                      | Southeast Asia | container | J
PHMNL | Manila                    | Southeast Asia | container | J
PHBTG | Batangas                  | Southeast Asia | roro      | J
PHCEB | Cebu                      | Southeast Asia | container | J
PHDVO | Davao                     | Southeast Asia | container | J
VNSGN | Ho Chi Minh City          | Southeast Asia | container | J
VNHPH | Haiphong                  | Southeast Asia | container | J
KHKOS | Sihanoukville             | Southeast Asia | container | J
BNMUA | Muara                     | Southeast Asia | container | F
JPYOK | Yokohama                  | Japan and Korea | both      | I
JPNGO | Nagoya                    | Japan and Korea | both      | I
JPUKB | Kobe                      | Japan and Korea | both      | I
JPHKT | Hakata                    | Japan and Korea | container | I
KRPTK | Pyeongtaek                | Japan and Korea | roro      | F
KRPUS | Busan                     | Japan and Korea | container | F
CNTXG | Tianjin Xingang           | China and Hong Kong | both      | F
CNSHA | Shanghai                  | China and Hong Kong | both      | F
HKHKG | Hong Kong                 | China and Hong Kong | both      | F
MOMAC | Macao                     | China and Hong Kong | container | F
TWKEL | Keelung                   | China and Hong Kong | container | F
AUBNE | Brisbane                  | Australia | both      | H
AUPKL | Port Kembla               | Australia | roro      | H
AUSYD | Sydney                    | Australia | container | H
AUMEL | Melbourne                 | Australia | both      | H
AUPAE | Port Adelaide             | Australia | both      | H
AUFRE | Fremantle                 | Australia | both      | H
AUDRW | Darwin                    | Australia | container | H
AUBEL | Bell Bay                  | Australia | container | H
NZAKL | Auckland                  | New Zealand | both      | H
NZTRG | Tauranga                  | New Zealand | container | H
NZWLG | Wellington                | New Zealand | both      | H
NZLYT | Lyttelton                 | New Zealand | both      | H
FJSUV | Suva                      | Pacific Islands | both      | F
NCNOU | Nouméa                    | Pacific Islands | both      | F
PFPPT | Papeete                   | Pacific Islands | both      | F
WSAPW | Apia                      | Pacific Islands | container | F
TOTBU | Nuku'alofa                | Pacific Islands | container | F
VUVLI | Port Vila                 | Pacific Islands | container | F
PGPOM | Port Moresby              | Pacific Islands | container | F
PGLAE | Lae                       | Pacific Islands | container | F
SBHIR | Honiara                   | Pacific Islands | container | F
ASPPG | Pago Pago                 | Pacific Islands | container | F
CKRAR | Avatiu        | Pacific Islands | container | F
NUALO | Alofi                     | Pacific Islands | container | F
WFMAU | Mata-Utu                  | Pacific Islands | container | F
TVFUN | Funafuti                  | Pacific Islands | container | F
KITRW | Tarawa                    | Pacific Islands | container | F
NRINU | Nauru                     | Pacific Islands | container | F
MHMAJ | Majuro                    | Pacific Islands | container | F
FMPNI | Pohnpei                   | Pacific Islands | container | F
MXATM | Altamira                  | Central America, Atlantic | both      | F
MXVER | Veracruz                  | Central America, Atlantic | both      | F
BZBZE | Belize City               | Central America, Atlantic | container | F
GTSTC | Santo Tomás de Castilla   | Central America, Atlantic | both      | F
HNPCR | Puerto Cortés             | Central America, Atlantic | both      | F
CRMOB | Moín                      | Central America, Atlantic | both      | F
PAMIT | Manzanillo (Panama)       | Central America, Atlantic | both      | F
COCTG | Cartagena                 | Central America, Atlantic | both      | F
MXZLO | Manzanillo                | Central America, Pacific | container | F
MXLZC | Lázaro Cárdenas           | Central America, Pacific | both      | F
GTPRQ | Puerto Quetzal            | Central America, Pacific | both      | F
SVAQJ | Acajutla                  | Central America, Pacific | both      | F
NICIO | Corinto                   | Central America, Pacific | both      | F
CRCAL | Caldera                   | Central America, Pacific | both      | F
DOHAI | Río Haina                 | Caribbean | both      | F
JMKIN | Kingston                  | Caribbean | both      | F
BSNAS | Nassau                    | Caribbean | both      | F
TCPLS | Providenciales            | Caribbean | container | F
KYGEC | George Town               | Caribbean | both      | F
BMBDA | Hamilton                  | Bermuda   | container | F
VGTOV | Road Town (Tortola)       | Caribbean | container | F
KNBAS | Basseterre                | Caribbean | container | F
SXPHI | Philipsburg | Caribbean | container | F
MSLTB | Little Bay   | Caribbean | container | F
AGSJO | St. John's                | Caribbean | container | F
GPPTP | Pointe-à-Pitre            | Caribbean | both      | D
DMRSU | Roseau                    | Caribbean | container | F
MQFDF | Fort-de-France            | Caribbean | both      | D
LCCAS | Castries                  | Caribbean | container | F
VCKTN | Kingstown                 | Caribbean | container | F
BBBGI | Bridgetown                | Caribbean | both      | F
GDSTG | St. George's              | Caribbean | container | F
TTPOS | Port of Spain             | Caribbean | both      | F
AWBAR | Barcadera (Aruba)         | Caribbean | both      | F
CWWIL | Willemstad                | Caribbean | both      | F
BQKRA | Kralendijk      | Caribbean | container | F
GYGEO | Georgetown                | South America, East | container | J
SRPBM | Paramaribo                | South America, East | container | J
GFDDC | Dégrad des Cannes         | South America, East | container | D
BRSUA | Suape                     | South America, East | both      | J
BRBEL | Belém                     | South America, East | container | J
BRVIX | Vitória                   | South America, East | both      | J
BRSSZ | Santos                    | South America, East | both      | J
BRRIG | Rio Grande                | South America, East | both      | J
UYMVD | Montevideo                | South America, East | both      | F
ARZAE | Zárate                    | South America, East | roro      | J
ARBUE | Buenos Aires              | South America, East | container | J
ARUSH | Ushuaia                   | South America, East | container | J
COBUN | Buenaventura              | South America, West | container | F
ECGYE | Guayaquil                 | South America, West | container | F
ECMEC | Manta                     | South America, West | roro      | F
PECLL | Callao                    | South America, West | both      | F
CLIQQ | Iquique                   | South America, West | both      | F
CLARI | Arica                     | South America, West | both      | F
CLVAP | Valparaíso                | South America, West | container | F
CLSAI | San Antonio               | South America, West | both      | F
CLPUQ | Punta Arenas              | South America, West | container | F
CAHAL | Halifax                   | Canada, Atlantic | both      | B
PMSPI | Saint-Pierre              | Canada, Atlantic | container | D
CAMTR | Montréal                  | Canada, Atlantic | container | B
CAVAN | Vancouver                 | Canada, Pacific  | both      | B
USHNL | Honolulu                  | Hawaii | both      | C
USOGG | Kahului                   | Hawaii | both      | C
USITO | Hilo                      | Hawaii | both      | C
USANC | Anchorage                 | Alaska | both      | C
USJNU | Juneau                    | Alaska | container | C
USKTN | Ketchikan                 | Alaska | container | C
PRSJU | San Juan                  | Puerto Rico, Virgin Islands | both      | C
VICHA | Charlotte Amalie          | Puerto Rico, Virgin Islands | container | C
VIPAX | Saint Croix               | Puerto Rico, Virgin Islands | container | C
GUAPR | Apra                      | Guam and Marianas | both      | C
MPSPN | Saipan                    | Guam and Marianas | container | C
"""
PORT_SOURCE = {
    "source": "UN/LOCODE",
    "trust": "invented",
    "office_note": "The place is real; prices and days are invented",
}
