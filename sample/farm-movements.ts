// The farm's account at the bank: shares in spring, market and stand in season, honey, lambs, and what it all costs.
import { addDays, type Day, day, monthOfDay, weekdayOf } from '#calendar/day.ts'
import { type Month, month, monthOfYear, yearOf } from '#calendar/month.ts'
import { type Movement, postedInMonth, postedOn, sampleMonths } from './sample-bank.ts'
import type { Dice } from './sample-dice.ts'

interface YearFacts {
  shares: number
  shareDollars: number
  /** Vegetables on a middling Saturday. */
  saturday: number
  stand: number
  flowersPerWeek: number
  honeyPounds: number
  lambs: number
  lambDollars: number
  /** Prices and size of the farm, for its running costs. */
  costs: number
}

const years: Readonly<Record<number, YearFacts>> = {
  2023: {
    shares: 0,
    shareDollars: 0,
    saturday: 380,
    stand: 130,
    flowersPerWeek: 0,
    honeyPounds: 120,
    lambs: 0,
    lambDollars: 0,
    costs: 1.2,
  },
  2024: {
    shares: 34,
    shareDollars: 560,
    saturday: 430,
    stand: 150,
    flowersPerWeek: 90,
    honeyPounds: 190,
    lambs: 0,
    lambDollars: 0,
    costs: 1.3,
  },
  2025: {
    shares: 46,
    shareDollars: 590,
    saturday: 560,
    stand: 210,
    flowersPerWeek: 150,
    honeyPounds: 380,
    lambs: 11,
    lambDollars: 315,
    costs: 1.45,
  },
  2026: {
    shares: 55,
    shareDollars: 620,
    saturday: 610,
    stand: 230,
    flowersPerWeek: 170,
    honeyPounds: 520,
    lambs: 17,
    lambDollars: 325,
    costs: 1.58,
  },
}

/** January to December, around 1 over the season. */
const marketSeason = [0, 0, 0, 0, 0.75, 0.95, 1.1, 1.15, 1.1, 0.95, 0.75, 0]
const honeySeason = [0, 0, 0, 0, 0, 0, 0, 0.18, 0.22, 0.22, 0.18, 0.2]

/** The bad weeks of 2026: frost on May 21, hail in June. */
const isBadWeek = (on: Day): boolean => on >= '2026-05-23' && on <= '2026-07-31'

export const farmMovements = (dice: Dice): Movement[] => [
  ...sharePayments(dice),
  ...eachDay().flatMap((on) => marketAndStand(on, dice)),
  ...lambSales(dice),
  ...sampleMonths.flatMap((inMonth) => [...monthlyCosts(inMonth, dice), ...yearlyCosts(inMonth, dice)]),
  ...eachDay().flatMap((on) => fuelAndSupplies(on, dice)),
  ...purchases,
  ...handWritten,
]

const line = (on: Day, cents: number, payee: string, memo = '', check?: string): Movement => ({
  account: 'farm',
  day: on,
  cents,
  payee,
  memo,
  ...(check ? { check } : {}),
})

const eachDay = (): Day[] => Array.from({ length: 1096 }, (_, at) => addDays(day('2023-11-01'), at))

const sharePayments = (dice: Dice): Movement[] => {
  const byDay = new Map<Day, number>()
  const pay = (on: Day, dollars: number) => byDay.set(on, (byDay.get(on) ?? 0) + dollars * 100)
  for (const year of [2024, 2025, 2026]) {
    const { shares, shareDollars } = years[year]!
    for (let share = 0; share < shares; share += 1) {
      const signed = nextWeekday(addDays(day(`${year}-02-02`), dice.whole(0, 68)), 5)
      const inTwo = dice.whole(1, 10) <= 3
      pay(signed, inTwo ? shareDollars / 2 : shareDollars)
      if (inTwo) pay(nextWeekday(day(`${year}-06-03`), 5), shareDollars / 2)
    }
  }
  return [...byDay].map(([on, cents]) => line(on, cents, 'CARD BATCH VEGETABLE SHARES', 'Weekly settlement'))
}

const marketAndStand = (on: Day, dice: Dice): Movement[] => {
  const facts = years[Number(on.slice(0, 4))]!
  const season = marketSeason[monthOfYear(monthOfDay(on)) - 1]!
  const bad = isBadWeek(on) ? 0.5 : 1
  const honeyMonth = (facts.honeyPounds * 12 * honeySeason[monthOfYear(monthOfDay(on)) - 1]!) / 4.35
  if (weekdayOf(on) === 1 && season > 0) {
    const flowers =
      season >= 0.95 && on.slice(5, 7) !== '10' ? facts.flowersPerWeek * (isBadWeek(on) ? 0.25 : 1) : 0
    const takings = dice.around((facts.saturday * season + flowers * 0.7) * bad + honeyMonth * 0.6, 0.16)
    return [line(on, takings, 'CARD BATCH SATURDAY MARKET', 'Settlement')]
  }
  if (weekdayOf(on) === 3 && season > 0 && on.slice(5, 7) !== '11') {
    const flowers = season >= 0.95 ? facts.flowersPerWeek * 0.3 : 0
    return [
      line(
        on,
        Math.round(dice.around((facts.stand * season + flowers) * bad + honeyMonth * 0.4, 0.2) / 100) * 100,
        'BRANCH CASH DEPOSIT',
        'Farm stand box',
      ),
    ]
  }
  if (weekdayOf(on) === 5 && on.slice(5, 7) === '12')
    return [line(on, dice.around(honeyMonth, 0.25), 'ORDER PAYOUT HONEY', 'Gift boxes')]
  return []
}

