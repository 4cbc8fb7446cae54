// Every option of every form of the farm, on random farms: the farm's pages stand on whatever farm comes of it. `npm run fuzz -- farms`
// tries 100; the test command one of the day's seed.
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision, listPlans, savePlan } from '#db/plan-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { type Plan, planVersion } from '#plan/plan.ts'
import { type FuzzBatch, fuzzBatches } from './batches.ts'
import { apartIn, type Round, roundsOf } from './choice-rounds.ts'
import { type Chosen, type OpenForm, openAgain, openForms } from './form-choices.ts'
import { type FormHouse, formHouse } from './form-house.ts'
import { randomFarm } from './random-farm.ts'
import { openEverything, openOne, sendChoices } from './send-choices.ts'

let first: FormHouse
beforeAll(async () => {
  first = await formHouse()
}, 240_000)
afterAll(() => first.close())

/** `npm run fuzz -- farms 100`: so many random farms. */
const manyFarms = Number(process.env.FUZZ_FARMS ?? 0)
const batches = (): FuzzBatch[] =>
  manyFarms > 0
    ? [{ seed: Number(process.env.FUZZ_SEED ?? 1), numRuns: manyFarms }]
    : fuzzBatches()
        .slice(-1)
        .map(({ seed }) => ({ seed, numRuns: 1 }))

const broken: string[] = []
const outcomes = { saved: 0, shown: 0, refused: 0, alone: 0 }

test('every option of the farm’s forms leaves every page of the farm standing, whatever the farm', {
  timeout: Math.max(600_000, manyFarms * 120_000),
}, async () => {
  let farms = 0
  for (const { seed, numRuns } of batches())
    for (const plan of fc.sample(randomFarm, { seed, numRuns })) {
      farms += 1
      await tryFarm(plan, `farm ${farms} of seed ${seed}`, seed + farms)
      if (manyFarms > 0)
        console.log(
          process.cpuUsage().user / 1e6,
          `${farms} farms, ${broken.length} broken, ${JSON.stringify(outcomes)}`,
        )
    }
  expect(broken).toEqual([])
  expect(outcomes.saved).toBeGreaterThan(outcomes.refused)
})

const tryFarm = async (plan: Plan, farm: string, turn: number): Promise<void> => {
  const ground = await formHouse(first.books)
  save(ground, plan)
  const forms = await noting(farm, async () => {
    await openEverything(ground, farm)
    return openForms(ground, '/farm')
  })
  if (forms) await tryForms(ground, forms, farm, turn)
  ground.close()
}

/**
 * In each round every form is sent once, each in the farm that the others left; after every fourth round, by the seed which, and at the end, all pages of
 * the farm are opened. A form's own page is opened anew in every fourth round; between, it is sent as it was found.
 */
const tryForms = async (ground: FormHouse, forms: readonly OpenForm[], farm: string, turn: number) => {
  const sendings = forms
    .filter(({ action }) => !isRemoval(action))
    .map((form) => ({ form, rounds: roundsOf(form, turn), isUsedUp: false }))
  const longest = Math.max(...sendings.map(({ rounds }) => rounds.length))
  let house = await formHouse(ground.books)
  let sent: string[] = []
  for (let round = 0; round < longest; round += 1) {
    const isSound = await noting(farm, async () => {
      for (const sending of sendings) sent.push(...(await sendRound(house, sending, round)))
      if ((round + turn) % 4 === 0 && sent.length > 0) {
        await openFarm(house, `${farm}: ${sent.join('; ')}`)
        sent = []
      }
      keepSmall(house, ground)
      return true
    })
    if (isSound) continue
    // The others go on from new books.
    house.close()
    house = await formHouse(ground.books)
    sent = []
  }
  await noting(farm, () => openFarm(house, `${farm}: ${sent.join('; ')}`))
  await noting(farm, () => removeAll(house, farm))
  expect(verifyBooks(house.books.sqlite).findings).toEqual([])
  house.close()
}

interface SentForm {
  form: OpenForm
  rounds: readonly Round[]
  /** What was chosen before may have used it up, like goods that are valued now. */
  isUsedUp: boolean
}

