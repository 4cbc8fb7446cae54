// A year of 1,500 invented bank transactions as a small farm and its house might have them: one-place payees, mixed ones, one-offs.
import { addDays, type Day, dayInMonth, weekdayOf } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { openStream } from '#chance/draws/random-stream.ts'

export interface MadeLine {
  account: 'Farm checking' | 'Household checking'
  day: Day
  cents: number
  text: string
  /** The name of the account that a person sorts it to, on the same side. */
  truth: string
}

/** A place a payee's lines go to: its share, the median in dollars, the spread of its logarithm, and days it keeps to. */
interface Place {
  to: string
  share: number
  median: number
  spread: number
  weekdays?: readonly number[]
}

interface Payee {
  account: MadeLine['account']
  names: readonly string[]
  /** Lines a month, on average. */
  perMonth: number
  places: readonly Place[]
  isIn?: boolean
}

const to = (
  name: string,
  share: number,
  median: number,
  spread: number,
  weekdays?: readonly number[],
): Place => ({
  to: name,
  share,
  median,
  spread,
  ...(weekdays ? { weekdays } : {}),
})
const one = (
  account: MadeLine['account'],
  name: string,
  perMonth: number,
  place: string,
  median: number,
  spread = 0.4,
): Payee => ({ account, names: [name], perMonth, places: [to(place, 1, median, spread)] })

const farm = 'Farm checking'
const house = 'Household checking'

/** Names, shares and sums are inventions. Two lines in five are of mixed payees, which are those of most households: stores that sell everything. */
const payees: readonly Payee[] = [
  one(farm, 'HOLLOW GRAIN MILL', 6, 'Feed', 140),
  one(farm, 'OXBOW SEED HOUSE', 2.5, 'Seeds and plants', 70, 0.8),
  one(farm, 'FERRY BOX AND CRATE', 2, 'Packaging', 60),
  one(farm, 'TARN VALLEY ELECTRIC COOP', 1, 'Farm utilities', 130, 0.2),
  one(farm, 'STILES ROAD LAND LEASE', 1, 'Land rent', 400, 0),
  one(farm, 'MARKET ASSN STALL FEE', 5, 'Market fees and dues', 28, 0.05),
  one(farm, 'CARD READER FEES', 4, 'Card and bank fees', 9, 0.5),
  one(farm, 'LIME AND ROCK DUST CO', 0.5, 'Fertilizer and lime', 180, 0.6),
  one(house, 'MILL POND GROCER', 10, 'Groceries', 62, 0.6),
  one(house, 'STONE LANE PHARMACY', 3, 'Care and medicine', 24, 0.7),
  one(house, 'PIONEER RIDGE WATER', 1, 'Utilities', 48, 0.15),
  one(house, 'MERIDIAN CHILDREN DANCE', 1, 'Children', 85, 0),
  one(house, 'TARN LIBRARY BOOKSHOP', 2, 'Free time', 21, 0.6),
  one(house, 'HILLSIDE FUEL AND PROPANE', 1, 'Utilities', 160, 0.4),
  one(house, 'BRIDGE STREET BARBER', 1, 'Other living costs', 22, 0.1),
  one(house, 'CREEK ROAD SHOES', 0.6, 'Clothing', 55, 0.5),
  {
    account: farm,
    names: ['VALLEY FARM AND HOME', 'VALLEY FARM AND HOME FERRYTON'],
    perMonth: 8,
    places: [
      to('Feed', 0.5, 120, 0.45),
      to('Supplies', 0.25, 28, 0.6),
      to('Repairs and upkeep', 0.15, 55, 0.7),
      to('Veterinary, breeding, medicine', 0.1, 34, 0.5),
    ],
  },
  {
    account: farm,
    names: ['ALDER HARDWARE'],
    perMonth: 4,
    places: [to('Repairs and upkeep', 0.65, 42, 0.7), to('Supplies', 0.35, 18, 0.7)],
  },
  {
    account: farm,
    names: ['CROSSROADS FUEL STOP'],
    perMonth: 4,
    places: [to('Fuel and oil', 0.7, 95, 0.25), to('Car and truck', 0.3, 44, 0.2)],
  },
  {
    account: farm,
    names: ['OLD ORCHARD MUTUAL'],
    perMonth: 2,
    places: [to('Farm insurance', 0.5, 210, 0), to('Car and truck', 0.5, 96, 0)],
  },
  {
    account: house,
    names: ['PENNYROYAL GENERAL STORE', 'PENNYROYAL GENERAL STORE TARN'],
    perMonth: 6,
    places: [
      to('Groceries', 0.65, 58, 0.5),
      to('Household goods', 0.25, 26, 0.6),
      to('Clothing', 0.1, 34, 0.5),
    ],
  },
  {
    account: house,
    names: ['PARCEL BARN ONLINE'],
    perMonth: 4,
    places: [
      to('Household goods', 0.45, 27, 0.7),
      to('Children', 0.25, 22, 0.6),
      to('Gifts and giving', 0.15, 35, 0.6),
      to('Free time', 0.15, 18, 0.6),
    ],
  },
  {
    account: house,
    names: ['COUNTY TELEPHONE'],
    perMonth: 2,
    places: [to('Telephone and internet', 0.7, 70, 0.1), to('Children', 0.3, 25, 0.1)],
  },
  {
    account: farm,
    names: ['BRANCH CASH DEPOSIT'],
    perMonth: 7,
    isIn: true,
    places: [
      to('Vegetables and fruit sold', 0.65, 420, 0.35, [1]),
      to('Eggs and poultry sold', 0.35, 140, 0.4, [3, 4]),
    ],
  },
  {
    account: farm,
    names: ['CARD READER PAYOUT'],
    perMonth: 7,
    isIn: true,
    places: [
      to('Vegetables and fruit sold', 0.85, 260, 0.5),
      to('Raised livestock and meat sold', 0.15, 330, 0.6),
    ],
  },
  { ...one(farm, 'CSA SHARE PAYMENT', 6, 'CSA shares', 60, 0.5), isIn: true },
  { ...one(house, 'LANTERN SCHOOL PAYROLL', 2, 'Off-farm pay', 780, 0.02), isIn: true },
]

