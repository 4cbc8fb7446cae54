// The pages of the house, in the order they stand in the row of pages, and the rooms behind those that have several.
export const navigation = [
  { path: '/now', name: 'Now' },
  { path: '/month', name: 'This month' },
  { path: '/books', name: 'Books' },
  { path: '/crossings', name: 'Crossings' },
  { path: '/runway', name: 'Runway' },
  { path: '/cover', name: 'Health' },
  { path: '/farm', name: 'Farm' },
  { path: '/slower-years', name: 'Slower years' },
  { path: '/year-pack', name: 'Year pack' },
  { path: '/settings', name: 'Settings' },
] as const

const roomsBehind: Readonly<Record<string, readonly { path: string; name: string }[]>> = {
  '/books': [
    { path: '/books', name: 'Both sides' },
    { path: '/books/entry', name: 'Record an entry' },
    { path: '/books/receipt', name: 'Mixed receipt' },
    { path: '/books/entries', name: 'Search' },
    { path: '/books/spending', name: 'Spending' },
    { path: '/books/statements', name: 'Bank statements' },
    { path: '/books/sorting', name: 'Sort transactions' },
    { path: '/books/reconcile', name: 'Reconcile' },
    { path: '/books/close', name: 'Close a month' },
    { path: '/books/mixed-up', name: 'In the wrong books?' },
    { path: '/books/acts', name: 'What was done' },
  ],
  '/crossings': [
    { path: '/crossings', name: 'The yard' },
    { path: '/crossings/house-money', name: 'House money by month' },
    { path: '/crossings/history', name: 'What has crossed' },
  ],
  '/runway': [
    { path: '/runway', name: 'Projection' },
    { path: '/runway/years', name: 'Year by year' },
    { path: '/runway/storms', name: 'Bad years' },
    { path: '/runway/chance', name: 'How sure' },
    { path: '/runway/questions', name: 'Questions' },
    { path: '/runway/plan', name: 'Edit the plan' },
    { path: '/runway/compare', name: 'Compare plans' },
    { path: '/runway/actual', name: 'Plan against the books' },
    { path: '/runway/revisions', name: 'Revisions' },
  ],
  '/cover': [
    { path: '/cover', name: 'Cost by income' },
    { path: '/cover/credit', name: 'The credit' },
    { path: '/cover/years', name: 'Who is covered' },
    { path: '/cover/marketplace', name: 'Premiums' },
    { path: '/cover/tax', name: 'Tax so far' },
    { path: '/cover/place', name: 'Where you live' },
  ],
  '/farm': [
    { path: '/farm', name: 'This year' },
    { path: '/farm/enterprises', name: 'Enterprises' },
    { path: '/farm/batches', name: 'Batches' },
    { path: '/farm/markets', name: 'Markets' },
    { path: '/farm/herds', name: 'Herds' },
    { path: '/farm/buying', name: 'Buying' },
    { path: '/farm/fit', name: 'Does it fit?' },
    { path: '/farm/notebook', name: 'Notebook' },
    { path: '/farm/hours', name: 'Hours' },
    { path: '/farm/seen', name: 'Plan and notebook' },
    { path: '/farm/preparer', name: 'For the preparer' },
  ],
  '/slower-years': [
    { path: '/slower-years', name: 'Fewer hours' },
    { path: '/slower-years/answers', name: 'Mix, cushion, claims' },
    { path: '/slower-years/kept', name: 'Money kept back' },
  ],
  '/settings': [
    { path: '/settings', name: 'Overview' },
    { path: '/settings/people', name: 'People and place' },
    { path: '/settings/accounts', name: 'Accounts' },
    { path: '/settings/backups', name: 'Backups' },
    { path: '/settings/calendar', name: 'Dates ahead' },
    { path: '/settings/passphrase', name: 'Passphrase' },
    { path: '/settings/words', name: 'Words we use' },
    { path: '/settings/sources', name: 'Sources' },
  ],
}

/** The page an address belongs to: `/books/accounts/3` is part of Books. */
export const pageOf = (path: string): string =>
  navigation.find((page) => isWithin(path, page.path))?.path ?? '/now'

export interface Room {
  path: string
  name: string
  isCurrent: boolean
}

/** The rooms of the page an address belongs to; none where a page has only one. */
export function roomsOf(path: string): Room[] {
  const page = pageOf(path)
  const rooms = roomsBehind[page] ?? []
  // The first room is the page itself: it is current only at its own address.
  const current = rooms.find((room) => room.path !== page && isWithin(path, room.path))?.path
  return rooms.map((room) => ({ ...room, isCurrent: room.path === (current ?? (path === page ? page : '')) }))
}

const isWithin = (path: string, of: string): boolean => path === of || path.startsWith(`${of}/`)