const lambSales = (dice: Dice): Movement[] =>
  [2025, 2026].flatMap((year) => {
    const { lambs, lambDollars } = years[year]!
    return Array.from({ length: lambs }, (_, at) =>
      line(
        postedOn(addDays(day(`${year}-10-02`), Math.floor((at * 26) / lambs))),
        dice.around(lambDollars, 0.08),
        'MOBILE CHECK DEPOSIT LAMB',
        `Whole lamb ${at + 1}`,
      ),
    )
  })

const monthlyCosts = (inMonth: Month, dice: Dice): Movement[] => {
  const { costs } = years[yearOf(inMonth)]!
  const at = monthOfYear(inMonth)
  const inSeason = at >= 5 && at <= 11
  const winter = at <= 4 || at === 12
  const flock = inMonth < month(2024, 5) ? 0 : inMonth < month(2025, 4) ? 1 : 1.7
  return [
    line(postedInMonth(inMonth, 4), -800, 'MONTHLY ACCOUNT FEE'),
    line(
      postedInMonth(inMonth, 9),
      -dice.around((winter ? 74 : 112) * costs, 0.15),
      'VALLEY ELECTRIC COOP',
      'Barn and cooler meter',
    ),
    line(postedInMonth(inMonth, 12), -2200, 'LARKSPUR WEB HOSTING', 'Share page'),
    line(postedInMonth(inMonth, 13), -9800, 'LANTERN FARM MUTUAL', 'Truck'),
    line(postedInMonth(inMonth, 11), -4200, 'COPPERLINE MOBILE', 'Farm line'),
    line(
      postedInMonth(inMonth, 15),
      -dice.around((inSeason ? 210 : 95) * costs, 0.3),
      'OAK GAP FARM SUPPLY',
      'Row cover, tape, ties',
    ),
    ...(inSeason
      ? [
          line(
            postedInMonth(inMonth, 18),
            -dice.around(165 * costs, 0.25),
            'BOX AND TWINE SUPPLY',
            'Cartons, bags, sleeves',
          ),
        ]
      : []),
    ...(inSeason
      ? [
          line(
            postedInMonth(inMonth, 28),
            -(at === 11 ? 5600 : 11_200 + (at === 8 ? 2800 : 0)),
            'TARN HOLLOW MARKET ASSN',
            'Stall fees',
          ),
        ]
      : []),
    ...(inSeason
      ? [line(postedInMonth(inMonth, 26), -dice.around(58 * costs, 0.2), 'CARD READER FEES')]
      : []),
    ...(at >= 2 && at <= 4
      ? [
          line(
            postedInMonth(inMonth, 20),
            -dice.around(265 * costs, 0.2),
            'HIGH SPUR PROPANE',
            'Propagation house',
          ),
        ]
      : []),
    ...(flock > 0
      ? [
          line(
            postedInMonth(inMonth, 22),
            -dice.around((winter ? 118 : 46) * flock, 0.2),
            'HOLLOW FEED AND GRAIN',
            'Ewe ration, minerals',
          ),
        ]
      : []),
    ...(at >= 7 && at <= 8 && yearOf(inMonth) > 2023
      ? [
          line(
            postedInMonth(inMonth, 30),
            -dice.around(980 * costs, 0.1),
            'CHECK',
            'Season help',
            String(1000 + (inMonth % 100) + yearOf(inMonth) - 2000),
          ),
        ]
      : []),
  ]
}

