// What Health says beside its figures: of which months, in which dollars, at which income. An invented couple of 58 and 56 on the
// marketplace, whose plan begins in November 2026, with pay, prices that rise by a twentieth a year, and no farm.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from './test-app.ts'

const couple = {
  planVersion: 4,
  startMonth: '2026-11',
  years: 20,
  household: {
    people: [
      { id: 'ina', name: 'Ina', born: '1968-05-02' },
      { id: 'olaf', name: 'Olaf', born: '1970-02-20' },
    ],
    pay: [{ id: 'mill', name: 'Mill', person: 'ina', perMonth: 6500 }],
    living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
  },
  health: {
    marketplace: {
      members: [{ person: 'ina' }, { person: 'olaf' }],
      planAt21: 420,
      benchmarkAt21: 420,
    },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 80_000 }] },
  assumptions: { inflation: 0.05, premiumGrowth: 0.05 },
}

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-25' })
  app.openSides()
})
afterEach(() => app.close())

const page = async (path: string) => (await (await app.get(path)).text()).replace(/\s+/g, ' ')
const json = async (path: string) => (await (await app.get(path)).json()) as never
/** Its heading is the page's own. */
const whoIsCovered = 'Who is covered by what'
const section = (html: string, id: string) =>
  html.split(`<section aria-label${id === whoIsCovered ? '' : 'ledby'}="${id}">`)[1]!.split('</section>')[0]!

const twoMonths = 'for November and December 2026'

test('a year of which the plan knows two months says so at its credit and at what crossing a line costs, never “a year”', async () => {
  app.savePlan(couple)
  const html = await page('/cover?year=2026&income=50000')
  const room = section(html, 'room-title')
  expect(room).toContain(`${twoMonths}`)
  expect(room).toMatch(/costs \$[\d,]+ for November and December 2026/)
  expect(room).not.toMatch(/(costs|brings) \$[\d,]+ a year/)
  const credit = await page('/cover/credit?year=2026&income=50000')
  const standing = section(credit, 'standing-title')
  expect(standing).toContain(twoMonths)
  expect(section(credit, 'kept-title')).toContain(
    'What you keep of extra other income, November and December 2026<',
  )
  // Two months of pay by the plan, 13,000, are no year's income: said where nothing else is tried, and of the plan's own figure.
  const planned = section(await page('/cover/credit?year=2026'), 'standing-title')
  expect(planned).toContain('>$13,000<')
  expect(planned).toContain(`Income ${twoMonths}, with what the plan’s taxes say came earlier in the year`)
  expect(standing).toContain(
    `By the plan ${twoMonths}, with what the plan’s taxes say came earlier in the year`,
  )
  expect(standing).not.toContain(`Income ${twoMonths}`)
  // The year after is whole.
  const whole = await page('/cover?year=2027&income=50000')
  expect(section(whole, 'room-title')).toMatch(/costs \$[\d,]+ a year/)
  expect(whole).not.toContain(twoMonths)
  // The row of 2026 in the table by year stands for the same two months.
  expect(section(await page('/cover/years'), whoIsCovered)).toContain(`2026, credit ${twoMonths}`)
})

test('what is taken of months before the plan of which nothing is told is said, until something is', async () => {
  app.savePlan(couple)
  const says = 'Nothing is entered of January to October 2026.'
  for (const path of ['/cover?year=2026', '/cover/years']) {
    const html = await page(path)
    expect(html, path).toContain(says)
    expect(html, path).toContain('href="/runway/plan/tax"')
  }
  expect(await page('/cover?year=2027')).not.toContain(says)
  expect(await json('/cover.json?year=2026')).toMatchObject({ untold: 'January to October 2026' })
  app.savePlan({ ...couple, tax: { soFar: { wages: 65_000 } } }, { basedOn: 1 })
  expect(await page('/cover?year=2026')).not.toContain(says)
})

