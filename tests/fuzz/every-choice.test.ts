// Every choice of every form is saved, or refused at its field, and every page can be opened after it. All of them by `npm run fuzz`;
// in the test command a share of them, drawn by the seed.
import fc from 'fast-check'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { latestRevision, listPlans, savePlan } from '#db/plan-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { herdKinds } from '#farm/herd/herd-document.ts'
import { planVersion } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { randomPlan } from '../runway/random-plan.ts'
import { type FuzzBatch, fuzzBatches, half } from './batches.ts'
import {
  type Choice,
  choicesOf,
  faultyFields,
  fillingFor,
  type OpenForm,
  openAgain,
  openForms,
  sentWith,
  shownAgain,
} from './form-choices.ts'
import { type FormHouse, formHouse } from './form-house.ts'
import { fuzzTimeout } from './limits.ts'

let first: FormHouse
let forms: OpenForm[]
beforeAll(async () => {
  first = await formHouse()
  forms = (await openForms(first)).filter(({ action }) => !isOfTheHouse(action))
}, 240_000)
afterAll(() => first.close())

/** These lock the pages, copy files or change houses: what they do is tested where they are. */
const isOfTheHouse = (action: string): boolean =>
  /^\/(settings\/(passphrase|backups)|sample|lock|unlock)/.test(action)

const outcomes = { saved: 0, refused: 0, shown: 0 }
let broken: string[]
beforeEach(() => {
  broken = []
})

/** `npm run fuzz -- farms 100`: so many random farms, each with every choice of its forms. */
const manyFarms = Number(process.env.FUZZ_FARMS ?? 0)
let farmsTried = 0

const farmBatches = (): FuzzBatch[] =>
  manyFarms > 0 ? [{ seed: Number(process.env.FUZZ_SEED ?? 1), numRuns: manyFarms }] : fuzzBatches(0.0001)

test('every choice of every form is saved or refused at its field, and every page opens after it', {
  timeout: fuzzTimeout,
}, async () => {
  expect(forms.length).toBeGreaterThan(60)
  const choices = forms.flatMap(choicesOf)
  expect(choices.length).toBeGreaterThan(400)
  // Every page is opened after a choice, which takes as long as hundreds of inputs elsewhere.
  for (const batch of fuzzBatches(half)) await tryChoices(first, shareOf(choices, batch))
  expect(broken).toEqual([])
  // A run that is refused everywhere would prove little.
  expect(outcomes.saved).toBeGreaterThan(outcomes.refused)
})

test('every choice of the farm’s forms leaves every page standing, whatever the farm', {
  timeout: manyFarms > 0 ? manyFarms * 1_200_000 : fuzzTimeout,
}, async () => {
  for (const { seed, numRuns } of farmBatches())
    for (const plan of fc.sample(randomFarm, { seed, numRuns })) {
      const house = await formHouse(first.books)
      const [known] = listPlans(house.books)
      const basedOn = latestRevision(house.books, known!.id)!.revisionNo
      const act = { formId: crypto.randomUUID(), at: '2026-11-25T12:00:00.000Z', actor: 'test' }
      savePlan(house.books, act, { planId: known!.id, basedOn, schemaVersion: planVersion, document: plan })
      await openEverything(house, 'a random farm')
      const ofFarm = await openForms(house, '/farm')
      const choices = ofFarm.flatMap(choicesOf)
      if (manyFarms > 0) await tryChoices(house, choices)
      else for (const batch of fuzzBatches(half)) await tryChoices(house, shareOf(choices, batch, 0.2))
      house.close()
      farmsTried += 1
      if (manyFarms > 0) console.log(`${farmsTried} of ${manyFarms} farms, ${broken.length} broken`)
    }
  expect(broken).toEqual([])
})

/** Inputs of the long run, which makes every choice once. */
const longRun = 100_000

/** The batch's part of the long run, spread over the list from a place that the seed says. */
const shareOf = <Item>(items: readonly Item[], { seed, numRuns }: FuzzBatch, part = 1): Item[] => {
  const count = Math.ceil(Math.min(1, numRuns / longRun) * items.length * part)
  const step = items.length / count
  return Array.from({ length: count }, (_, k) => items[(Math.floor(k * step) + seed) % items.length]!)
}

/** The choices of one form in one house after the other, each form in a house of its own. */
const tryChoices = async (ground: FormHouse, choices: readonly Choice[]): Promise<void> => {
  let house: FormHouse | null = null
  let last: OpenForm | null = null
  for (const choice of choices) {
    if (choice.form !== last) {
      house?.close()
      house = await formHouse(ground.books)
      last = choice.form
    }
    try {
      await tryOne(house!, choice)
    } catch (error) {
      // One broken choice does not hide the others; the house goes on from new books.
      broken.push((error as Error).message.split('\n')[0]!)
      last = null
    }
  }
  if (house) expect(verifyBooks(house.books.sqlite).findings).toEqual([])
  house?.close()
}

