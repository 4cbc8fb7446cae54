// Every choice of every form is saved, or refused at its field, and every page can be opened after it. All of them by `npm run fuzz`;
// in the test command a share of them, drawn by the seed.
import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import type { Day } from '#calendar/day.ts'
import { headMoves } from '#db/notebook/field-notes.ts'
import { latestRevision, listPlans, savePlan } from '#db/plan-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { planVersion } from '#plan/plan.ts'
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
import { randomFarm } from './random-farm.ts'

let first: FormHouse
beforeAll(async () => {
  first = await formHouse()
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
  const forms = (await openForms(first)).filter(({ action }) => !isOfTheHouse(action))
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
      if (manyFarms > 0)
        console.log(
          `${farmsTried} of ${manyFarms} farms, ${broken.length} broken, ${Math.round(process.cpuUsage().user / 1e6)} s of processor`,
        )
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
  const opened = new OpenedFarms()
  for (const choice of choices) {
    try {
      if (choice.form !== last) {
        if (house) await openRest(house, opened, last)
        house?.close()
        house = await formHouse(ground.books)
        last = choice.form
      }
      await tryOne(house!, choice, opened)
    } catch (error) {
      // One broken choice does not hide the others; the house goes on from new books.
      broken.push((error as Error).message.split('\n')[0]!)
      last = null
    }
  }
  if (house) await openRest(house, opened, last)
  if (house) expect(verifyBooks(house.books.sqlite).findings).toEqual([])
  house?.close()
}

/**
 * Farms whose pages were opened already, on many farms: most choices leave the plan as another one left it, or as it was, and its
 * pages would show the same again. What is noted beside the plan stays: its pages are opened once when all of a form is noted.
 */
class OpenedFarms {
  readonly #farms = new Set<string>()
  /** Whether something was saved since the last opening of pages. */
  hasMore = false

  isNew(house: FormHouse): boolean {
    const [known] = listPlans(house.books)
    const { document } = latestRevision(house.books, known!.id)!
    const heads = headMoves(house.books, '9999-12-31' as Day)
    const farm = createHash('sha256')
      .update(JSON.stringify([document, heads]))
      .digest('base64')
    if (this.#farms.has(farm)) return false
    this.#farms.add(farm)
    return true
  }
}

const openRest = async (house: FormHouse, opened: OpenedFarms, form: OpenForm | null): Promise<void> => {
  if (manyFarms === 0 || !opened.hasMore) return
  opened.hasMore = false
  try {
    await openFarm(house, `all choices of ${form?.action}`)
  } catch (error) {
    broken.push((error as Error).message.split('\n')[0]!)
  }
}

const tryOne = async (house: FormHouse, choice: Choice, farms: OpenedFarms): Promise<void> => {
  // What is only asked changes nothing: its form stays as it was found.
  const opened = choice.form.method === 'get' ? choice.form : await openAgain(house, choice.form)
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
      if (manyFarms > 0 && !farms.isNew(house)) {
        farms.hasMore = true
        return
      }
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
  await openFarm(house, what)
}

const openFarm = async (house: FormHouse, what: string): Promise<void> => {
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