/** What was saved, in words. A form that is refused with all of it together is sent with each of it alone. */
const sendRound = async (house: FormHouse, sending: SentForm, place: number): Promise<string[]> => {
  const round = sending.rounds[place]
  if (!round || sending.isUsedUp) return []
  const name = `round-${place}`
  const isPlain = sending.form.method === 'get'
  if (!isPlain && place % 4 === 0) {
    const found = await openAgain(house, sending.form)
    if (found) sending.form = found
    sending.isUsedUp = found === null
  }
  if (sending.isUsedUp) return []
  const form = asOf(house, sending.form)
  const together = await sendOne(house, form, round, name)
  if (together.outcome !== 'refused') return together.said
  const said: string[] = []
  for (const [at, choice] of apartIn(round, form).entries()) {
    outcomes.alone += 1
    said.push(...(await sendOne(house, asOf(house, form), [choice], `${name}-${at}`)).said)
  }
  return said
}

/** The form with an id of its own, made for the plan as it stands now. */
const asOf = (house: FormHouse, form: OpenForm): OpenForm => {
  const fresh: Readonly<Record<string, string>> = {
    formId: crypto.randomUUID(),
    basedOn: String(revisionOf(house).revisionNo),
  }
  return { ...form, controls: form.controls.map((one) => ({ ...one, value: fresh[one.name] ?? one.value })) }
}

const sendOne = async (house: FormHouse, form: OpenForm, choices: readonly Chosen[], name: string) => {
  const what = `${form.method} ${form.action} ${JSON.stringify(Object.fromEntries(choices.map((one) => [one.name, one.value])))}`
  const { outcome } = await sendChoices(house, form, choices, what, name)
  outcomes[outcome] += 1
  return { outcome, said: outcome === 'saved' ? [what] : [] }
}

const openFarm = async (house: FormHouse, what: string): Promise<void> => {
  for (const page of house.pages)
    if (/^\/(farm|slower-years)(?!.*\.crt)/.test(page)) await openOne(house, page, what)
}

const isRemoval = (action: string): boolean => /\/remove$/.test(action)

/** All that can be taken away from the farm, down to a farm of nothing; the pages are opened after each kind of thing. */
const removeAll = async (house: FormHouse, farm: string): Promise<void> => {
  const removals = (await openForms(house, '/farm')).filter(({ action }) => isRemoval(action))
  for (const kind of new Set(removals.map(({ action }) => house.patternOf(action)))) {
    for (const form of removals.filter(({ action }) => house.patternOf(action) === kind))
      await sendOne(house, asOf(house, form), [], '')
    await openFarm(house, `${farm}: nothing left of ${kind}`)
  }
}

/** Of each list at most two things beside those of the ground stay, the last ones: a farm of fifty purchases is slow and tells no more. */
const keepSmall = (house: FormHouse, ground: FormHouse): void => {
  const plan = planOf(house)
  const known = planOf(ground)
  const lists = ['enterprises', 'markets', 'herds', 'purchases', 'facilities', 'loans', 'overheads'] as const
  const small = lists.map((list) => {
    const isKnown = ({ id }: { id: string }) => known.farm[list].some((one) => one.id === id)
    const later = plan.farm[list].filter((one) => !isKnown(one)).slice(-2)
    return [
      list,
      plan.farm[list].filter((one) => isKnown(one) || (later as { id: string }[]).includes(one)),
    ] as const
  })
  if (small.every(([list, things]) => things.length === plan.farm[list].length)) return
  save(house, { ...plan, farm: { ...plan.farm, ...Object.fromEntries(small) } })
}

const revisionOf = ({ books }: FormHouse) => latestRevision(books, listPlans(books)[0]!.id)!

const planOf = (house: FormHouse): Plan => revisionOf(house).document as Plan

const save = (house: FormHouse, plan: Plan): void => {
  const { planId, revisionNo } = revisionOf(house)
  const act = { formId: crypto.randomUUID(), at: '2026-11-25T12:00:00.000Z', actor: 'test' }
  savePlan(house.books, act, { planId, basedOn: revisionNo, schemaVersion: planVersion, document: plan })
}

/** What breaks is told at the end, and does not hide what else does. */
const noting = async <Found>(farm: string, tried: () => Promise<Found>): Promise<Found | undefined> => {
  try {
    return await tried()
  } catch (error) {
    broken.push(`${farm}: ${(error as Error).message.split('\n')[0]!}`)
    return undefined
  }
}
