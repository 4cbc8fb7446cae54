// No page of the farm breaks on any farm that its forms can make: random farms, and each of them changed by options of every form.
// In the test command two farms with a few options; `npm run fuzz -- farms` deals all options over 100 farms.
import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision, listPlans, savePlan } from '#db/plan-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { type Plan, planVersion } from '#plan/plan.ts'
import { fuzzBatches } from './batches.ts'
import { DealtOptions } from './dealt-options.ts'
import { type Choice, choicesOf, type OpenForm, openAgain, openForms } from './form-choices.ts'
import { type FormHouse, formHouse } from './form-house.ts'
import { fuzzTimeout } from './limits.ts'
import { inWords, makeChoice, openPage } from './one-choice.ts'
import { randomFarm } from './random-farm.ts'

let first: FormHouse
beforeAll(async () => {
  first = await formHouse()
}, 240_000)
afterAll(() => first.close())

/** `npm run fuzz -- farms 100`; each option on `FUZZ_OPTION_FARMS` of them. */
const farms = Number(process.env.FUZZ_FARMS ?? 0)
const optionFarms = Number(process.env.FUZZ_OPTION_FARMS ?? 15)

test('random farms of which the forms’ options make others leave every page standing', {
  timeout: farms > 0 ? farms * 600_000 : fuzzTimeout,
}, async () => {
  const walk = new FarmWalk()
  for (const { seed, numRuns, dealt } of runs()) {
    const kinds = new DealtOptions({ farms: dealt, times: optionFarms, seed }, kindOf)
    const drawn = fc.sample(randomFarm, { seed, numRuns })
    for (const [place, plan] of drawn.entries()) {
      await walk.over(plan, (choices) => kinds.of(place, choices))
      if (farms > 0) tellProgress(place + 1, walk)
    }
    if (farms > 0)
      console.log(
        `${kinds.offered.size} options, made ${[...kinds.made.values()].reduce((a, b) => a + b, 0)} times`,
      )
    if (farms > 0) expect(kinds.lacking()).toEqual([])
  }
  expect(walk.broken).toEqual([])
  expect(walk.outcomes.saved).toBeGreaterThan(walk.outcomes.refused)
})

/** As many farms as an option waits for its first turn in the test command: few options are due on each. */
const farmsOfShortRun = 2500

const runs = () =>
  farms > 0
    ? [{ seed: Number(process.env.FUZZ_SEED ?? 1), numRuns: farms, dealt: farms }]
    : fuzzBatches(0.0001).map((batch) => ({ ...batch, dealt: farmsOfShortRun }))

/** One of each kind of thing, batch and note. */
const kindOf = ({ method, action }: OpenForm): string => `${method} ${action.replace(/\d+/g, '0')}`

const tellProgress = (tried: number, { broken, outcomes, made }: FarmWalk) =>
  console.log(
    `${tried} of ${farms} farms, ${outcomes.saved} saved, ${outcomes.refused} refused, ${made} new farms, ${broken.length} broken, ${Math.round(process.cpuUsage().user / 1e6)} s of processor`,
  )

class FarmWalk {
  readonly broken: string[] = []
  readonly outcomes = { saved: 0, refused: 0, shown: 0 }
  /** Random farms, and those that options made of them. */
  farms = 0
  made = 0
  #seen = new Set<string>()

