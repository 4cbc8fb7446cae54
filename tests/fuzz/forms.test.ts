// Anything in any field of any form: of the books, and of plans and questions. The forms are found once, in a house of their own.
import { range } from 'd3-array'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision, listPlans } from '#db/plan-store.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { assertFuzz, drawnOf, fewOrAll, fuzzRuns, partOf } from './batches.ts'
import { fillForms, isOfPlans } from './every-form.ts'
import { type Form, type FormHouse, formHouse, formsOf } from './form-house.ts'
import { begin, expectQuick, fuzzTimeout } from './limits.ts'
import { bentPlans } from './plan-inputs.ts'

/** Every page of the plan is opened after each. */
const ofPages = partOf(0.03, 1 / 3)

let house: FormHouse
let ofPlans: FormHouse
let all: Form[]
let forms: Form[]
let planForms: Form[]
beforeAll(async () => {
  house = await formHouse()
  ofPlans = await formHouse()
  all = await formsOf(house)
  forms = all.filter((form) => !isOfPlans(form))
  planForms = all.filter(isOfPlans)
}, 240_000)
afterAll(() => {
  house.close()
  ofPlans.close()
})

/** Copying and proving the whole file, and working out the slower years, take a hundred times as long as other forms: these come less often. */
const slowOnesSeldom = (some: readonly Form[]): Form[] => {
  const quick = some.filter(
    ({ action }) => !/^\/(settings\/backups|slower-years\/(answers|phases))/.test(action),
  )
  return [...some, ...range(fewOrAll(11, 3)).flatMap(() => quick)]
}

test('script in any field of any form is shown as text, there and on every page after', {
  timeout: 600_000,
}, async () => {
  const scriptIn = (at: number) => `"><script>alert(${at})</script>`
  const shownAsText = (html: string, at: number) => html.includes(`&lt;script&gt;alert(${at})`)
  const met = new Set<string>()
  const htmlOf = async (reply: Response, where: string) => {
    const html = (reply.headers.get('content-type') ?? '').includes('text/html') ? await reply.text() : ''
    expect(/<script>alert\(\d+\)/.test(html), where).toBe(false)
    return html
  }
  /** All of them at once, then those that were not seen again, by halves: each is seen as text, or was the only one of its form. */
  const put = async (form: Form, names: readonly string[]): Promise<void> => {
    const fields = form.fields.map(({ name, values }): [string, string] => {
      if (name === 'formId') return ['formId', crypto.randomUUID()]
      const at = names.indexOf(name)
      return [name, at < 0 ? (values[0] ?? '') : scriptIn(at)]
    })
    const where = `${form.method} ${form.action} ${names.join()}`
    const reply = await house.send(form, fields)
    let html = await htmlOf(reply, where)
    const next = reply.headers.get('location')
    if (next) html += await htmlOf(await house.open(next), `${next} after ${where}`)
    const unseen = names.filter((_, at) => !shownAsText(html, at))
    for (const name of names) if (!unseen.includes(name)) met.add(where)
    if (names.length < 2 || unseen.length === 0) return
    if (unseen.length < names.length) return put(form, unseen)
    const half = Math.ceil(names.length / 2)
    await put(form, names.slice(0, half))
    await put(form, names.slice(half))
  }
  for (const form of drawnOf(all, 60)) {
    const names = new Set(form.fields.map(({ name }) => name))
    names.delete('formId')
    if (names.size > 0) await put(form, [...names])
  }
  for (const page of house.pages) await htmlOf(await house.open(page), page)
  // A test that never gets its text in would prove nothing.
  expect(met.size).toBeGreaterThan(fewOrAll(20, 50))
})

test('no form of the books breaks a page, takes long or harms the books, whatever is put into its fields', {
  timeout: fuzzTimeout,
}, async () => {
  expect(forms.length).toBeGreaterThan(25)
  expect(forms.some((form) => form.takesFiles)).toBe(true)
  await fillForms(house, slowOnesSeldom(forms))
})

test('a form that arrives without its fields says what to fill in, not what the program expected', async () => {
  const form = forms.find(({ action }) => action === '/settings/passphrase')!
  const reply = await house.send(form, [['formId', crypto.randomUUID()]])
  expect(reply.status).toBe(422)
  const html = await reply.text()
  expect(html).toContain('Fill this in')
  expect(html).not.toMatch(/Invalid input|undefined/)
})

test('every page shows a bent plan that could be read, and one that could not is not saved', {
  timeout: fuzzTimeout,
}, async () => {
  const [plan] = listPlans(ofPlans.books)
  const pages = ofPlans.pages.filter((page) => /^\/(now|runway|cover|farm|slower|calendar)/.test(page))
  expect(pages.length).toBeGreaterThan(10)
  const form: Form = { action: '/runway/revisions/mine', method: 'post', takesFiles: false, fields: [] }
  let saved = 0
  await assertFuzz(
    fc.asyncProperty(bentPlans, fc.uuid(), async (text, formId) => {
      const basedOn = latestRevision(ofPlans.books, plan!.id)!.revisionNo
      const reply = await ofPlans.send(form, [
        ['formId', formId],
        ['planId', plan!.id],
        ['basedOn', String(basedOn)],
        ['document', text],
      ])
      const isRead = readPlanText(text.replaceAll('\0', '')).ok
      expect(reply.status).toBe(isRead ? 303 : 404)
      if (!isRead) return
      saved += 1
      for (const page of drawnOf(pages, 12)) {
        const begun = begin()
        const shown = await ofPlans.open(page)
        const html = await shown.text()
        if (shown.status >= 500) throw new Error(`${page} answered ${shown.status}: ${ofPlans.whatBroke()}`)
        expect(/\b(NaN|Infinity|undefined)\b/.exec(html)?.[0], page).toBeUndefined()
        expectQuick(begun, page)
      }
    }),
    ofPages,
  )
  expect(saved).toBeGreaterThan(fuzzRuns(ofPages) / 6)
})

test('no form of plans and questions breaks a page or takes long, whatever is put into its fields', {
  timeout: fuzzTimeout,
}, async () => {
  expect(planForms.length).toBeGreaterThan(25)
  await fillForms(ofPlans, slowOnesSeldom(planForms))
})