const yearlyCosts = (inMonth: Month, dice: Dice): Movement[] => {
  const facts = years[yearOf(inMonth)]!
  const at = monthOfYear(inMonth)
  const hasFlock = inMonth >= month(2024, 6)
  const cost = (date: number, dollars: number, payee: string, memo = '') =>
    line(postedInMonth(inMonth, date), -dice.around(dollars * facts.costs, 0.1), payee, memo)
  const table: Record<number, Movement[]> = {
    1: [
      cost(10, 1050, 'ROOT AND RIDGE SEED', 'Main order'),
      cost(24, 190, 'LANTERN PRINT SHOP', 'Share flyers'),
    ],
    2: [
      cost(7, 820, 'ROOT AND RIDGE SEED', 'Onions, potatoes, plugs'),
      cost(21, 260, 'GROWERS WINTER MEETING'),
    ],
    3: [
      cost(6, 940, 'DEEP LOAM COMPOST', 'Potting mix'),
      cost(14, 1180, 'LANTERN FARM MUTUAL', 'Farm and product cover'),
      cost(25, 460, 'ROOT AND RIDGE SEED'),
    ],
    4: [
      cost(3, 350, 'TARN HOLLOW MARKET ASSN', 'Season stall'),
      cost(11, 620, 'DEEP LOAM COMPOST', 'Compost, lime'),
      cost(16, 340, 'GORSE HILL BEES', 'Nucleus colonies'),
      ...(hasFlock ? [cost(23, 210, 'RIDGE LARGE ANIMAL VET', 'Lambing')] : []),
    ],
    5: [cost(10, 390, 'OAK GAP FARM SUPPLY', 'Irrigation parts')],
    6: [
      cost(11, 240, 'ROOT AND RIDGE SEED', 'Fall crops'),
      cost(17, 460, 'NORTH SPUR REPAIR', 'Mower and tiller'),
    ],
    7: [cost(16, 330, 'TARN TOWNSHIP', 'Building and sign permits')],
    8: [
      cost(12, hasFlock ? 1120 : 380, 'MEADOW RUN HAY', 'Second cut'),
      cost(26, 310, 'ROOT AND RIDGE SEED', 'Garlic and cover crop'),
    ],
    9: [
      cost(9, 420, 'GORSE HILL BEES', 'Jars, sugar, treatment'),
      cost(22, 520, 'NORTH SPUR REPAIR', 'Truck brakes'),
    ],
    10: [
      ...(facts.lambs > 0
        ? [cost(24, (facts.lambs * 92) / facts.costs, 'STONE FORD MEATS', 'Cutting and wrapping')]
        : []),
      ...(hasFlock ? [cost(14, 165, 'RIDGE LARGE ANIMAL VET', 'Fall check')] : []),
    ],
    11: [cost(13, 290, 'NORTH SPUR REPAIR', 'Tires and service')],
    12: [cost(5, 240, 'OAK GAP FARM SUPPLY', 'Tools')],
  }
  return table[at]!
}

const fuelAndSupplies = (on: Day, dice: Dice): Movement[] => {
  if (weekdayOf(on) !== 4 || Number(on.slice(8)) > 28) return []
  const at = monthOfYear(monthOfDay(on))
  const { costs } = years[Number(on.slice(0, 4))]!
  if (at < 4 && Number(on.slice(8)) > 14) return []
  return [line(on, -dice.around(46 * costs, 0.3), 'CROSSROADS FUEL', 'Truck and tractor')]
}

const bought = (on: string, dollars: number, payee: string, memo: string): Movement =>
  line(day(on), Math.round(-dollars * 100), payee, memo)

/** Large things, each paid from the farm's account. */
const purchases: Movement[] = [
  bought('2024-02-20', 3980, 'HOOP AND FRAME WORKS', 'Second propagation house'),
  bought('2024-03-12', 4250, 'TILLAGE EXCHANGE', 'Walking tractor, used'),
  bought('2024-04-15', 5400, 'GREENLINE FENCING', 'Pasture fence, 9 acres'),
  bought('2024-05-15', 3000, 'BIRCH FELL FLOCK', 'Eight bred ewes'),
  bought('2024-09-12', 4600, 'OAK GAP LUMBER', 'Wash and pack shed'),
  bought('2024-11-14', 2150, 'HOOP AND FRAME WORKS', 'Lambing shelter'),
  bought('2025-03-19', 4850, 'COLD BROOK REFRIGERATION', 'Walk-in cooler'),
  bought('2025-04-10', 1450, 'GORSE HILL BEES', 'Four hives and an extractor'),
  bought('2025-05-08', 1900, 'GREENLINE FENCING', 'Handling pens and gates'),
  bought('2025-10-09', 7900, 'HOOP AND FRAME WORKS', 'High tunnel'),
  bought('2026-03-20', 8600, 'SECOND ROAD VANS', 'Delivery van, used'),
  bought('2026-06-18', 2380, 'ROOT AND RIDGE SEED', 'Replanting after frost and hail'),
  bought('2026-09-15', 4970, 'OAK GAP FARM SUPPLY', 'Well pump and irrigation, lower beds'),
]

/** Refunds to share members for the thin boxes of July 2026. */
const handWritten: Movement[] = [
  line(day('2026-07-15'), -1650_00, 'CARD REFUNDS VEGETABLE SHARES', '55 members at 30.00'),
]

const nextWeekday = (from: Day, weekday: number): Day => addDays(from, (weekday - weekdayOf(from) + 7) % 7)
