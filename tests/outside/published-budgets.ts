// Published budgets of small farms: what goes in, what the publication prints of it, and our own sums where it prints none. All were
// read in the beginning of the text only; `own` marks what follows from read figures without being printed.

export interface PublishedBudget {
  name: string
  source: string
  /** By the unit and year: sales, costs without labor, hours, and the yield that a price is asked for. */
  units?: number
  sales: number
  costs: number
  hours?: number
  yield?: number
  /** Dollars an hour of labor, where the budget pays it. */
  wage?: number
  expects: Partial<
    Record<
      'sales' | 'margin' | 'leftAfterLabor' | 'breakEven' | 'breakEvenWithLabor' | 'anHour',
      { value: number; within: number; own?: true }
    >
  >
}

const printed = (value: number, within = 0.006) => ({ value, within })
const own = (value: number, within = 0.006) => ({ value, within, own: true as const })
const sum = (...parts: number[]) => parts.reduce((a, b) => a + b, 0)

const missouri = 'University of Missouri Extension G684, on-farm beef finishing planning budget for 2024'
const handout = 'NC Choices, Pastured Chicken: Breaking Down the Cost, workshop handout'
const poultry = 'Painter and others, Pacific Northwest Extension PNW 665'
const hay = 'S. Hambelton, University of Missouri Extension, in a farm paper, 2014'

/** Costs a bird of the handout without labor, by the price of its feed; labor is 6.00 a bird. */
const handoutBird = (feed: number) => sum(1.2, feed, 4.2, 0.5, 5, 3)