test('the question of income room says it too, in its sentence and in its table', async () => {
  app.savePlan({
    ...couple,
    household: { ...couple.household, pay: [{ ...couple.household.pay[0], perMonth: 5000 }] },
  })
  const found: { sentence: string; years: { year: number; part: { months: number } | null }[] } = await json(
    '/runway/questions/income-room.json',
  )
  expect(found.years[0]).toMatchObject({ year: 2026, part: { months: 2 } })
  expect(found.years[1]!.part).toBeNull()
  expect(found.sentence).toMatch(/^In 2026 .*costs \$[\d,]+ for November and December 2026\./)
  const html = await page('/runway/questions/income-room')
  expect(html).toContain(
    `Income of 2026 is that ${twoMonths}, with what the plan’s taxes say came earlier in the year.`,
  )
  expect(html).toContain(`2026, cost ${twoMonths}</th>`)
})

test('a line at which a silver plan changes nothing is left out: under a program that reaches beyond it', async () => {
  app.savePlan({ ...couple, startMonth: '2026-01', health: { ...couple.health, limits: { adult: 215 } } })
  const html = await page('/cover?year=2027&income=20000')
  expect(html).toContain('Income room')
  expect(html).not.toMatch(/Silver plans cover (\d+)% instead of \1%/)
})

test('the block of one year says in dollars of which year it stands, Part B in those of its own', async () => {
  app.savePlan(couple)
  const rooms = ['', '/credit', '/years'].map((room) => page(`/cover${room}?year=2031`))
  const html = (await Promise.all(rooms)).join('')
  for (const id of ['standing-title', 'bands-title', 'room-title', 'kept-title'])
    expect(section(html, id)).toContain('In dollars of 2031.')
  expect(html.split('id="credit-by-income"')[1]!.split('</figure>')[0]).toContain('In dollars of 2031.')
  expect(section(html, whoIsCovered)).toContain('In today’s dollars')
  // Ina is 65 in May 2033, Olaf in February 2035.
  expect(section(html, 'medicare-title')).toMatch(/\$[\d,]+ in dollars of 2033.*\$[\d,]+ in dollars of 2035/)
})

test('a published history of premiums is in the dollars in which it was published', async () => {
  app.savePlan({
    ...couple,
    household: { ...couple.household, place: { state: 'PA', county: 'Erie County' } },
  })
  const place = section(await page('/cover/place'), 'place-title')
  expect(place).toContain('id="county-premiums"')
  expect(place).toContain('In dollars of each year, as published.')
  expect(place).not.toContain('today’s dollars')
})

test('an income that is tried is in the title and at the marks; without one the year stands as it is', async () => {
  app.savePlan(couple)
  const tried = await page('/cover/credit?year=2027&income=60000')
  expect(section(tried, 'standing-title')).toContain('>2027 with an income of $60,000 tried</h2>')
  for (const html of [tried, await page('/cover?year=2027&income=60000')])
    expect(html).not.toContain('as it stands')
  const stands = await page('/cover/credit?year=2027')
  expect(section(stands, 'standing-title')).toContain('>2027 as it stands</h2>')
})

test('of a long table by year six stand open, the rest a step away', async () => {
  // A child of three keeps the couple’s years changing; the couple is 35.
  app.savePlan({
    ...couple,
    years: 28,
    household: {
      ...couple.household,
      people: [
        { id: 'ina', name: 'Ina', born: '1991-05-02' },
        { id: 'olaf', name: 'Olaf', born: '1991-02-20' },
      ],
    },
  })
  const [open, later] = section(await page('/cover/years'), whoIsCovered).split(
    '<summary>The years after: 2032 to ',
  ) as [string, string]
  expect(open).toContain('>2031')
  expect(later.match(/<th scope="row"/g)!.length).toBeGreaterThan(15)
  expect(
    open
      .split('By year: each person')
      .at(-1)!
      .match(/<th scope="row"/g),
  ).toHaveLength(6)
})
