// Sends a form with choices made, fills in what it then asks for, and looks whether a page can stand.
import { expect } from 'vitest'
import { type Chosen, faultyFields, fillingFor, type OpenForm, sentWith, shownAgain } from './form-choices.ts'
import type { FormHouse } from './form-house.ts'

export interface Sending {
  outcome: 'saved' | 'shown' | 'refused'
  /** Where a save leads. */
  next: string | null
}

/** Throws where the house breaks, or shows what it does not have. `name` is for fields that ask for one. */
export const sendChoices = async (
  house: FormHouse,
  opened: OpenForm,
  choices: readonly Chosen[],
  what: string,
  name?: string,
): Promise<Sending> => {
  let form = opened
  const filled = new Map<string, string>()
  for (let attempt = 0; ; attempt += 1) {
    const reply = await house.send({ ...form, fields: [] }, sentWith(form, choices, filled))
    const html = await reply.text()
    if (reply.status >= 500) throw new Error(`${what} answered ${reply.status}: ${house.whatBroke()}`)
    const next = reply.headers.get('location')
    if (next) return { outcome: 'saved', next }
    expect(soundText(html), what).toBeUndefined()
    if (reply.status !== 422) return { outcome: 'shown', next: null }
    form = { ...shownAgain(html, form), page: opened.page }
    const isChosen = (field: string) => choices.some((one) => one.name === field)
    const missing = faultyFields(html).filter((field) => !filled.has(field) && !isChosen(field))
    for (const field of missing) filled.set(field, fillingFor(form, field, name) ?? '')
    if (missing.length > 0 && attempt < 4) continue
    return { outcome: 'refused', next: null }
  }
}

export const openOne = async (house: FormHouse, page: string, what: string): Promise<void> => {
  const reply = await house.open(page)
  const html = await reply.text()
  if (reply.status >= 500)
    throw new Error(`${page} answered ${reply.status} after ${what}: ${house.whatBroke()}`)
  expect(soundText(html), `${page} after ${what}`).toBeUndefined()
}

/** What is printed on two pages is the same whatever was chosen, and takes longest of all. */
export const openEverything = async (house: FormHouse, what: string): Promise<void> => {
  for (const page of house.pages)
    if (!/^\/settings\/(sources|words)$/.test(page)) await openOne(house, page, what)
}

/** Nobody types these: a page that shows them shows what it does not have. */
const soundText = (html: string): string | undefined =>
  /\b(undefined|NaN|-?Infinity)\b|\[object Object\]/.exec(
    html.replace(/<textarea[\s\S]*?<\/textarea>/g, ''),
  )?.[0]