export const publishedBudgets: PublishedBudget[] = [
  {
    name: '50 cows, calves sold at weaning',
    source: 'SARE, Enterprise Budgets for Diversified Farms, Case Study 1 (western Washington)',
    units: 50,
    // Steers, heifers, cull cows, half a bull (own, from the total), cull heifers. The heads of heifers are 14 by their total.
    sales: sum(24 * 575 * 1.7, 14 * 525 * 1.4, 8.5 * 1200 * 0.7, 0.5 * 1800 * 0.9, 1.5 * 900 * 1.15) / 50,
    costs: 0,
    expects: { sales: printed(43_253, 0.6) },
  },
  {
    name: 'a cow in Iowa, 1982 to 1994',
    source: 'D. R. Strohbehn, 13-year summary of the Beef Cow Business Record, Iowa State A.S. Leaflet R1340',
    // Total cost 370.80 and net profit 20.20; of the cost 44.90 is labor.
    sales: 370.8 + 20.2,
    costs: sum(177.1, 45.4, 19.7, 83.7),
    hours: 44.9,
    wage: 1,
    expects: { margin: own(65.1), leftAfterLabor: printed(20.2) },
  },
  {
    name: 'a steer finished on grain, fall calving',
    source: missouri,
    sales: 2784.06,
    costs: sum(803.28, 93.91, 472.97, 57.01, 235.7, 21.78, 406.98, 72.76, 11, 136.7),
    hours: 223.48,
    wage: 1,
    yield: 1400,
    // Printed: total operating 2,535.58.
    expects: {
      leftAfterLabor: own(2784.06 - 2535.58, 0.02),
      breakEvenWithLabor: own(2535.58 / 1400, 0.0001),
    },
  },
  {
    name: 'a steer finished on grain, spring calving',
    source: missouri,
    sales: 2798.91,
    costs: sum(769.85, 203.29, 472.97, 60.03, 247.8, 25.15, 481.93, 73.17, 11, 147.72),
    hours: 247.04,
    wage: 1,
    yield: 1400,
    expects: {
      leftAfterLabor: own(2798.91 - 2739.94, 0.02),
      breakEvenWithLabor: own(2739.94 / 1400, 0.0001),
    },
  },
  {
    name: 'a grass-finished dairy steer sold as ground beef',
    source: 'J. J. Alexandre, California Polytechnic State University, 2013 (abstract)',
    // Profits of 1,094 at 7.36 a pound and 1,616 at 8.55: so 438.66 pounds, at a cost of 2,134.50 (own).
    sales: (522 / 1.19) * 8.55,
    costs: (522 / 1.19) * 7.36 - 1094,
    yield: 522 / 1.19,
    expects: { margin: printed(1616), breakEven: own(4.866, 0.001) },
  },
  {
    name: 'a stocker on summer grass',
    source: 'A. Griffith, University of Tennessee, stocker budget 2020, in a breed paper',
    sales: 0,
    costs: 108,
    yield: 1.2 * 120,
    expects: { breakEven: printed(0.75) },
  },
  {
    name: 'a fast broiler on organic feed',
    source: poultry,
    // Variable 21.83; the fixed cost is what is left of the revenue (own).
    sales: 4.71 * 5.2,
    costs: 24.51,
    yield: 4.71,
    expects: { sales: printed(24.51, 0.03), breakEven: printed(5.2) },
  },
  {
    name: 'a slow broiler on organic feed',
    source: poultry,
    sales: 3.5 * 7.87,
    costs: 27.55,
    yield: 3.5,
    expects: { sales: printed(27.55, 0.03), breakEven: printed(7.87) },
  },
  {
    name: 'a broiler on ordinary feed',
    source: handout,
    sales: 0,
    costs: handoutBird(3.2),
    hours: 6,
    wage: 1,
    yield: 3.6,
    expects: { leftAfterLabor: printed(-23.1), breakEvenWithLabor: printed(6.42) },
  },
  {
    name: 'a broiler on feed without engineered grain',
    source: handout,
    sales: 0,
    costs: handoutBird(5.3),
    hours: 6,
    wage: 1,
    yield: 3.6,
    expects: { leftAfterLabor: printed(-25.2), breakEvenWithLabor: printed(7) },
  },
  {
    name: 'a broiler on organic feed, North Carolina',
    source: handout,
    sales: 0,
    costs: handoutBird(6.95),
    hours: 6,
    wage: 1,
    yield: 3.6,
    expects: { leftAfterLabor: printed(-26.85), breakEvenWithLabor: printed(7.46) },
  },
  {
    name: 'a turkey for Thanksgiving',
    source: 'one farm’s own account of 2018: poult 9.19, feed 27, killing 8, cash cost 44.19, 3.65 a pound',
    sales: 17 * 3.65,
    costs: sum(9.19, 27, 8),
    yield: 17,
    // 14 to 20 pounds dressed.
    expects: { margin: own(17.86), breakEven: own(44.19 / 17, 0.0001) },
  },
  {
    name: 'a pig sold by hanging weight',
    source:
      'one farm’s own account, about 2013 (year from memory): 165 pounds at 4.50, 400 in cash, 20 hours',
    sales: 165 * 4.5,
    costs: 400,
    hours: 20,
    yield: 165,
    expects: { margin: own(342.5), anHour: own(17.125), breakEven: own(400 / 165, 0.0001) },
  },
  {
    name: 'a lamb of 120 pounds, by live weight',
    source: 'budget sheet of a University of Maryland sheep program, hair sheep',
    sales: 0,
    costs: 197.29,
    yield: 120,
    expects: { breakEven: printed(1.64) },
  },
  {
    name: 'a lamb of 120 pounds, by carcass at 50 percent',
    source: 'budget sheet of a University of Maryland sheep program, hair sheep',
    sales: 0,
    costs: 197.29,
    yield: 60,
    expects: { breakEven: printed(3.28, 0.01) },
  },
  {
    name: 'four cows in Vermont, milk sold fresh',
    source: 'a trade paper, 2011: 6,000 gallons at 7, about half of it costs, 16 hours a week',
    units: 4,
    sales: 1500 * 7,
    costs: 1500 * 3.5,
    hours: (16 * 52) / 4,
    yield: 1500,
    expects: { sales: own(42_000), margin: own(21_000), anHour: own(25.24), breakEven: own(3.5) },
  },
  {
    name: 'an acre of vegetables on a farm under three acres',
    source:
      'J. Hendrickson, Grower to Grower, CIAS Wisconsin (sales); Illinois Fruit and Vegetable News (hours)',
    sales: 15_623,
    costs: 0,
    hours: 2000,
    expects: { anHour: own(7.8, 0.02) },
  },
  {
    name: 'an acre of vegetables on a larger farm',
    source:
      'J. Hendrickson, Grower to Grower, CIAS Wisconsin (sales); Illinois Fruit and Vegetable News (hours)',
    sales: 11_000,
    costs: 0,
    hours: 850,
    expects: { anHour: own(12.94) },
  },
  {
    name: 'an acre of blueberries in Ohio',
    source: 'farm paper on work of Ohio State University Extension: 3,000 pounds at 5, 15,000 an acre',
    sales: 3000 * 5,
    costs: 0,
    yield: 3000,
    expects: { sales: printed(15_000) },
  },
  {
    name: 'a hundred shiitake logs',
    source: 'SARE LNE10-298, New England, targets of the project: 100 pounds at 12',
    sales: 100 * 12,
    costs: 0,
    yield: 100,
    expects: { sales: printed(1200) },
  },
  {
    name: 'an acre of hay with new machines on 50 acres, against hay bought at 85',
    source: hay,
    sales: 2 * 85,
    costs: 2 * 118.8,
    yield: 2,
    expects: { breakEven: printed(118.8), margin: own(-67.6) },
  },
  {
    name: 'an acre of hay with the same machines on 200 acres',
    source: hay,
    sales: 2 * 85,
    costs: 2 * 77.03,
    yield: 2,
    expects: { breakEven: printed(77.03), margin: own(15.94) },
  },
  {
    name: 'an acre of hay by custom work',
    source: hay,
    sales: 2 * 85,
    costs: 2 * 93.99,
    yield: 2,
    expects: { breakEven: printed(93.99), margin: own(-17.98) },
  },
]
