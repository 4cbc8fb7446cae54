// How fast the farm's questions are answered: a mix, a ten-year path, and thirty years of a herd.
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { type Farm, farmSchema } from '#farm/farm-document.ts'
import { herdSchema } from '#farm/herd/herd-document.ts'
import { herdMonths } from '#farm/herd/herd-months.ts'
import { mixPath, solveMix } from '#farm/mix/mix.ts'
import { fourSeasons } from '#farm/mix/mix-frame.ts'
import { loadSolver } from '#farm/program.ts'
import { type Benches, type BenchRow, medianMilliseconds } from './bench.ts'

export const benches: Benches = { farm: run }

async function run(): Promise<BenchRow[]> {
  const solver = await loadSolver()
  const farm = largeFarm()
  const herd = herdSchema.parse({
    id: 'h',
    name: 'Ewes',
    kind: 'sheep',
    start: '2027-05',
    breedingFemales: 8,
    carryingLimit: 40,
    costPerFemale: 8,
    prices: { youngSold: 200 },
  })
  const floor = {
    what: 'a program of one line',
    milliseconds: await medianMilliseconds(() =>
      solver.solve('Maximize\n obj: x\nSubject To\n r: x <= 1\nEnd\n'),
    ),
  }
  const mix = await medianMilliseconds(
    () => solveMix(solver, farm, { year: 2030, kind: 'most net', periods: fourSeasons }),
    9,
    2,
  )
  const years = mixPath(
    solver,
    farm,
    { year: 2030, kind: 'most net', periods: fourSeasons, largestChange: 0.15 },
    10,
  )
  if (years.some((one) => one.kind !== 'found')) throw new Error('The path of the bench ends in a clash')
  const path = await medianMilliseconds(
    () =>
      mixPath(solver, farm, { year: 2030, kind: 'most net', periods: fourSeasons, largestChange: 0.15 }, 10),
    3,
    1,
  )
  const thirtyYears = await medianMilliseconds(() => herdMonths(herd, month(2027, 5), 360), 50, 10)
  const course = await medianMilliseconds(() => farmCourse(farm, month(2027, 1), 720), 15, 3)
  return [
    {
      what: 'mix of 12 enterprises, 4 seasons, 5 markets',
      milliseconds: mix,
      floor,
      limit: 'under 300 ms',
      held: mix < 300,
    },
    {
      what: 'ten years of mixes, 15 % change a year',
      milliseconds: path,
      floor,
      limit: 'under 5 s',
      held: path < 5000,
    },
    {
      what: 'thirty years of a flock',
      milliseconds: thirtyYears,
      limit: 'under 1 ms',
      held: thirtyYears < 1,
    },
    { what: 'sixty years of a farm of 12 enterprises and a flock', milliseconds: course },
  ]
}

/** Invented: twelve lines of work whose seasons and hours differ, five markets, a flock; hours bind in summer. */
const largeFarm = (): Farm =>
  farmSchema.parse({
    land: 9,
    crew: [
      { who: 'a', weeklyHours: 45 },
      { who: 'b', weeklyHours: 38 },
    ],
    enterprises: Array.from({ length: 12 }, (_, i) => ({
      id: `e${i}`,
      name: `Line ${i + 1}`,
      scale: 3 + (i % 3),
      salesPerUnit: Array.from({ length: 12 }, (_, k) =>
        k >= (i % 4) + 3 && k <= (i % 3) + 8 ? 90 + 11 * ((i * 7) % 5) : 0,
      ),
      costsPerUnit: 60 + 9 * (i % 6),
      hoursPerUnit: Array.from({ length: 12 }, (_, k) => (k >= 2 && k <= 9 ? 2 + ((i * 5 + k) % 4) : 0.3)),
      landPerUnit: 0.03 + 0.01 * (i % 5),
      markets: [`m${i % 5}`, `m${(i + 2) % 5}`],
      maximumScale: 30,
      wholeUnits: i % 6 === 0,
    })),
    markets: Array.from({ length: 5 }, (_, i) => ({
      id: `m${i}`,
      name: `Market ${i + 1}`,
      trips: [0, 0, 0, 2, 4, 4, 4, 4, 4, 4, 2, 0],
      salesPerTrip: 240 + 70 * i,
      feePerTrip: 18 + 3 * i,
      hoursPerTrip: 7 + i,
      followShare: 0.1 * i,
    })),
    herds: [
      {
        id: 'flock',
        name: 'Flock',
        kind: 'sheep',
        start: '2025-05',
        breedingFemales: 8,
        carryingLimit: 20,
        costPerFemale: 7,
        hoursPerFemale: 0.5,
        hoursFixed: 6,
        landPerFemale: 0.3,
        prices: { youngSold: 220, cullFemale: 100 },
      },
    ],
    overheads: [{ id: 'o', name: 'Overheads', costs: 8000, hours: 300 }],
  })
