// The sent desk in terms of lines: a row stands for all transactions of a payee, and each of them can be left out or go its own way.
import type { LineChoice } from '#db/statements/line-choices.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import type { TypedForm } from '#web/forms/form.ts'

export type Choices = ReadonlyMap<number, LineChoice>

/** Where one is on the desk: which lines are shown, and which row is opened line by line. */
export interface DeskPlace {
  account: number | null
  page: number
  find: string
  show: Shown
  open: number | null
  /** How many transactions of that row come before those shown. */
  from: number
}

export const shownKinds = ['all', 'open', 'check', 'sure', 'ticked'] as const
export type Shown = (typeof shownKinds)[number]

/** With one row opened, so many fit on eight screens of a desk. */
export const groupsPerPage = 60

/** Where a row's lines go that are proposed each for its own entry or transfer. */
export const asProposed = 'p'

/** Of a line that is left out of a row that is not ticked: it stays out once the row gets its place. */
export const leftOut = '-'

/** `1.a:5`: ticked, and goes to account 5. */
export const choiceText = ({ take, to }: LineChoice): string => `${take ? 1 : 0}.${to}`

const readChoice = (text: string): LineChoice | null => {
  const found = /^([01])\.([\w:.-]{0,120})$/.exec(text)
  return found ? { take: found[1] === '1', to: found[2]! } : null
}

export interface PostedDesk {
  /** The lines of each row that was sent, by its first line; left out are those whose own tick was taken away. */
  rows: Map<number, { lines: number[]; kept: number[] }>
  all: Map<number, LineChoice>
  /** Those that are not as they were proposed; null for those that are. */
  changed: Map<number, LineChoice | null>
  /** Words that name no place, with the line they stand at; `to` where they were meant for its whole row. */
  unnamed: Unnamed[]
}

export interface Unnamed {
  lineId: number
  of: 'to' | 'own'
  words: string
}

/** The place that typed words name for a line; null where they name none. */
export type PlaceNamed = (lineId: number, words: string) => string | null

/**
 * What a sent desk says. Without script a row is also ticked by choosing where it goes; the script ticks the box itself and
 * says so, because then a tick taken away again means what it says.
 */
export const postedDesk = (typed: TypedForm, ground: DeskGround): PostedDesk => {
  const sent: PostedDesk = { rows: new Map(), all: new Map(), changed: new Map(), unnamed: [] }
  for (const [, id] of rowsNamed(typed)) readRow(typed, Number(id), { sent, ...ground })
  return sent
}

/** Rows are sent under their first line (`rowName`). */
const rowsNamed = ({ nested }: TypedForm) =>
  Object.keys(nested.g ?? {}).flatMap((name) => {
    const named = /^n(\d{1,15})$/.exec(name)
    return named ? [named] : []
  })

export interface DeskGround {
  placeNamed: PlaceNamed
  /** Whether the place is an account that a line of work can stand beside. */
  takesEnterprise(place: string): boolean
}

const readRow = (
  typed: TypedForm,
  rowId: number,
  { sent, placeNamed, takesEnterprise }: DeskGround & { sent: PostedDesk },
): void => {
  const at = (name: string) => typed.value(`g.n${rowId}.${name}`)
  const lines = idsIn(at('lines'))
  const [first] = lines
  if (first === undefined) return
  /** What was typed goes before what is chosen in the list beside it. */
  const placed = (id: number, of: 'to' | 'own', chosen: string, words: string): string => {
    if (words.trim() === '') return chosen
    const named = placeNamed(id, words)
    if (named === null) sent.unnamed.push({ lineId: id, of, words })
    return named ?? chosen
  }
  const without = new Set(typed.values(`g.n${rowId}.without[]`).flatMap(idsIn))
  const was = readChoice(at('was')) ?? { take: false, to: '' }
  const place = placed(first, 'to', at('to'), at('toTyped'))
  const to = takesEnterprise(place) ? withEnterprise(place, at('enterprise')) : place
  const isChosen = typed.value('ticks') !== 'exact' && to !== '' && to !== was.to
  const takesAll = at('take') === 'yes' || isChosen
  for (const id of lines) {
    const own = placed(id, 'own', at(`own.n${id}`), at(`ownTyped.n${id}`))
    const isOut = without.has(id)
    const goesTo = isOut && !takesAll && own === '' ? leftOut : own || to
    const choice = { take: !isOut && (takesAll || own !== ''), to: goesTo }
    sent.all.set(id, choice)
    sent.changed.set(id, choiceText(choice) === choiceText(was) ? null : choice)
  }
  sent.rows.set(rowId, { lines, kept: lines.filter((id) => !without.has(id)) })
}

/** An account with the enterprise or batch beside it; beside anything else they say nothing. */
const withEnterprise = (to: string, enterprise: string): string =>
  enterprise !== '' && /^a:\d+$/.test(to) ? `${to}:${enterprise}` : to

/** `12 15 19`. */
const idsIn = (text: string): number[] =>
  text.split(' ').flatMap((id) => (/^\d{1,15}$/.test(id) ? [Number.parseInt(id, 10)] : []))

export const placeOf = (c: PageContext): DeskPlace => ({
  account: wholeOrNull(c.req.query('account')),
  page: wholeOrNull(c.req.query('page')) ?? 1,
  find: (c.req.query('find') ?? '').slice(0, 60),
  show: shownKinds.find((one) => one === c.req.query('show')) ?? 'all',
  open: wholeOrNull(c.req.query('open')),
  from: wholeOrNull(c.req.query('from')) ?? 0,
})

/** `more`: what goes into the query beside the place. */
export const deskAddress = (
  place: DeskPlace,
  path = '/books/sorting',
  more: Readonly<Record<string, string>> = {},
): string => {
  const query = new URLSearchParams(more)
  if (place.account !== null) query.set('account', String(place.account))
  if (place.find !== '') query.set('find', place.find)
  if (place.show !== 'all') query.set('show', place.show)
  if (place.page > 1) query.set('page', String(place.page))
  if (place.open !== null) query.set('open', String(place.open))
  if (place.open !== null && place.from > 0) query.set('from', String(place.from))
  const text = query.toString()
  return text === '' ? path : `${path}?${text}`
}

export const wholeOrNull = (text: string | undefined): number | null =>
  text !== undefined && /^\d{1,9}$/.test(text) && text !== '0' ? Number.parseInt(text, 10) : null
