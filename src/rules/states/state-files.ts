// Every state's data, loaded once; read and checked by `state-data.ts` when a state is first asked for.

import type { StateCode } from '../places/state-names.ts'
import IA from './data/midwest/IA.json' with { type: 'json' }
import IL from './data/midwest/IL.json' with { type: 'json' }
import IN from './data/midwest/IN.json' with { type: 'json' }
import KS from './data/midwest/KS.json' with { type: 'json' }
import MI from './data/midwest/MI.json' with { type: 'json' }
import MN from './data/midwest/MN.json' with { type: 'json' }
import MO from './data/midwest/MO.json' with { type: 'json' }
import ND from './data/midwest/ND.json' with { type: 'json' }
import NE from './data/midwest/NE.json' with { type: 'json' }
import OH from './data/midwest/OH.json' with { type: 'json' }
import SD from './data/midwest/SD.json' with { type: 'json' }
import WI from './data/midwest/WI.json' with { type: 'json' }
import CT from './data/northeast/CT.json' with { type: 'json' }
import MA from './data/northeast/MA.json' with { type: 'json' }
import ME from './data/northeast/ME.json' with { type: 'json' }
import NH from './data/northeast/NH.json' with { type: 'json' }
import NJ from './data/northeast/NJ.json' with { type: 'json' }
import NY from './data/northeast/NY.json' with { type: 'json' }
import PA from './data/northeast/PA.json' with { type: 'json' }
import RI from './data/northeast/RI.json' with { type: 'json' }
import VT from './data/northeast/VT.json' with { type: 'json' }
import AL from './data/south/AL.json' with { type: 'json' }
import AR from './data/south/AR.json' with { type: 'json' }
import DC from './data/south/DC.json' with { type: 'json' }
import DE from './data/south/DE.json' with { type: 'json' }
import FL from './data/south/FL.json' with { type: 'json' }
import GA from './data/south/GA.json' with { type: 'json' }
import KY from './data/south/KY.json' with { type: 'json' }
import LA from './data/south/LA.json' with { type: 'json' }
import MD from './data/south/MD.json' with { type: 'json' }
import MS from './data/south/MS.json' with { type: 'json' }
import NC from './data/south/NC.json' with { type: 'json' }
import OK from './data/south/OK.json' with { type: 'json' }
import SC from './data/south/SC.json' with { type: 'json' }
import TN from './data/south/TN.json' with { type: 'json' }
import TX from './data/south/TX.json' with { type: 'json' }
import VA from './data/south/VA.json' with { type: 'json' }
import WV from './data/south/WV.json' with { type: 'json' }
import AK from './data/west/AK.json' with { type: 'json' }
import AZ from './data/west/AZ.json' with { type: 'json' }
import CA from './data/west/CA.json' with { type: 'json' }
import CO from './data/west/CO.json' with { type: 'json' }
import HI from './data/west/HI.json' with { type: 'json' }
import ID from './data/west/ID.json' with { type: 'json' }
import MT from './data/west/MT.json' with { type: 'json' }
import NM from './data/west/NM.json' with { type: 'json' }
import NV from './data/west/NV.json' with { type: 'json' }
import OR from './data/west/OR.json' with { type: 'json' }
import UT from './data/west/UT.json' with { type: 'json' }
import WA from './data/west/WA.json' with { type: 'json' }
import WY from './data/west/WY.json' with { type: 'json' }

export const stateFiles: Readonly<Record<StateCode, unknown>> = {
  AK,
  AL,
  AR,
  AZ,
  CA,
  CO,
  CT,
  DC,
  DE,
  FL,
  GA,
  HI,
  IA,
  ID,
  IL,
  IN,
  KS,
  KY,
  LA,
  MA,
  MD,
  ME,
  MI,
  MN,
  MO,
  MS,
  MT,
  NC,
  ND,
  NE,
  NH,
  NJ,
  NM,
  NV,
  NY,
  OH,
  OK,
  OR,
  PA,
  RI,
  SC,
  SD,
  TN,
  TX,
  UT,
  VA,
  VT,
  WA,
  WI,
  WV,
  WY,
}