  /** All pages of one farm, then the options that are dealt to it. */
  async over(plan: Plan, deal: (choices: Choice[]) => Choice[]): Promise<void> {
    const house = await formHouse(first.books)
    this.#seen = new Set()
    const farm = () => this.#putBack(house, plan)
    farm()
    this.#isNew(house)
    await this.#noting('a random farm', async () => {
      await openAll(house, this.farms % othersEvery === 0 ? tellsPlan : isOfFarm, 'a random farm')
    })
    this.farms += 1
    const choices = deal((await openForms(house, '/farm', alikePages)).flatMap(choicesOf))
    for (const choice of choices.filter(({ form }) => isOfPlan(form)))
      await this.#noting(inWords(choice), async () => {
        await this.#change(house, choice)
        farm()
      })
    // Notes stay one beside the other, as they would on a farm; its pages are opened when all are made.
    for (const choice of choices.filter(({ form }) => !isOfPlan(form)))
      await this.#noting(inWords(choice), () => this.#note(house, choice))
    await this.#noting('all notes', () => openAll(house, isOfFarm, 'all notes'))
    expect(verifyBooks(house.books.sqlite).findings).toEqual([])
    house.close()
  }

  /** One broken choice does not hide the others. */
  async #noting(what: string, work: () => Promise<void>): Promise<void> {
    try {
      await work()
    } catch (error) {
      const says = `${what}: ${(error as Error).message.split('\n')[0]}`
      this.broken.push(says)
      if (farms > 0) console.log(says)
    }
  }

  /** The plan's farm changed by one option, and every page that tells it; the next begins from the farm as it was. */
  async #change(house: FormHouse, choice: Choice): Promise<void> {
    const outcome = await makeChoice(house, standingOn(house, choice.form), choice)
    this.outcomes[outcome.kind] += 1
    if (outcome.kind !== 'saved' || !this.#isNew(house)) return
    this.made += 1
    await openPage(house, outcome.next, inWords(choice))
    await openPage(house, choice.form.page, inWords(choice))
    await openAll(house, (page) => isOpenedAfter(page, house.pages, this.made), inWords(choice))
  }

  async #note(house: FormHouse, choice: Choice): Promise<void> {
    // What was noted before may have used the form up.
    const form = choice.form.method === 'get' ? choice.form : await openAgain(house, choice.form)
    if (!form) return
    const outcome = await makeChoice(house, form, choice)
    this.outcomes[outcome.kind] += 1
    if (outcome.kind === 'saved') await openPage(house, outcome.next, inWords(choice))
  }

  #isNew(house: FormHouse): boolean {
    const farm = createHash('sha256')
      .update(JSON.stringify(planIn(house).document))
      .digest('base64')
    if (this.#seen.has(farm)) return false
    this.#seen.add(farm)
    return true
  }

  #putBack(house: FormHouse, plan: Plan): void {
    const { document, planId, revisionNo: basedOn } = planIn(house)
    if (JSON.stringify(document) === JSON.stringify(plan)) return
    const act = { formId: crypto.randomUUID(), at: '2026-11-25T12:00:00.000Z', actor: 'test' }
    savePlan(house.books, act, { planId, basedOn, schemaVersion: planVersion, document: plan })
  }
}

const planIn = (house: FormHouse) => {
  const [known] = listPlans(house.books)
  return latestRevision(house.books, known!.id)!
}

const isOfPlan = ({ method, controls }: OpenForm): boolean =>
  method === 'post' && controls.some(({ name }) => name === 'planId')

/** The form as it would open now: the plan is as it was when the form was found, but its revision is another. */
const standingOn = (house: FormHouse, form: OpenForm): OpenForm => {
  const now: Record<string, string> = {
    formId: crypto.randomUUID(),
    basedOn: String(planIn(house).revisionNo),
  }
  return {
    ...form,
    controls: form.controls.map((one) => ({ ...one, value: now[one.name] ?? one.value })),
  }
}

const openAll = async (house: FormHouse, which: (page: string) => boolean, what: string): Promise<void> => {
  for (const page of house.pages) if (which(page)) await openPage(house, page, what)
}

/** Pages of books, papers and settings show the same whatever the farm: their own forms are tried elsewhere. */
const tellsPlan = (page: string): boolean => /^\/(now|farm|slower-years|runway|cover)\b/.test(page)

const isOfFarm = (page: string): boolean => /^\/(farm|slower-years)\b/.test(page)

/** Of what is not the farm's, on one random farm in so many. */
const othersEvery = 5
/** Pages of one kind that are looked through for forms: batches, hours of a week. */
const alikePages = 3

/** What it answers takes as long as all other pages of a farm, a program solved for each phase. */
const answers = '/slower-years/answers'
const answersEvery = 6

/**
 * Each farm that an option made opens half of the pages that tell its plan, the next one the others, so that each option meets each
 * page on several farms. What is noted of the farm stands beside its plan, and is opened once when it is.
 */
const isOpenedAfter = (page: string, pages: readonly string[], made: number): boolean => {
  if (page === answers) return made % answersEvery === 0
  if (!isOfFarm(page) || /^\/farm\/(notebook|batches|preparer)\b/.test(page)) return false
  return page === '/farm' || pages.indexOf(page) % 2 === made % 2
}
