// The addresses that every page is found by: rooms, what only a form leads to, and which links are one and the same page.
import { navigation, roomsOf } from '#web/forms/navigation.ts'

/** The pages of the row of pages and the rooms behind them. */
export const rooms: readonly string[] = [
  ...new Set(navigation.flatMap(({ path }) => [path, ...roomsOf(path).map((room) => room.path)])),
]

/** What only a form or one choice of many leads to. */
export const behindForms: readonly string[] = [
  '/month',
  '/farm/notebook?open=market',
  '/farm/notebook/table',
  '/farm/hours',
  '/farm/enterprises',
  '/farm/enterprises/new?usual=broilers',
  '/farm/markets',
  '/farm/herds',
  '/farm/buying',
  '/farm/fit',
  '/farm/batches',
  '/farm/batches/new',
  '/farm/seen',
  '/farm/preparer',
  '/farm/notebook/phone',
  '/books/sorting',
  '/books/acts',
  '/books/entries/20/for',
  '/start/owned',
  '/start/year',
  '/year-pack/schedule-f',
  '/year-pack/people',
  '/year-pack/payments',
  '/year-pack/cover-papers',
  '/year-pack/pay',
  '/books/spending',
  '/books/entries?text=feed',
  '/books/sorting',
  '/books/reconcile/opening/4',
  '/books/accounts/4/change?chosen=found&text=ewe+ration&from=2025-12-01',
]

/** Pages that differ only in a number, an id or the name of the one thing they show are one page; each section of the plan is its own. */
export function shapeOf(path: string): string {
  const [address, query = ''] = path.split('?') as [string, string?]
  const keys = [...new URLSearchParams(query)].map(([name, value]) =>
    ['kind', 'table'].includes(name) ? `${name}=${value}` : name,
  )
  const kept = address
    .replace(/\/[^/]*\d[^/]*/g, '/#')
    .replace(/^(\/(?!runway\/plan\/)[^/]+\/[^/]+)\/(?!new$)[^/]+$/, '$1/#')
  return `${kept}?${keys.join('&')}`
}

/** Links of a page's text to other pages, without those to files. */
export const pagesAmong = (links: readonly string[]): string[] =>
  links.map((link) => link.split('#')[0]!).filter((link) => !toFile.test(link))

const toFile = /\.(csv|json|ics)(\?|$)|\/attachments\/|\/lock$|\/events|\/download|^\/year-pack\/folder/