const oneOffPlaces = {
  [farm]: ['Supplies', 'Repairs and upkeep', 'Training and advice', 'Other farm costs', 'Advertising'],
  [house]: ['Free time', 'Gifts and giving', 'Clothing', 'Vehicles and travel', 'Home repairs'],
} as const

const first =
  'AMBER BIRCH CEDAR DAPPLE ELM FALLOW GORSE HAZEL IVY JUNIPER KNOLL LARCH MOSS NETTLE OAK PINE'.split(' ')
const second = 'HALL INN WORKS DEPOT PRESS GARAGE STUDIO SUPPLY RANCH CLINIC CORNER DINER'.split(' ')

/** Twelve months of 125 lines, each in order of days. Same seed, same year. */
export const mixedYear = (seed: number): MadeLine[][] => {
  const stream = openStream(seed, 0, 'resample')
  const uniform = () => stream.uniform()
  const normal = () => stream.normal()
  const byWeight = <One>(list: readonly One[], weightOf: (one: One) => number): One => {
    let chance = uniform() * list.reduce((sum, one) => sum + weightOf(one), 0)
    for (const one of list) {
      chance -= weightOf(one)
      if (chance < 0) return one
    }
    return list.at(-1)!
  }
  const pick = <One>(list: readonly One[]): One => list[Math.floor(uniform() * list.length)]!
  const amount = ({ median, spread }: Place) =>
    Math.max(1, Math.round(median * 100 * Math.exp(spread * normal())))
  const dress = (name: string) =>
    `${pick(['', 'POS PURCHASE ', 'DEBIT CARD '])}${name}${pick(['', ` #${Math.floor(uniform() * 90)}`, ` ${1000 + Math.floor(uniform() * 9000)}`])}`
  const lineOf = (payee: Payee, of: number): MadeLine => {
    const place = byWeight(payee.places, ({ share }) => share)
    const on = dayInMonth(month(2026, of), 1 + Math.floor(uniform() * 27))
    const kept = place.weekdays ? toWeekday(on, pick(place.weekdays)) : on
    const size = amount(place)
    const text = dress(pick(payee.names))
    return { account: payee.account, day: kept, cents: payee.isIn ? size : -size, text, truth: place.to }
  }
  const oneOff = (of: number): MadeLine => {
    const account = pick([farm, house] as const)
    const isCheck = uniform() < 0.25
    const text = isCheck
      ? `CHECK ${1000 + Math.floor(uniform() * 900)}`
      : dress(`${pick(first)} ${pick(first)} ${pick(second)}`)
    return lineLike(account, of, text)
  }
  const lineLike = (account: MadeLine['account'], of: number, text: string): MadeLine => ({
    account,
    day: dayInMonth(month(2026, of), 1 + Math.floor(uniform() * 27)),
    cents: -amount(to('', 1, 45, 0.8)),
    text,
    truth: pick(oneOffPlaces[account]),
  })
  const drawn = () => byWeight(payees, ({ perMonth }) => perMonth)
  return Array.from({ length: 12 }, (_, index) =>
    Array.from({ length: 125 }, () =>
      uniform() < 0.07 ? oneOff(index + 1) : lineOf(drawn(), index + 1),
    ).sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0)),
  )
}

/** The nearest earlier day of that weekday, kept in its month. */
const toWeekday = (on: Day, wanted: number): Day => {
  for (let back = 0; back < 7; back += 1) {
    const tried = addDays(on, -back)
    if (weekdayOf(tried) === wanted && tried.slice(0, 7) === on.slice(0, 7)) return tried
  }
  for (let ahead = 1; ahead < 7; ahead += 1)
    if (weekdayOf(addDays(on, ahead)) === wanted) return addDays(on, ahead)
  return on
}

/** What one would say who knew all shares, medians and spreads: nobody can be right more often. Empty for a one-off. */
export const allKnowing = ({ text, cents, day: on }: MadeLine): string => {
  const payee = payees.find(({ names }) => names.some((name) => text.includes(name)))
  const likelihood = ({ share, median, spread, weekdays }: Place): number => {
    const width = Math.max(spread, 0.01)
    const apart = Math.log(Math.abs(cents) / 100 / median) / width
    const ofDay = weekdays === undefined ? 1 : weekdays.includes(weekdayOf(on)) ? 7 / weekdays.length : 0.05
    return (share * ofDay * Math.exp((-apart * apart) / 2)) / width
  }
  return payee?.places.toSorted((a, b) => likelihood(b) - likelihood(a))[0]?.to ?? ''
}
