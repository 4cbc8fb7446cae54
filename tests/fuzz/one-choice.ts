// One choice of a form as a person makes it, with what the answer asks for filled in, and pages that must stand after it.
import { expect } from 'vitest'
import { type Choice, faultyFields, fillingFor, type OpenForm, sentWith, shownAgain } from './form-choices.ts'
import type { FormHouse } from './form-house.ts'

export type Outcome =
  /** Where the answer leads. */
  { kind: 'saved'; next: string } | { kind: 'refused' } | { kind: 'shown' }

const mostAttempts = 5

/** Throws where a page breaks, or shows what it does not have. */
export const makeChoice = async (house: FormHouse, opened: OpenForm, choice: Choice): Promise<Outcome> => {
  const what = inWords(choice)
  let form = opened
  const filled = new Map<string, string>()
  for (let attempt = 1; ; attempt += 1) {
    const reply = await house.send({ ...form, fields: [] }, sentWith(form, choice, filled))
    const html = await reply.text()
    if (reply.status >= 500) throw new Error(`${what} answered ${reply.status}: ${house.whatBroke()}`)
    const next = reply.headers.get('location')
    if (next) return { kind: 'saved', next }
    expect(soundText(html), what).toBeUndefined()
    if (reply.status !== 422) return { kind: 'shown' }
    form = { ...shownAgain(html, form), page: opened.page }
    const missing = faultyFields(html).filter((name) => !filled.has(name) && name !== choice.name)
    for (const name of missing) filled.set(name, fillingFor(form, name) ?? '')
    if (missing.length === 0 || attempt === mostAttempts) return { kind: 'refused' }
  }
}

export const inWords = ({ form, name, value }: Choice): string =>
  `${form.method} ${form.action} ${name === null ? 'as it stands' : `with ${name} = ${value ?? 'nothing'}`}`

export const openPage = async (house: FormHouse, page: string, what: string): Promise<void> => {
  const reply = await house.open(page)
  const html = await reply.text()
  if (reply.status >= 500)
    throw new Error(`${page} answered ${reply.status} after ${what}: ${house.whatBroke()}`)
  expect(soundText(html), `${page} after ${what}`).toBeUndefined()
}

/** What is printed there is the same whatever was chosen, and takes longest of all pages. */
export const isOfTheLaw = (page: string): boolean => /^\/settings\/(sources|words)$/.test(page)

/** Nobody types these: a page that shows them shows what it does not have. */
const soundText = (html: string): string | undefined =>
  /\b(undefined|NaN|-?Infinity)\b|\[object Object\]/.exec(
    html.replace(/<textarea[\s\S]*?<\/textarea>/g, ''),
  )?.[0]
