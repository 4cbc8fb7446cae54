// What was ticked and chosen on the desk but is not booked yet: it goes along from page to page in the address, so that nothing is dropped.
import type { PageContext } from '#web/forms/answer.tsx'
import type { TypedForm } from '#web/forms/form.ts'

export interface Choice {
  take: boolean
  /** As the list of targets has it; `''` when nothing is chosen. */
  to: string
}

export type Choices = ReadonlyMap<number, Choice>

/** Where one is on the desk. */
export interface DeskPlace {
  account: number | null
  page: number
}

export const rowsPerPage = 30
/** An address has its bounds: more than this is to be booked first. */
export const mostKept = 300

/** `1.a:5`: ticked, and goes to account 5. */
export const choiceText = ({ take, to }: Choice): string => `${take ? 1 : 0}.${to}`

const readChoice = (text: string): Choice | null => {
  const found = /^([01])\.([\w:-]{0,120})$/.exec(text)
  return found ? { take: found[1] === '1', to: found[2]! } : null
}

/** `77.1.a:5`: the same for line 77. */
export const keptText = (id: number, choice: Choice): string => `${id}.${choiceText(choice)}`

const readKept = (texts: readonly string[]): Map<number, Choice> => {
  const kept = new Map<number, Choice>()
  for (const text of texts.slice(0, mostKept)) {
    const found = /^(\d{1,15})\.(.*)$/.exec(text)
    const choice = found && readChoice(found[2]!)
    if (choice) kept.set(Number.parseInt(found[1]!, 10), choice)
  }
  return kept
}

export interface PostedDesk {
  /** Rows of the page and lines of other pages, as they are now. */
  all: Map<number, Choice>
  /** Those that are not as they were proposed. */
  changed: Map<number, Choice>
}

/**
 * What a sent desk says. Without script a line is also ticked by choosing where it goes; the script ticks the box itself and
 * says so, because then a tick taken away again means what it says.
 */
export const postedDesk = (typed: TypedForm): PostedDesk => {
  const ticksAreExact = typed.value('ticks') === 'exact'
  const all = readKept(typed.values('keep[]'))
  const changed = new Map(all)
  const alike = new Map<number, Choice>()
  for (let index = 0; index < rowsPerPage; index += 1) {
    const at = (name: string) => typed.value(`lines.${index}.${name}`)
    if (!/^\d{1,15}$/.test(at('id'))) continue
    const id = Number.parseInt(at('id'), 10)
    const was = readChoice(at('was')) ?? { take: false, to: '' }
    const to = at('to')
    const others = idsIn(at('alike'))
    const isChosen = others.length > 0 || (!ticksAreExact && to !== '' && to !== was.to)
    const choice = { take: at('take') === 'yes' || isChosen, to }
    if (to !== '') for (const other of others) alike.set(other, choice)
    all.set(id, choice)
    if (choiceText(choice) === choiceText(was)) changed.delete(id)
    else changed.set(id, choice)
  }
  // A line with a choice of its own keeps it.
  for (const [id, choice] of alike) {
    if (changed.has(id)) continue
    all.set(id, choice)
    changed.set(id, choice)
  }
  return { all, changed }
}

/** The other lines of the payee, as the box that stands for them holds them: `12 15 19`. */
const idsIn = (text: string): number[] =>
  text.split(' ').flatMap((id) => (/^\d{1,15}$/.test(id) ? [Number.parseInt(id, 10)] : []))

export const placeOf = (c: PageContext): DeskPlace => ({
  account: wholeOrNull(c.req.query('account')),
  page: wholeOrNull(c.req.query('page')) ?? 1,
})

export const keptInAddress = (c: PageContext): Map<number, Choice> => readKept(c.req.queries('keep') ?? [])

export const deskAddress = (place: DeskPlace, kept: Choices = new Map(), path = '/books/sorting'): string => {
  const query = new URLSearchParams()
  if (place.account !== null) query.set('account', String(place.account))
  if (place.page > 1) query.set('page', String(place.page))
  for (const [id, choice] of kept) query.append('keep', keptText(id, choice))
  const text = query.toString()
  return text === '' ? path : `${path}?${text}`
}

export const wholeOrNull = (text: string | undefined): number | null =>
  text !== undefined && /^\d{1,9}$/.test(text) && text !== '0' ? Number.parseInt(text, 10) : null