const tryOne = async (house: FormHouse, choice: Choice): Promise<void> => {
  const opened = await openAgain(house, choice.form)
  // What was chosen before may have used the form up, like a line that is sorted now.
  if (!opened) return
  let form = opened
  const what = `${form.method} ${form.action} with ${choice.name} = ${choice.value ?? 'nothing'}`
  const filled = new Map<string, string>()
  for (let attempt = 0; ; attempt += 1) {
    const fields = sentWith(form, choice, filled)
    const reply = await house.send({ ...form, fields: [] }, fields)
    const html = await reply.text()
    if (reply.status >= 500) throw new Error(`${what} answered ${reply.status}: ${house.whatBroke()}`)
    const next = reply.headers.get('location')
    if (next) {
      outcomes.saved += 1
      await openOne(house, next, what)
      break
    }
    expect(soundText(html), what).toBeUndefined()
    if (reply.status !== 422) {
      outcomes.shown += 1
      return
    }
    form = { ...shownAgain(html, form), page: opened.page }
    const missing = faultyFields(html).filter((name) => !filled.has(name) && name !== choice.name)
    for (const name of missing) filled.set(name, fillingFor(form, name) ?? '')
    if (missing.length > 0 && attempt < 4) continue
    outcomes.refused += 1
    return
  }
  await openAfter(house, what)
}

const openEverything = async (house: FormHouse, what: string): Promise<void> => {
  for (const page of house.pages) if (!isOfTheLaw(page)) await openOne(house, page, what)
}

/** On many farms every choice is followed by the farm's own pages; all others are opened once a farm. */
const openAfter = async (house: FormHouse, what: string): Promise<void> => {
  if (manyFarms === 0) return openEverything(house, what)
  for (const page of house.pages) if (/^\/(farm|slower-years)/.test(page)) await openOne(house, page, what)
}

/** What is printed there is the same whatever was chosen, and takes longest of all pages. */
const isOfTheLaw = (page: string): boolean => /^\/settings\/(sources|words)$/.test(page)

const openOne = async (house: FormHouse, page: string, what: string): Promise<void> => {
  const reply = await house.open(page)
  const html = await reply.text()
  if (reply.status >= 500)
    throw new Error(`${page} answered ${reply.status} after ${what}: ${house.whatBroke()}`)
  expect(soundText(html), `${page} after ${what}`).toBeUndefined()
}

/** Nobody types these: a page that shows them shows what it does not have. */
const soundText = (html: string): string | undefined =>
  /\b(undefined|NaN|-?Infinity)\b|\[object Object\]/.exec(
    html.replace(/<textarea[\s\S]*?<\/textarea>/g, ''),
  )?.[0]

/** A drawn plan whose farm has, beside what was drawn, a lump without hours, now and then stock of some kind, and a market that may take none of it. */
const randomFarm = fc
  .tuple(
    randomPlan(),
    fc.integer({ min: 0, max: 90_000 }),
    fc.constantFrom(null, ...herdKinds),
    fc.record({
      markets: fc.boolean(),
      trips: fc.constantFrom(0, 1, 4),
      growth: fc.constantFrom(
        undefined,
        { perYear: 0.2, from: '2028-03', years: 4 },
        { perYear: -0.5, from: '2020-01' },
      ),
      seat: fc.constantFrom(undefined, { from: '2027-05', chance: 0 }, { from: '2027-05', chance: 0.4 }),
      saleMonths: fc.option(fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 4 }), {
        nil: undefined,
      }),
      waitMonths: fc.integer({ min: 0, max: 12 }),
      ownedAlready: fc.boolean(),
      meat: fc.constantFrom(
        undefined,
        { hangingWeight: 60 },
        { hangingWeight: 60, packagedShare: 0.6, cutPrice: 9, quarterShare: 0.4, quarterPrice: 7 },
      ),
      wage: fc.option(fc.integer({ min: 0, max: 40 }), { nil: undefined }),
    }),
  )
  .map(([plan, sales, kind, more]) => {
    const lump = { id: 'whole-farm', name: 'The farm as it is', salesPerUnit: sales, costsPerUnit: sales / 3 }
    const { markets, trips, growth, seat, saleMonths, wage, ...rest } = more
    const herd = {
      id: 'stock',
      name: 'Stock',
      kind,
      start: plan.startMonth,
      breedingFemales: 9,
      carryingLimit: 20,
      prices: { youngSold: 120 },
      rates: saleMonths ? { saleMonths } : {},
      markets: markets ? ['fair'] : [],
      ...rest,
    }
    const farm = {
      ...plan.farm,
      enterprises: [lump, ...plan.farm.enterprises.slice(0, 2)],
      markets: [...plan.farm.markets, { id: 'fair', name: 'Fair', trips, salesPerTrip: 300, growth, seat }],
      herds: kind === null ? [] : [herd],
      hired: { ...plan.farm.hired, ...(wage === undefined ? {} : { wage }) },
    }
    const read = readPlan({ ...plan, farm })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    return read.plan
  })
