// Every choice of every form is saved, or refused at its field, and every page can be opened after it. All of them by `npm run fuzz`;
// in the test command a share of them, drawn by the seed.
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { verifyBooks } from '#db/verify/verify.ts'
import { drawnOf, type FuzzBatch, fewOrAll, fuzzBatches, partOf, spreadOver } from './batches.ts'
import { type Choice, choicesOf, type OpenForm, openAgain, openForms } from './form-choices.ts'
import { type FormHouse, formHouse } from './form-house.ts'
import { fuzzTimeout } from './limits.ts'
import { inWords, isOfTheLaw, makeChoice, openPage } from './one-choice.ts'

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

test('every choice of every form is saved or refused at its field, and every page opens after it', {
  timeout: fuzzTimeout,
}, async () => {
  const forms = (await openForms(first, '/', fewOrAll(4, 12))).filter(({ action }) => !isOfTheHouse(action))
  expect(forms.length).toBeGreaterThan(60)
  const choices = forms.flatMap(choicesOf)
  expect(choices.length).toBeGreaterThan(400)
  // Every page is opened after a choice, which takes as long as hundreds of inputs elsewhere.
  const [usual, ...days] = fuzzBatches(partOf(1, 0.2))
  await tryChoices(shareOf(choices, usual!))
  // A run that is refused everywhere would prove little; the few of a day may be.
  expect(outcomes.saved).toBeGreaterThan(outcomes.refused)
  for (const batch of days) await tryChoices(shareOf(choices, batch))
  expect(broken).toEqual([])
})

/** Inputs of the long run, which makes every choice once. */
const longRun = 100_000

/** The batch's part of the long run, spread over the list from a place that the seed says. */
const shareOf = <Item>(items: readonly Item[], { seed, numRuns }: FuzzBatch): Item[] =>
  spreadOver(items, Math.ceil(Math.min(1, numRuns / longRun) * items.length), seed)

/** The choices of one form in one house after the other, each form in a house of its own. */
const tryChoices = async (choices: readonly Choice[]): Promise<void> => {
  let house: FormHouse | null = null
  let last: OpenForm | null = null
  for (const choice of choices) {
    try {
      if (choice.form !== last) {
        house?.close()
        house = await formHouse(first.books)
        last = choice.form
      }
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

const pagesAfter = (house: FormHouse) => house.pages.filter((page) => !isOfTheLaw(page))

const tryOne = async (house: FormHouse, choice: Choice): Promise<void> => {
  // What is only asked changes nothing: its form stays as it was found.
  const opened = choice.form.method === 'get' ? choice.form : await openAgain(house, choice.form)
  // What was chosen before may have used the form up, like a line that is sorted now.
  if (!opened) return
  const outcome = await makeChoice(house, opened, choice)
  outcomes[outcome.kind] += 1
  if (outcome.kind !== 'saved') return
  const what = inWords(choice)
  await openPage(house, outcome.next, what)
  for (const page of drawnOf(pagesAfter(house), 15)) await openPage(house, page, what)
}
