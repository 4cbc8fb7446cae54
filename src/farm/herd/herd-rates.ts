// Default rates by kind of stock; a plan overrides any of them. Common practice for small farms, with no source, but for: pigs’ losses
// (41 niche herds, Iowa State University A.S. Leaflet R2362, 2006, read), cows culled (University of Idaho budget 2016, 300 cows, read).
import type { Herd, HerdKind, HerdRates } from './herd-document.ts'
import { ageBySaleMonths } from './sale-age.ts'

/** The herd's own rates, with the kind's defaults where the plan says nothing. */
export const ratesOf = (herd: Pick<Herd, 'kind' | 'rates'>): HerdRates => {
  const rates = {
    ...defaultHerdRates[herd.kind],
    ...(Object.fromEntries(
      Object.entries(herd.rates).filter(([, value]) => value !== undefined),
    ) as Partial<HerdRates>),
  }
  return herd.rates.saleAgeMonths === undefined ? { ...rates, saleAgeMonths: ageBySaleMonths(rates) } : rates
}

/** Of all birds: none of others than hens is known here. */
const birds: HerdRates = {
  conception: 0,
  birthsPerFemale: 0,
  birthMonths: [],
  adultLossPerYear: 0.1,
  youngLossToWeaning: 0,
  weaningAgeMonths: 2,
  saleAgeMonths: 3,
  breedingAgeMonths: 5,
  cullPerYear: 0.5,
  cullMonth: 10,
  keepOfFemaleYoung: 0,
  femalesPerMale: 0,
  maleLifeYears: 3,
}

export const defaultHerdRates: Record<HerdKind, HerdRates> = {
  sheep: {
    conception: 0.92,
    birthsPerFemale: 1.6,
    birthMonths: [4],
    adultLossPerYear: 0.05,
    youngLossToWeaning: 0.12,
    weaningAgeMonths: 3,
    saleAgeMonths: 7,
    breedingAgeMonths: 18,
    cullPerYear: 0.12,
    cullMonth: 9,
    keepOfFemaleYoung: 0.7,
    femalesPerMale: 35,
    maleLifeYears: 3,
  },
  goats: {
    conception: 0.9,
    birthsPerFemale: 1.7,
    birthMonths: [4],
    adultLossPerYear: 0.05,
    youngLossToWeaning: 0.12,
    weaningAgeMonths: 3,
    saleAgeMonths: 8,
    breedingAgeMonths: 18,
    cullPerYear: 0.12,
    cullMonth: 9,
    keepOfFemaleYoung: 0.7,
    femalesPerMale: 30,
    maleLifeYears: 3,
  },
  cattle: {
    conception: 0.9,
    birthsPerFemale: 1,
    birthMonths: [4],
    adultLossPerYear: 0.02,
    youngLossToWeaning: 0.05,
    weaningAgeMonths: 7,
    saleAgeMonths: 20,
    breedingAgeMonths: 24,
    cullPerYear: 0.14,
    cullMonth: 10,
    keepOfFemaleYoung: 0.7,
    femalesPerMale: 25,
    maleLifeYears: 4,
  },
  pigs: {
    conception: 0.85,
    birthsPerFemale: 9,
    birthMonths: [3, 9],
    adultLossPerYear: 0.04,
    youngLossToWeaning: 0.25,
    youngLossToSale: 0.08,
    weaningAgeMonths: 2,
    saleAgeMonths: 7,
    breedingAgeMonths: 10,
    cullPerYear: 0.3,
    cullMonth: 5,
    keepOfFemaleYoung: 0.1,
    femalesPerMale: 15,
    maleLifeYears: 3,
  },
  layers: birds,
  ducks: birds,
  geese: birds,
  turkeys: birds,
}
